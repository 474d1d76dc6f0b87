package finding_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tractcheck/feasibility/finding"
)

func TestSeveritiesAreRankedGravestFirst(t *testing.T) {
	order := []finding.Severity{finding.Stop, finding.Needed, finding.Caution, finding.Note}
	for i := 1; i < len(order); i++ {
		assert.Less(t, order[i-1].Rank(), order[i].Rank(), "%s before %s", order[i-1], order[i])
	}
}

func TestASourceNeedsIDAndCitation(t *testing.T) {
	assert.True(t, finding.Source{ID: "a", Citation: "b"}.Cited())
	assert.False(t, finding.Source{ID: "a"}.Cited())
	assert.False(t, finding.Source{Citation: "b"}.Cited())
}
