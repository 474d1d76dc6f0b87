package feasibility

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tractcheck/feasibility/tract"
)

// TestASearchThatEndsSaysSo: where the work is used up, nothing more is looked for, and the answer says it.
func TestASearchThatEndsSaysSo(t *testing.T) {
	t.Parallel()
	land := tract.NewLand(tract.Field{})
	e := newEffort(land)
	assert.True(t, e.searches())
	a := Answer{RemediesNote: "Nothing was found."}
	e.tell(&a)
	assert.Empty(t, a.Findings)
	assert.Equal(t, "Nothing was found.", a.RemediesNote)

	e.most = -1
	assert.False(t, e.searches())
	assert.True(t, e.verifies(), "what was found before is still worked out")
	e.tell(&a)
	assert.Contains(t, a.RemediesNote, "ended before all changes were tried")
	assert.Equal(t, CodeSearchEnded, a.Findings[0].Code)
}
