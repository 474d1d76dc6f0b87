package wire

import (
	"encoding/json"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Remedies by the hour and for people under the spray, made in the request and sent again, give the answer
// promised, and an answer to a job that is offered another hour has time for all of it.
func TestLateAndCrowdedJobsKeepTheirPromise(t *testing.T) {
	t.Parallel()
	reader, err := NewReader("test")
	require.NoError(t, err)
	sample, err := os.ReadFile("../../testdata/missions/cotton-forty-small.json")
	require.NoError(t, err)
	for name, tc := range map[string]struct {
		changes map[string]any
		says    string
	}{
		"begun five minutes before the air turns": {map[string]any{"/weather/at": "2026-06-12T19:08:00-05:00"}, "Yes. As planned, "},
		"at dusk":  {map[string]any{"/weather/at": "2026-06-12T20:00:00-05:00"}, "Yes, if you start at 07:00 on 13 June"},
		"at night": {map[string]any{"/weather/at": "2026-06-12T23:30:00-05:00"}, "Yes, if you start at 07:00 on 13 June"},
		"over people": {map[string]any{"/operation/over_people": true, "/operation/holds/-": "waiver:over-people"},
			"Yes, if you keep everyone out of the field and 100 ft around it."},
		"over people at night": {map[string]any{"/operation/over_people": true, "/weather/at": "2026-06-12T23:30:00-05:00"},
			"Yes, if you start at 07:00 on 13 June, UTC offset -05:00 and keep everyone out"},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			var tree map[string]any
			require.NoError(t, json.Unmarshal(sample, &tree))
			for pointer, to := range tc.changes {
				if pointer == "/operation/holds/-" {
					operation := tree["operation"].(map[string]any)
					operation["holds"] = append(operation["holds"].([]any), to)
					continue
				}
				put(tree, pointer, to)
			}
			body, err := json.Marshal(tree)
			require.NoError(t, err)
			a := posted(t, reader, body)
			assert.True(t, strings.HasPrefix(a.Headline, tc.says), a.Headline)
			assert.Equal(t, slices.Contains(open(a, "caution"), "job_runs_past_dusk"), strings.Contains(a.Headline, "you must stop"), "finding and headline agree")
			promised(t, reader, body, a)
			for _, r := range a.Remedies {
				then := posted(t, reader, remedied(t, body, r.Changes))
				assert.NotContains(t, open(then, "caution"), "job_runs_past_dusk")
			}
		})
	}
}
