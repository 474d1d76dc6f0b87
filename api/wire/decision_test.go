package wire

import (
	"encoding/json"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

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

// The short way through a body takes exactly what the long way finds no fault in.
func TestTheShortWayAgreesWithTheLong(t *testing.T) {
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
		_, _, _, short := r.soundHours(text)
		faults := r.decision(SprayHours, text, func(text []byte, _ any, _ []located) []Fault {
			_, _, _, found := decodeSprayHours(text)
			return found
		})
		if short != (len(faults) == 0) {
			rt.Fatalf("the short way says %v, the long way %v", short, faults)
		}
		if short {
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
