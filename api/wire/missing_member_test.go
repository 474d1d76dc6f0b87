package wire

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility"
	"tractcheck/feasibility/permits"
)

// Leaving any one member out of a sample mission either is a fault or never turns an item from needed
// or unknown into not_needed.
func TestAMemberLeftOutIsNeverGoodNews(t *testing.T) {
	t.Parallel()
	files, err := filepath.Glob(filepath.Join("..", "..", "testdata", "missions", "*.json"))
	require.NoError(t, err)
	taken := 0
	for _, file := range files {
		body := sampleOf(t, filepath.Base(file))
		if _, ok := body["operation"]; !ok {
			continue
		}
		before, faults := checklistOf(t, body)
		if faults {
			continue
		}
		for _, pointer := range everyMember(body, "") {
			without := copyOf(t, body)
			takeOut(without, pointer)
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
