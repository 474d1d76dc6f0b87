package wire

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// onSquare is the sample mission on a square of ground, with set-ups at a few speeds.
func onSquare(t *testing.T, edits ...edit) (mission map[string]any, setUps []any) {
	t.Helper()
	mission = sampleBody(t)
	field := mission["field"].(map[string]any)
	delete(field, "length")
	delete(field, "width")
	field["boundary"] = square(-91, 33.4, 0.01)
	for _, e := range edits {
		field[e.pointer] = e.value
	}
	for label, speed := range map[string]float64{"slow": 8, "fast": 12, "faster": 14} {
		setUps = append(setUps, map[string]any{"label": label, "flight": map[string]any{"speed": of(speed, "mph")}})
	}
	return mission, setUps
}

func TestTheFieldOfAComparisonIsMappedOnce(t *testing.T) {
	t.Parallel()
	r := newReader(t)
	mission, setUps := onSquare(t)
	body, err := json.Marshal(map[string]any{"mission": mission, "set_ups": setUps})
	require.NoError(t, err)
	all, _, faults := r.ReadComparison(body)
	require.Empty(t, faults)
	through, _, faults := r.comparisonThrough(body)
	require.Empty(t, faults)
	require.Equal(t, through, all)
	for i, setUp := range setUps {
		alone, faults := r.merge(mission, setUp.(map[string]any), i)
		require.Empty(t, faults)
		alone.Label = all[i].Label
		assert.Equal(t, alone, all[i])
		for _, list := range [][]MergedSetUp{all, through} {
			assert.Same(t, &list[0].Mission.Field.Ground.Boundary[0][0][0], &list[i].Mission.Field.Ground.Boundary[0][0][0])
		}
	}
}

// Every set-up says what is wrong with the field, as it would alone.
func TestTheFaultsOfASharedFieldAreThoseOfEach(t *testing.T) {
	t.Parallel()
	r := newReader(t)
	for name, edits := range map[string][]edit{
		"far launch point":  {{"launch_point", map[string]any{"type": "Point", "coordinates": []any{10.0, 10.0}}}},
		"crossing outline":  {{"boundary", polygon([]any{[]any{-91.0, 33.4}, []any{-90.99, 33.41}, []any{-90.99, 33.4}, []any{-91.0, 33.41}, []any{-91.0, 33.4}})}},
		"outside the range": {{"crop_height", of(1e6, "ft")}},
	} {
		mission, setUps := onSquare(t, edits...)
		setUps[1].(map[string]any)["flight"].(map[string]any)["height"] = of(1e6, "ft")
		_, together := r.mergeAll(map[string]any{"mission": mission, "set_ups": setUps})
		var alone []Fault
		for i, setUp := range setUps {
			_, faults := r.merge(mission, setUp.(map[string]any), i)
			alone = append(alone, faults...)
		}
		require.NotEmpty(t, alone, name)
		assert.Equal(t, alone, together, name)
	}
	mission, setUps := onSquare(t)
	setUps[2].(map[string]any)["field"] = map[string]any{"boundary": square(-91, 33.4, 0.02)}
	all, _ := r.mergeAll(map[string]any{"mission": mission, "set_ups": setUps})
	assert.Equal(t, all[0].Mission.Field, all[1].Mission.Field)
	assert.NotEqual(t, all[0].Mission.Field, all[2].Mission.Field, "a field that a set-up brings is never another's")
}
