package wire

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility"
)

func TestMayChangeIsAClosedList(t *testing.T) {
	t.Parallel()
	reader, err := NewReader("test")
	require.NoError(t, err)
	for name, tc := range map[string]struct {
		sent any
		want []feasibility.Knob
		code FaultCode
		at   string
	}{
		"two":     {[]any{"fill", "speed"}, []feasibility.Knob{feasibility.KnobFill, feasibility.KnobSpeed}, "", ""},
		"nothing": {[]any{}, []feasibility.Knob{}, "", ""},
		"unknown": {[]any{"fill", "tank"}, nil, FaultEnum, "/may_change/1"},
		"no list": {"fill", nil, FaultType, "/may_change"},
		"a label": {[]any{"product_label"}, nil, FaultEnum, "/may_change/0"},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			body := sampleBody(t)
			body["may_change"] = tc.sent
			text, err := json.Marshal(body)
			require.NoError(t, err)
			_, mission, _, faults := reader.Read(Assessments, text)
			if tc.code == "" {
				require.Empty(t, faults)
				assert.Equal(t, tc.want, mission.MayChange)
				return
			}
			require.Len(t, faults, 1)
			assert.Equal(t, tc.at, faults[0].Pointer)
			assert.Equal(t, tc.code, faults[0].Code)
		})
	}
	twice := sampleBody(t)
	twice["may_change"] = []any{"fill", "fill"}
	text, err := json.Marshal(twice)
	require.NoError(t, err)
	_, _, _, faults := reader.Read(Assessments, text)
	assert.NotEmpty(t, faults, "a name twice is a slip")
}

func TestMayChangeNamesEveryKnob(t *testing.T) {
	t.Parallel()
	var names []string
	for _, k := range feasibility.Knobs() {
		names = append(names, string(k))
	}
	assert.Equal(t, contractSchemas(t)["MayChange"].Items.Enum, names)
}

// answered is the answer to a sample mission.
func answered(t *testing.T, mission string) *Answer {
	t.Helper()
	reader, err := NewReader("test")
	require.NoError(t, err)
	body, err := os.ReadFile(filepath.Join("..", "..", "testdata", "missions", mission))
	require.NoError(t, err)
	return posted(t, reader, body)
}

func TestOnlyTwoChangesTogetherLiftWhatLandsOnAFineCrop(t *testing.T) {
	t.Parallel()
	a := answered(t, "onions-near-neighbor.json")
	assert.Equal(t, []string{"deposit_over_tolerance"}, open(a, "stop"))
	require.NotEmpty(t, a.Remedies)
	for _, r := range a.Remedies {
		assert.Len(t, r.Changes, 2, "neither alone")
	}
}

func TestTwoStopsOfTwoKindsAreLiftedByTwoChanges(t *testing.T) {
	t.Parallel()
	a := answered(t, "peas-heavy-and-fast.json")
	require.NotEmpty(t, a.Remedies)
	best := a.Remedies[0]
	assert.Len(t, best.Changes, 2)
	assert.Equal(t, open(a, "stop"), best.Lifts, "all that stops it")
	assert.Equal(t, "yes", best.AnswerThen)
}

func TestNothingLiftsTheWind(t *testing.T) {
	t.Parallel()
	a := answered(t, "ridge-too-windy.json")
	assert.Equal(t, "no", a.Answer)
	assert.Contains(t, a.RemediesNote, "The wind is 12 mph and the label allows at most 10 mph")
}

func TestAnotherHourLiftsAnInversionInferredFromTheHour(t *testing.T) {
	t.Parallel()
	a := answered(t, "evening-rice-si.json")
	require.NotEmpty(t, a.Remedies)
	change := a.Remedies[0].Changes[0]
	assert.Equal(t, Change{Pointer: "/weather/at", From: "2026-06-12T19:25:00-05:00", To: "2026-06-13T07:00:00-05:00"}, change, "that evening has no time for a job of four hours, and is past")
	assert.Contains(t, a.Remedies[0].Costs, "the weather must then be as you stated it")
}
