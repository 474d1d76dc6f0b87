package wire

import (
	"encoding/json"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility"
	"tractcheck/feasibility/permits"
)

// pointersIn lists the pointers of every member of an object, outermost first; lists are one member.
func pointersIn(object map[string]any, at string) []string {
	var all []string
	for _, name := range slices.Sorted(maps.Keys(object)) {
		all = append(all, at+"/"+name)
		if inner, ok := object[name].(map[string]any); ok {
			all = append(all, pointersIn(inner, at+"/"+name)...)
		}
	}
	return all
}

// Leaving any one member out of a sample mission either is a fault or never turns an item from needed
// or unknown into not_needed.
func TestAMemberLeftOutIsNeverGoodNews(t *testing.T) {
	t.Parallel()
	files, err := filepath.Glob(filepath.Join("..", "..", "testdata", "missions", "*.json"))
	require.NoError(t, err)
	taken := 0
	for _, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		var body map[string]any
		require.NoError(t, json.Unmarshal(text, &body))
		if _, ok := body["operation"]; !ok {
			continue
		}
		before, faults := checklistOf(t, body)
		if faults {
			continue
		}
		for _, pointer := range pointersIn(body, "") {
			var without map[string]any
			require.NoError(t, json.Unmarshal(text, &without))
			drop(without, pointer)
			after, faults := checklistOf(t, without)
			if faults {
				continue
			}
			taken++
			for _, change := range permits.Differences(before, after) {
				worse := change.From == permits.NeededNow || change.From == permits.Unknown
				assert.False(t, worse && change.To == permits.NotNeeded, "%s without %s: %s goes from %s to not_needed: %s",
					filepath.Base(file), pointer, change.ID, change.From, strings.TrimSpace(change.Because))
			}
		}
	}
	assert.Greater(t, taken, 300)
}

// checklistOf is the checklist of a body, and whether it was refused.
func checklistOf(t *testing.T, body map[string]any) (permits.Checklist, bool) {
	t.Helper()
	mission, faults := decoded(t, body).Mission(AuthorizationChecklists)
	if len(faults) > 0 {
		return permits.Checklist{}, true
	}
	answer, err := feasibility.AssessAuthorizations(mission)
	require.NoError(t, err)
	return answer.Authorizations, false
}
