package wire

import (
	"bytes"
	"encoding/json"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/go-json-experiment/json/jsontext"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// decisionBody reads an invented request for many hours or many set-ups.
func decisionBody(t testing.TB, folder, name string) map[string]any {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "testdata", folder, name))
	require.NoError(t, err)
	var body map[string]any
	require.NoError(t, json.Unmarshal(text, &body))
	return body
}

// damages are values put in the place of a member of an hour.
var damages = []any{
	nil, "x", 5.0, true, []any{}, map[string]any{}, map[string]any{"value": 1.0}, map[string]any{"unit": "mph"},
	map[string]any{"value": "1", "unit": "mph"}, map[string]any{"value": 1e9, "unit": "mph"}, map[string]any{"value": nil, "unit": "mph"},
	map[string]any{"value": 5.0, "unit": "mph", "more": 1.0}, map[string]any{"value": 5.0, "unit": "mph"}, map[string]any{"value": 5.0, "unit": ""},
	map[string]any{"value": 50.0, "unit": "%"}, map[string]any{"value": 70.0, "unit": "degF"}, map[string]any{"value": -5.0, "unit": "ft"},
	"2026-06-12T05:00:00-05:00", "2026-06-12t05:00:00z", strings.Repeat("2", 50), false,
	map[string]any{"lower_temperature": map[string]any{"value": 70.0, "unit": "degF"}},
}

// sameHours holds the quick way of reading hours to the three passes, as sameReading does.
func sameHours(t require.TestingT, r *Reader, body []byte) bool {
	request, mission, hours, digest, sound := r.soundHours(bytes.Clone(body))
	wantRequest, wantMission, wantHours, wantDigest, faults := r.hoursThrough(body)
	if !escapesName(body) {
		require.Equal(t, len(faults) == 0, sound, "faults %v: %s", faults, body)
	}
	if sound {
		require.Empty(t, faults, "%s", body)
		require.Equal(t, wantRequest, request, "%s", body)
		require.Equal(t, wantMission, mission, "%s", body)
		require.Equal(t, wantHours, hours, "%s", body)
		require.Equal(t, wantDigest, digest, "%s", body)
	}
	return sound
}

// sameComparison holds the quick way of reading a comparison to the three passes.
func sameComparison(t require.TestingT, r *Reader, body []byte) bool {
	setUps, digest, sound := r.soundComparison(bytes.Clone(body))
	wantSetUps, wantDigest, faults := r.comparisonThrough(body)
	if !escapesName(body) {
		require.Equal(t, len(faults) == 0, sound, "faults %v: %s", faults, body)
	}
	if sound {
		require.Empty(t, faults, "%s", body)
		require.Equal(t, wantDigest, digest, "%s", body)
		require.Equal(t, requestsOf(t, wantSetUps), requestsOf(t, setUps), "%s", body)
		require.Equal(t, wantSetUps, setUps, "%s", body)
	}
	return sound
}

// requestsOf takes the requests out of set-ups, in canonical form: coordinates stand in them as they were
// sent.
func requestsOf(t require.TestingT, setUps []MergedSetUp) []string {
	out := make([]string, len(setUps))
	for i := range setUps {
		text, err := json.Marshal(setUps[i].Request)
		require.NoError(t, err)
		canonical := jsontext.Value(text)
		require.NoError(t, canonical.Canonicalize())
		out[i], setUps[i].Request = string(canonical), nil
	}
	return out
}

// decisionBodies makes a request for a few hours and one for a few set-ups of every sample mission.
func decisionBodies(t testing.TB) (hours, setUps [][]byte) {
	t.Helper()
	samples := []map[string]any{decisionBody(t, "spray-hours", "levee-two-days.json")["mission"].(map[string]any)}
	for _, text := range sampleBodies(t) {
		var mission map[string]any
		require.NoError(t, json.Unmarshal(text, &mission))
		samples = append(samples, mission)
	}
	few := decisionBody(t, "spray-hours", "levee-two-days.json")["hours"].([]any)[:3]
	for _, mission := range samples {
		text, err := json.Marshal(map[string]any{"mission": mission, "hours": few})
		require.NoError(t, err)
		hours = append(hours, text)
		text, err = json.Marshal(map[string]any{"mission": mission, "set_ups": []any{
			map[string]any{"label": "as it is"},
			map[string]any{"label": "one part of each", "aircraft": map[string]any{"count": 2, "battery": map[string]any{"usable": of(75, "%")}, "rotors": nil},
				"flight": map[string]any{"speed": of(9, "mph")}, "load": map[string]any{"fill": nil}, "crew": nil},
			map[string]any{"label": "café & <b>", "spray_system": mission["spray_system"]},
		}})
		require.NoError(t, err)
		setUps = append(setUps, text)
	}
	return hours, setUps
}

func TestDecisionsAreReadTheQuickWay(t *testing.T) {
	t.Parallel()
	r := newReader(t)
	assert.NotNil(t, r.forms[SprayHours], "its schema uses a keyword that has no form")
	assert.NotNil(t, r.forms[Comparisons], "its schema uses a keyword that has no form")
	hours, setUps := decisionBodies(t)
	taken := 0
	for i := range hours {
		if sameHours(t, r, hours[i]) {
			taken++
		}
		if sameComparison(t, r, setUps[i]) {
			taken++
		}
	}
	assert.Greater(t, taken, len(hours), "most are sound: %d of %d", taken, 2*len(hours))
	for _, body := range []map[string]any{decisionBody(t, "spray-hours", "levee-two-days.json"), decisionBody(t, "comparisons", "levee-three-set-ups.json")} {
		text, err := json.Marshal(body)
		require.NoError(t, err)
		assert.True(t, sameHours(t, r, text) || sameComparison(t, r, text))
	}
}

// The quick way through any body takes exactly what the long way finds no fault in.
func TestTheQuickWayOfDecisionsIsThatOfThePasses(t *testing.T) {
	t.Parallel()
	r := newReader(t)
	hours, setUps := decisionBodies(t)
	tries := 500
	if testing.Short() {
		tries = 150
	}
	taken := [2]int{}
	for i := range tries {
		random := rand.New(rand.NewPCG(9, uint64(i)))
		if sameHours(t, r, mangled(random, hours[random.IntN(len(hours))])) {
			taken[0]++
		}
		if sameComparison(t, r, mangled(random, setUps[random.IntN(len(setUps))])) {
			taken[1]++
		}
	}
	t.Logf("%v of %d bodies were taken", taken, tries)
	for _, count := range taken {
		assert.Greater(t, count, tries/50, "some changes leave a body sound, or nothing is compared")
		assert.Less(t, count, tries/2, "most changes do not")
	}
}

// What is wrong with one hour is found where it stands.
func TestTheQuickWayAgreesHourByHour(t *testing.T) {
	t.Parallel()
	r := newReader(t)
	names := []string{"more"}
	for f := range reflect.TypeFor[HourWeather]().Fields() {
		names = append(names, jsonName(f))
	}
	taken, refused := 0, 0
	rapid.Check(t, func(rt *rapid.T) {
		body := decisionBody(t, "spray-hours", "levee-two-days.json")
		body["hours"] = body["hours"].([]any)[:4]
		for range rapid.IntRange(1, 2).Draw(rt, "damages") {
			hour := body["hours"].([]any)[rapid.IntRange(0, 3).Draw(rt, "hour")].(map[string]any)
			name := rapid.SampledFrom(names).Draw(rt, "member")
			if rapid.IntRange(0, 4).Draw(rt, "drop") == 0 {
				delete(hour, name)
			} else {
				hour[name] = rapid.SampledFrom(damages).Draw(rt, "value")
			}
		}
		text, err := json.Marshal(body)
		require.NoError(rt, err)
		if sameHours(rt, r, text) {
			taken++
		} else {
			refused++
		}
	})
	assert.Positive(t, taken)
	assert.Positive(t, refused)
}

// The examples of RFC 7396, appendix A, but those whose patch is no object, which a set-up always is.
func TestMergePatch(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ target, patch, want string }{
		{`{"a":"b"}`, `{"a":"c"}`, `{"a":"c"}`},
		{`{"a":"b"}`, `{"b":"c"}`, `{"a":"b","b":"c"}`},
		{`{"a":"b"}`, `{"a":null}`, `{}`},
		{`{"a":"b","b":"c"}`, `{"a":null}`, `{"b":"c"}`},
		{`{"a":["b"]}`, `{"a":"c"}`, `{"a":"c"}`},
		{`{"a":"c"}`, `{"a":["b"]}`, `{"a":["b"]}`},
		{`{"a":{"b":"c"}}`, `{"a":{"b":"d","c":null}}`, `{"a":{"b":"d"}}`},
		{`{"a":[{"b":"c"}]}`, `{"a":[1]}`, `{"a":[1]}`},
		{`{"e":null}`, `{"a":1}`, `{"a":1,"e":null}`},
		{`[1,2]`, `{"a":"b","c":null}`, `{"a":"b"}`},
		{`{}`, `{"a":{"bb":{"ccc":null}}}`, `{"a":{"bb":{}}}`},
	} {
		var target, patch any
		require.NoError(t, json.Unmarshal([]byte(c.target), &target))
		require.NoError(t, json.Unmarshal([]byte(c.patch), &patch))
		got, err := json.Marshal(mergePatch(target, patch))
		require.NoError(t, err)
		assert.JSONEq(t, c.want, string(got), "%s with %s", c.target, c.patch)
		again, err := json.Marshal(target)
		require.NoError(t, err)
		assert.JSONEq(t, c.target, string(again), "the target is left alone")
	}
}

// A large mission goes with few set-ups.
func TestComparisonsAreBounded(t *testing.T) {
	t.Parallel()
	body := decisionBody(t, "comparisons", "levee-three-set-ups.json")
	ring := make([]any, 6000)
	for i := range ring {
		ring[i] = []any{-91.0, 33.4}
	}
	body["mission"].(map[string]any)["field"] = map[string]any{"boundary": map[string]any{"type": "Polygon", "coordinates": []any{ring}}}
	setUps := make([]any, 40)
	for i := range setUps {
		setUps[i] = map[string]any{"label": string(rune('A'+i/26)) + string(rune('a'+i%26))}
	}
	body["set_ups"] = setUps
	text, err := json.Marshal(body)
	require.NoError(t, err)
	_, _, faults := newReader(t).ReadComparison(text)
	require.Len(t, faults, 1)
	assert.Equal(t, "/set_ups", faults[0].Pointer)
	assert.Equal(t, FaultLength, faults[0].Code)
}

// Faults of text come with those of content, and broken syntax ends the reading.
func TestDecisionsReadTextStrictly(t *testing.T) {
	t.Parallel()
	r := newReader(t)
	for body, want := range map[string][]string{
		``:                                 {" empty_body"},
		`{"mission":`:                      {"/mission syntax"},
		`[]`:                               {" wrong_type"},
		`{"set_ups":[],"set_ups":[]}`:      {"/mission missing_member", "/set_ups duplicate_member", "/set_ups too_long_or_short"},
		`{"mission":{},"set_ups":[]} {}`:   nil,
		`{"mission":{},"set_ups":[1e999]}`: nil,
	} {
		_, _, faults := r.ReadComparison([]byte(body))
		assert.NotEmpty(t, faults, body)
		if want != nil {
			assert.Equal(t, want, brief(faults), body)
		}
		_, _, _, _, faults = r.ReadSprayHours([]byte(body))
		assert.NotEmpty(t, faults, body)
	}
}

// The shapes of the program and of the contract are one.
func TestDecisionsHaveTheShapeOfTheContract(t *testing.T) {
	t.Parallel()
	schemas := contractSchemas(t)
	sameShape(t, schemas, "spray-hours", reflect.TypeFor[SprayHoursRequest](), schemaNode{Ref: schemaPrefix + SprayHours.SchemaName()})
	sameShape(t, schemas, "spray-hours answer", reflect.TypeFor[SprayHoursAnswer](), schemaNode{Ref: schemaPrefix + "SprayHoursAnswer"})
	sameShape(t, schemas, "comparison answer", reflect.TypeFor[ComparisonAnswer](), schemaNode{Ref: schemaPrefix + "ComparisonAnswer"})
	sameShape(t, schemas, "compared mission", reflect.TypeFor[Request](), schemaNode{Ref: schemaPrefix + "ComparedMission"})
	hours := schemas["HourWeather"].Properties
	for name, node := range schemas["Weather"].Properties {
		assert.Equal(t, node.Ref, hours[name].Ref, name)
		if !slices.Contains([]string{"at", "latitude", "relative_humidity"}, name) {
			assert.Equal(t, node.Description, hours[name].Description, name)
		}
	}
	assert.Equal(t, 336.0, float64(*schemas["SprayHoursRequest"].Properties["hours"].MaxItems))
	assert.Equal(t, 50.0, float64(*schemas["ComparisonRequest"].Properties["set_ups"].MaxItems))
	grades := schemas["DriftRisk"].Properties["grade"].Enum
	assert.Equal(t, grades, schemas["HourVerdict"].Properties["drift_grade"].Enum)
	assert.Equal(t, grades, schemas["Window"].Properties["drift_grade"].Enum)
	assert.Equal(t, grades, schemas["RankedSetUp"].Properties["drift_grade"].Enum)
}

func TestAMissionOfHoursMayLackItsWeather(t *testing.T) {
	t.Parallel()
	r := newReader(t)
	body := decisionBody(t, "spray-hours", "levee-two-days.json")
	mission := body["mission"].(map[string]any)
	weather := mission["weather"].(map[string]any)
	read := func() []string {
		text, err := json.Marshal(body)
		require.NoError(t, err)
		_, _, _, _, faults := r.ReadSprayHours(text)
		return brief(faults)
	}
	assert.Empty(t, read())
	weather["wind_height"] = of(9999, "ft")
	delete(weather, "longitude")
	assert.Equal(t, []string{"/mission/weather/longitude missing_member", "/mission/weather/wind_height/value out_of_range"}, read())
	delete(mission, "weather")
	assert.Empty(t, read())
	delete(mission, "operation")
	assert.Equal(t, []string{"/mission/operation missing_member"}, read())
}

// FuzzDecisions reads whatever comes as a request for many hours or many set-ups: it never panics, and its
// faults can be written and point into the body.
func FuzzDecisions(f *testing.F) {
	for _, file := range []string{"spray-hours/levee-two-days.json", "comparisons/levee-three-set-ups.json"} {
		text, err := os.ReadFile(filepath.Join("..", "..", "testdata", file))
		require.NoError(f, err)
		f.Add(text)
	}
	for _, text := range []string{
		`{}`, `{"mission":{},"hours":[{}]}`, `{"mission":{},"hours":[{},{}],"set_ups":[{},{}]}`, `{"mission":null,"hours":null,"set_ups":null}`,
		`{"mission":{"weather":{"latitude":{}}},"hours":[{"lapse":{}},{"at":"x"}]}`, `{"mission":{"a":1},"set_ups":[{"label":"","aircraft":{"a":{"b":null}}}]}`,
		`{"mission":{"aircraft":{}},"set_ups":[{"label":"x","aircraft":[1],"flight":null}]}`,
	} {
		f.Add([]byte(text))
	}
	r := newReader(f)
	f.Fuzz(func(t *testing.T, text []byte) {
		_, _, _, _, hours := r.ReadSprayHours(text)
		_, _, setUps := r.ReadComparison(text)
		for _, fault := range append(hours, setUps...) {
			if _, err := json.Marshal(fault); err != nil || fault.Code == "" || fault.Message == "" {
				t.Fatalf("bad fault: %+v", fault)
			}
			if fault.Pointer != "" && !strings.HasPrefix(fault.Pointer, "/") {
				t.Fatalf("bad pointer: %q", fault.Pointer)
			}
		}
	})
}
