package api

import (
	"encoding/json"
	"net/http"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/api/wire"
)

func TestComparisonOverHTTP(t *testing.T) {
	t.Parallel()
	s, url := serve(t, Config{})
	body := decisionSample(t, "comparisons", threeSets)
	got := call(t, request(t, "POST", url+"/v1/comparisons", jsonOf(t, body)))
	require.Equal(t, http.StatusOK, got.StatusCode, "%s", got.body)
	assert.NotContains(t, string(got.body), "null")
	var answer wire.ComparisonAnswer
	require.NoError(t, json.Unmarshal(got.body, &answer))
	require.Len(t, answer.Ranked, 3)
	for i, r := range answer.Ranked {
		assert.Equal(t, i+1, r.Rank)
	}
	assert.Equal(t, 1.0, counted(t, s, "tractcheck_answers_total", "endpoint", "comparisons", "answer", answer.Ranked[0].Answer))

	// The mission as it is, assessed alone, is what the set-up without changes says of it.
	alone := call(t, request(t, "POST", url+"/v1/assessments", jsonOf(t, body["mission"])))
	var one wire.Answer
	require.NoError(t, json.Unmarshal(alone.body, &one))
	at := slices.IndexFunc(answer.Ranked, func(r wire.Ranked) bool { return r.Label == "as it is" })
	require.GreaterOrEqual(t, at, 0)
	same := answer.Ranked[at]
	assert.Equal(t, one.Digest, same.Digest)
	assert.Equal(t, one.Headline, same.Headline)
	assert.Equal(t, one.Answer, same.Answer)
	assert.Equal(t, one.CrewPlan.Hours, same.Hours)
	assert.Equal(t, one.DriftRisk.Grade, same.DriftGrade)
}

// A part that every set-up brings may be missing from the mission; null takes a member away.
func TestComparisonMergesLikeRFC7396(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{})
	body := decisionSample(t, "comparisons", threeSets)
	mission := body["mission"].(map[string]any)
	aircraft := mission["aircraft"]
	delete(mission, "aircraft")
	body["set_ups"] = []any{
		map[string]any{"label": "whole machine", "aircraft": aircraft},
		map[string]any{"label": "the same, fill not stated", "aircraft": aircraft, "load": map[string]any{"fill": nil}},
	}
	got := call(t, request(t, "POST", url+"/v1/comparisons", jsonOf(t, body)))
	require.Equal(t, http.StatusOK, got.StatusCode, "%s", got.body)
	assert.Contains(t, string(got.body), `"subject":"/load/fill"`, "the fill is assumed where it was taken away")
}

func TestBadComparisons(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{})
	speed := func(value float64) map[string]any {
		return map[string]any{"speed": map[string]any{"value": value, "unit": "mph"}}
	}
	for name, c := range map[string]struct {
		change func(mission map[string]any, body map[string]any)
		status int
		faults []string
	}{
		"no set-ups": {func(_, b map[string]any) { b["set_ups"] = []any{} }, 422, []string{"/set_ups too_long_or_short"}},
		"no label":   {func(_, b map[string]any) { b["set_ups"] = []any{map[string]any{}} }, 422, []string{"/set_ups/0/label missing_member"}},
		"a part that may not change": {func(_, b map[string]any) {
			b["set_ups"] = []any{map[string]any{"label": "x", "field": map[string]any{}}}
		}, 400,
			[]string{"/set_ups/0/field unknown_member"}},
		"null for a member that nothing has": {func(_, b map[string]any) {
			b["set_ups"] = []any{
				map[string]any{"label": "a", "aircraft": map[string]any{"wings": nil, "rotors": nil, "battery": map[string]any{"weigth": nil}}},
				map[string]any{"label": "b", "flight": map[string]any{"speed": map[string]any{"velocity": nil}, "Height": nil}, "wing": nil},
			}
		}, 400, []string{
			"/set_ups/0/aircraft/wings unknown_member", "/set_ups/0/aircraft/battery/weigth unknown_member",
			"/set_ups/1/flight/speed/velocity unknown_member", "/set_ups/1/flight/Height unknown_member", "/set_ups/1/wing unknown_member",
		}},
		"a part that is not whole": {func(m, b map[string]any) {
			delete(m["flight"].(map[string]any), "speed")
			b["set_ups"] = []any{map[string]any{"label": "a", "flight": speed(10)}, map[string]any{"label": "b", "flight": speed(12)}}
		}, 422, []string{"/mission/flight/speed missing_member"}},
		"no field": {func(m, _ map[string]any) { delete(m, "field") }, 422, []string{"/mission/field missing_member"}},
		"every fault of every set-up": {func(m, b map[string]any) {
			m["operation"].(map[string]any)["airspace"] = "Q"
			b["set_ups"] = []any{
				map[string]any{"label": "a", "flight": speed(999)},
				map[string]any{"label": "a", "flight": map[string]any{"speed": nil}},
				map[string]any{"label": "b", "aircraft": map[string]any{"wings": 2}},
				map[string]any{"label": "c", "spray_system": nil},
				map[string]any{"label": "d", "flight": map[string]any{"speed": map[string]any{"value": "fast"}}},
				map[string]any{"label": "e", "load": map[string]any{"fill": map[string]any{"unit": "lb"}}},
			}
		}, 400, []string{
			"/mission/operation/airspace not_in_list", "/set_ups/0/flight/speed/value out_of_range", "/set_ups/1/label conflict",
			"/set_ups/1/flight/speed missing_member", "/set_ups/2/aircraft/wings unknown_member", "/set_ups/3/spray_system missing_member",
			"/set_ups/4/flight/speed/value wrong_type", "/set_ups/5/load/fill/unit wrong_unit",
		}},
		"a fault of the mission is told once": {func(m, _ map[string]any) { m["flight"].(map[string]any)["height"] = speed(5)["speed"] }, 422,
			[]string{"/mission/flight/height/unit wrong_unit"}},
		"the mission lacks what no set-up brings": {func(m, _ map[string]any) { delete(m, "flight") }, 422,
			[]string{"/set_ups/0/flight missing_member", "/set_ups/1/flight/height missing_member", "/set_ups/1/flight/swath missing_member", "/set_ups/2/flight missing_member"}},
	} {
		body := decisionSample(t, "comparisons", threeSets)
		c.change(body["mission"].(map[string]any), body)
		got := call(t, request(t, "POST", url+"/v1/comparisons", jsonOf(t, body)))
		assert.Equal(t, c.status, got.StatusCode, name)
		assert.ElementsMatch(t, c.faults, faultsOf(got), name)
	}
}
