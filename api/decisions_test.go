package api

import (
	"context"
	"encoding/json"
	"fmt"
	"math"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/api/wire"
)

// decisionSample reads an invented request for many hours or many set-ups.
func decisionSample(t testing.TB, folder, name string) map[string]any {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "testdata", folder, name))
	require.NoError(t, err)
	var body map[string]any
	require.NoError(t, json.Unmarshal(text, &body))
	return body
}

const (
	twoDays   = "levee-two-days.json"
	threeSets = "levee-three-set-ups.json"
)

func jsonOf(t testing.TB, body any) string {
	t.Helper()
	text, err := json.Marshal(body)
	require.NoError(t, err)
	return string(text)
}

func TestSprayHoursOverHTTP(t *testing.T) {
	t.Parallel()
	s, url := serve(t, Config{})
	got := call(t, request(t, "POST", url+"/v1/spray-hours", jsonOf(t, decisionSample(t, "spray-hours", twoDays))))
	require.Equal(t, http.StatusOK, got.StatusCode, "%s", got.body)
	assert.NotContains(t, string(got.body), "null")
	assert.Equal(t, "no-store", got.Header.Get("Cache-Control"))
	var answer wire.SprayHoursAnswer
	require.NoError(t, json.Unmarshal(got.body, &answer))
	require.Len(t, answer.Hours, 45, "three of 48 hours are missing")
	good := 0
	for i, h := range answer.Hours {
		assert.Equal(t, h.Go, len(h.BoundBy) == 0, i)
		if h.Go {
			good++
		}
		for _, f := range h.Findings {
			mission, hour := strings.HasPrefix(f.Subject, "/mission/"), strings.HasPrefix(f.Subject, fmt.Sprintf("/hours/%d/", i))
			assert.True(t, mission || hour, f.Subject)
		}
	}
	assert.Positive(t, good)
	require.NotEmpty(t, answer.Windows)
	require.NotNil(t, answer.Best)
	assert.NotEmpty(t, answer.Best.Because)
	assert.Contains(t, jsonOf(t, answer.Assumptions), "3 hours without humidity")
	assert.Contains(t, jsonOf(t, answer.Sources), `"forecast-choices"`)
	assert.Equal(t, 1.0, counted(t, s, "tractcheck_answers_total", "endpoint", "spray-hours", "answer", "none"))
}

// neededByTheHour are the codes that the contract names beside those of the dark and the weather limits,
// which the sample keeps.
var neededByTheHour = []string{"drift_severe", "deposit_over_assumed_tolerance", "wind_toward_sensitive_neighbor", "weather_implausible"}

// The mission with the weather of an hour, posted as an assessment, forbids the hour or does not.
func TestSprayHoursAgreeWithAssessmentsOverHTTP(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{})
	body := decisionSample(t, "spray-hours", twoDays)
	var answer wire.SprayHoursAnswer
	require.NoError(t, json.Unmarshal(call(t, request(t, "POST", url+"/v1/spray-hours", jsonOf(t, body))).body, &answer))
	mission := body["mission"].(map[string]any)
	own := mission["weather"].(map[string]any)
	step := 1
	if testing.Short() {
		step = 7
	}
	for i := 0; i < len(answer.Hours); i += step {
		h := answer.Hours[i]
		weather := body["hours"].([]any)[i].(map[string]any)
		weather["latitude"], weather["longitude"] = own["latitude"], own["longitude"]
		if h.HumidityTaken != nil {
			weather["relative_humidity"] = h.HumidityTaken
		}
		mission["weather"] = weather
		var one wire.Answer
		require.NoError(t, json.Unmarshal(call(t, request(t, "POST", url+"/v1/assessments", jsonOf(t, mission))).body, &one))
		forbidden := slices.ContainsFunc(one.Findings, func(f wire.Finding) bool {
			return f.Severity == "stop" || f.Severity == "needed" && slices.Contains(neededByTheHour, f.Code)
		})
		dark := h.Light != "day" && slices.ContainsFunc(one.Findings, func(f wire.Finding) bool {
			return strings.HasPrefix(f.Code, "permit_night_") || f.Code == "permit_twilight_lights"
		})
		assert.Equal(t, !forbidden && !dark, h.Go, "%s: %v", h.At, h.BoundBy)
		if h.Go {
			assert.Equal(t, one.DriftRisk.Grade, h.DriftGrade)
		}
	}
}

// Each bad request is answered with every fault at once, at its place in the body.
func TestBadSprayHours(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{})
	for name, c := range map[string]struct {
		change func(mission map[string]any, hours []any, body map[string]any)
		status int
		faults []string // in the order of the body
	}{
		"no hours":   {func(_ map[string]any, _ []any, b map[string]any) { b["hours"] = []any{} }, 422, []string{"/hours too_long_or_short"}},
		"no mission": {func(_ map[string]any, _ []any, b map[string]any) { delete(b, "mission") }, 422, []string{"/mission missing_member"}},
		"unknown":    {func(_ map[string]any, _ []any, b map[string]any) { b["hour"] = 1 }, 400, []string{"/hour unknown_member"}},
		"doubled": {func(_ map[string]any, h []any, _ map[string]any) {
			h[1].(map[string]any)["at"] = h[0].(map[string]any)["at"]
		}, 422, []string{"/hours/1/at conflict"}},
		"not in turn": {func(_ map[string]any, h []any, _ map[string]any) { h[0], h[3] = h[3], h[0] }, 422, []string{"/hours/1/at conflict", "/hours/2/at conflict", "/hours/3/at conflict"}},
		"several at once": {func(m map[string]any, h []any, _ map[string]any) {
			m["flight"].(map[string]any)["speed"] = map[string]any{"value": 999, "unit": "mph"}
			delete(m["aircraft"].(map[string]any), "empty_weight")
			h[0].(map[string]any)["wind_speed"] = map[string]any{"value": 5, "unit": "mhp"}
			h[2].(map[string]any)["gust"] = map[string]any{"value": 0.5, "unit": "mph"}
			delete(h[4].(map[string]any), "temperature")
			h[5].(map[string]any)["at"] = "yesterday"
			h[6].(map[string]any)["relative_humidity"] = nil
			delete(h[7].(map[string]any), "wind_from")
			h[8].(map[string]any)["wnd"] = 1
		}, 400, []string{
			"/hours/0/wind_speed/unit wrong_unit", "/hours/2/gust conflict", "/hours/4/temperature missing_member", "/hours/5/at wrong_format",
			"/hours/6/relative_humidity wrong_type", "/hours/7/wind_from missing_member", "/hours/8/wnd unknown_member",
			"/mission/aircraft/empty_weight missing_member", "/mission/flight/speed/value out_of_range",
		}},
		"a latitude alone": {func(_ map[string]any, h []any, _ map[string]any) {
			h[3].(map[string]any)["latitude"] = map[string]any{"value": 33.4, "unit": "deg"}
		}, 422, []string{"/hours/3/longitude missing_member"}},
	} {
		body := decisionSample(t, "spray-hours", twoDays)
		c.change(body["mission"].(map[string]any), body["hours"].([]any), body)
		got := call(t, request(t, "POST", url+"/v1/spray-hours", jsonOf(t, body)))
		assert.Equal(t, c.status, got.StatusCode, name)
		assert.ElementsMatch(t, c.faults, faultsOf(got), name)
	}
	many := decisionSample(t, "spray-hours", twoDays)
	many["hours"] = make([]any, 337)
	for i := range many["hours"].([]any) {
		many["hours"].([]any)[i] = decisionSample(t, "spray-hours", twoDays)["hours"].([]any)[0]
	}
	got := call(t, request(t, "POST", url+"/v1/spray-hours", jsonOf(t, many)))
	assert.Equal(t, 422, got.StatusCode)
	assert.Equal(t, []string{"/hours too_long_or_short"}, faultsOf(got))
}

// faultsOf is what a problem says, as pointer and code.
func faultsOf(got reply) []string {
	var said []string
	for _, f := range got.problem.Faults {
		said = append(said, f.Pointer+" "+string(f.Code))
	}
	return said
}

func TestDecisionsEndWithTheirTime(t *testing.T) {
	t.Parallel()
	desk, err := NewDesk("test")
	require.NoError(t, err)
	gone, cancel := context.WithCancel(context.Background())
	cancel()
	_, err = desk.compare(gone, []byte(jsonOf(t, decisionSample(t, "comparisons", threeSets))))
	require.ErrorIs(t, err, context.Canceled)
	_, err = desk.sprayHours(gone, []byte(jsonOf(t, decisionSample(t, "spray-hours", twoDays))))
	require.ErrorIs(t, err, context.Canceled)
}

// fortnight is the sample mission with 336 hours of invented weather.
func fortnight(t testing.TB) []byte {
	body := decisionSample(t, "spray-hours", twoDays)
	first := time.Date(2026, time.June, 1, 0, 0, 0, 0, time.FixedZone("", -5*3600))
	of := func(value float64, unit string) map[string]any {
		return map[string]any{"value": math.Round(10*value) / 10, "unit": unit}
	}
	hours := make([]any, 336)
	for i := range hours {
		at := first.Add(time.Duration(i) * time.Hour)
		day := math.Sin(2 * math.Pi * float64(at.Hour()-9) / 24)
		wind := max(0.5, 5+3*day+2*math.Sin(float64(i)*1.7))
		hours[i] = map[string]any{
			"at": at.Format(time.RFC3339), "wind_speed": of(wind, "mph"), "wind_height": of(10, "ft"), "wind_from": of(205+35*math.Sin(float64(i)/5), "deg"),
			"gust": of(1.3*wind, "mph"), "temperature": of(74+8*day, "degF"), "relative_humidity": of(66-22*day, "%"),
			"cloud_cover": of(50+40*math.Sin(float64(i)/7), "%"), "visibility": of(10, "mi"), "cloud_below": of(4000, "ft"), "cloud_side": of(1, "mi"),
		}
	}
	body["hours"] = hours
	return []byte(jsonOf(t, body))
}

// mostForFortnight is how often a request of 336 hours may ask for memory to be read, judged and written:
// what was reached, and a little. Time on a busy machine says little; this says the same everywhere.
const mostForFortnight = 46_000

func TestAFortnightOfHoursAsksForLittleMemory(t *testing.T) {
	if raceDetector {
		t.Skip("the race detector allocates")
	}
	desk, err := NewDesk("test")
	require.NoError(t, err)
	body := fortnight(t)
	assert.Less(t, len(body), DefaultMaxBody/2)
	count := testing.AllocsPerRun(3, func() {
		_, err := desk.SprayHours(body)
		require.NoError(t, err)
	})
	t.Logf("%.0f allocations", count)
	assert.LessOrEqual(t, count, float64(mostForFortnight))
}

func BenchmarkDecisions(b *testing.B) {
	desk, err := NewDesk("bench")
	require.NoError(b, err)
	hours, setUps := fortnight(b), []byte(jsonOf(b, decisionSample(b, "comparisons", threeSets)))
	b.Run("spray-hours/336", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, err := desk.SprayHours(hours); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("comparisons/3", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, err := desk.Compare(setUps); err != nil {
				b.Fatal(err)
			}
		}
	})
}
