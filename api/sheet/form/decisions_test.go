package form

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestHoursAreReadFromATableOrFromJSON(t *testing.T) {
	t.Parallel()
	f := newForm(t)
	v := Values{"/weather/at/offset": {"-05:00"}, "/units": {"us"}}
	list, message := f.hours(v, `at, wind_speed (km/h), wind_from, inversion_observed, gust
2026-06-03 08:00, 12, 180, No,
2026-06-03T09:00:00Z,"1,2",190,,20`)
	require.Empty(t, message)
	assert.JSONEq(t, `[
		{"at":"2026-06-03T08:00:00-05:00","wind_speed":{"value":12,"unit":"km/h"},"wind_from":{"value":180,"unit":"deg"},"inversion_observed":false},
		{"at":"2026-06-03T09:00:00Z","wind_speed":{"value":"1,2","unit":"km/h"},"wind_from":{"value":190,"unit":"deg"},"gust":{"value":20,"unit":"mph"}}]`, list)
	for sent, want := range map[string]string{
		`[{"at":"x"}]`: `[{"at":"x"}]`, `{"mission":{},"hours":[1]}`: `[1]`,
	} {
		list, message = f.hours(v, sent)
		assert.Empty(t, message)
		assert.Equal(t, want, list)
	}
	for _, broken := range []string{
		"", "at", "at, wind\n1, 2", "at,wind_speed\n1", `{"a":1}`, `[1`, `{"hours":`, "\"at\n1", "lapse\n1",
		"at\n" + strings.Repeat("2026-06-03T08:00:00Z\n", mostHours+1),
	} {
		_, message = f.hours(v, broken)
		assert.NotEmpty(t, message, "%.60q", broken)
	}
}

func TestTheInventedDayFollowsTheJob(t *testing.T) {
	t.Parallel()
	f := newForm(t)
	v := Values{"/weather/at/local": {"2026-07-08T11:30:00"}, "/weather/at/offset": {"-06:00"}}
	text := exampleHours(v)
	assert.Contains(t, text, "2026-07-08T06:00:00-06:00, 2, ")
	assert.Equal(t, len(inventedDay)+1, strings.Count(text, "\n")+1)
	list, message := f.hours(v, text)
	require.Empty(t, message)
	var hours []map[string]any
	require.NoError(t, json.Unmarshal([]byte(list), &hours))
	assert.Len(t, hours, len(inventedDay))
}

func TestSetUpsHoldWhatIsChangedAlone(t *testing.T) {
	t.Parallel()
	f := newForm(t)
	v := Values{
		"/reference": {"r"}, "set-up/0/flight/speed/value": {"8"}, "set-up/0/flight/speed/unit": {"mph"}, "set-up/0/label": {"Slower"},
		"set-up/1/flight/swath/unit": {"ft"}, "set-up/2/aircraft/count": {"2"},
	}
	setUps := SplitSetUps(v)
	assert.Equal(t, []string{"/reference"}, v.Names(), "what is of a set-up is no part of the job")
	request, faults := f.SetUpsRequest(v, setUps)
	require.Empty(t, faults)
	var made struct {
		SetUps json.RawMessage `json:"set_ups"`
	}
	require.NoError(t, json.Unmarshal(request, &made))
	assert.JSONEq(t, `[{"label":"The job as typed"},{"label":"Slower","flight":{"speed":{"value":8,"unit":"mph"}}},
		{"label":"Another way, 3","aircraft":{"count":2}}]`, string(made.SetUps))
	_, faults = f.SetUpsRequest(v, make([]Values, mostSetUps))
	assert.Len(t, faults, 1, "nothing to compare")
	for _, path := range setUpFields {
		assert.Equal(t, path, f.first(path), "a field of the form")
	}
}

func TestPolygonsAreTakenOutOfAnyGeoJSON(t *testing.T) {
	t.Parallel()
	const ring, other = `[[[0,0],[1,0],[1,1],[0,0]]]`, `[[[2,2],[3,2],[3,3],[2,2]]]`
	one := `{"type":"Polygon","coordinates":` + ring + `}`
	two := `{"type":"MultiPolygon","coordinates":[` + ring + `,` + other + `]}`
	for sent, want := range map[string]string{
		one: one, two: two,
		`{"type":"Polygon","bbox":[0,0,1,1],"coordinates":` + ring + `}`:                                                                                                          one,
		`{"type":"Feature","properties":{"a":1},"geometry":` + one + `}`:                                                                                                          one,
		`{"type":"FeatureCollection","features":[{"type":"Feature","geometry":` + one + `}]}`:                                                                                     one,
		`{"type":"GeometryCollection","geometries":[{"type":"Point","coordinates":[1,2]},` + one + `]}`:                                                                           one,
		`{"type":"FeatureCollection","features":[{"geometry":` + one + `},null,{"geometry":{"type":"Polygon","coordinates":` + other + `}}]}`:                                     two,
		`{"type":"FeatureCollection","features":[{"geometry":{"type":"MultiPolygon","coordinates":[` + ring + `]}},{"geometry":{"type":"Polygon","coordinates":` + other + `}}]}`: two,
		`{"type":"Polygon"}`: `{"type":"Polygon"}`,
		`{"crs":{"properties":{"name":"urn:ogc:def:crs:OGC:1.3:CRS84"}},"type":"Polygon","coordinates":` + ring + `}`: one,
	} {
		got, message := polygonsOf([]byte(sent))
		assert.Empty(t, message, sent)
		assert.JSONEq(t, want, got, sent)
	}
	for _, broken := range []string{
		"", "abc", "[]", `{"type":"Point","coordinates":[1,2]}`, `{"type":"FeatureCollection","features":[]}`, `{"crs":{"x":"EPSG:3857"},"type":"Polygon"}`,
		`{"features":[{"geometry":{"type":"MultiPolygon","coordinates":3}},{"geometry":` + one + `}]}`, `{"features":[{"features":[{"features":[{"features":[{"geometry":` + one + `}]}]}]}]}`,
	} {
		_, message := polygonsOf([]byte(broken))
		assert.NotEmpty(t, message, broken)
	}
}

func TestRowsAndTicksThatContradict(t *testing.T) {
	t.Parallel()
	f := newForm(t)
	v := Values{
		"/field/neighbors/none": {"yes"}, "/field/neighbors/3/kind": {"crop"}, "/field/neighbors/1/distance/unit": {"ft"},
		"/operation/holds/none": {"yes"}, "/operation/holds": {"remote-id"}, "/operation/holds/other": {"a, b;remote-id"},
		"/weather/at/local": {"2026-06-03T08:00"}, "/field/launch_point/latitude": {"33"},
	}
	tidy, blanks := f.Tidy(v)
	assert.Equal(t, "crop", tidy.text("/field/neighbors/0/kind"))
	assert.Equal(t, 3, blanks["/field/neighbors"])
	request, faults := f.Request(tidy)
	var places []string
	for _, fault := range faults {
		places = append(places, fault.Pointer)
	}
	assert.ElementsMatch(t, []string{"/weather/at", "/field/launch_point", "/field/neighbors/0/kind", "/operation/holds"}, places)
	assert.Contains(t, string(request), `"holds":["remote-id","a","b"]`)
	empty, faults := f.Request(Values{"/field/neighbors/none": {"yes"}, "/operation/holds/none": {"yes"}})
	assert.Empty(t, faults)
	assert.Contains(t, string(empty), `"neighbors":[]`)
	assert.Contains(t, string(empty), `"holds":[]`)
}

func FuzzRequest(f *testing.F) {
	made := newForm(f)
	f.Add("/flight/speed/value", "10", "/field/neighbors/0/kind", "crop", "at\n1")
	f.Add("/field/boundary", `{"type":"Polygon"}`, "/operation/holds", "a", "[1]")
	f.Add("set-up/0/flight/speed/value", "1e5", "/weather/at/local", "2026-06-03T08:00", `{"hours":[]}`)
	f.Fuzz(func(t *testing.T, name, text, other, more, hours string) {
		v := Values{name: {text}, other: {more}}
		setUps := SplitSetUps(v)
		v, _ = made.Tidy(v)
		request, _ := made.Request(v)
		require.True(t, json.Valid(request), "%s", request)
		again, err := made.Fill(request)
		require.NoError(t, err)
		same, _ := made.Request(again)
		require.JSONEq(t, string(request), string(same), "a request goes through the form unchanged")
		request, _ = made.SetUpsRequest(v, setUps)
		require.True(t, json.Valid(request))
		if request, _ = made.HoursRequest(v, hours); request != nil {
			require.True(t, json.Valid(request), "%s", request)
		}
		made.In(v, "si")
	})
}
