package drift

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"tractcheck/feasibility/units"
)

// Judging says what assessing says, but for what explains it.
func TestJudgeSaysWhatAssessSays(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		in := anyJob(t)
		want, got := Assess(in), Judge(in)
		assert.Equal(t, want.Grade, got.Grade)
		assert.Equal(t, want.AtNeighbors, got.AtNeighbors)
		assert.Equal(t, want.Buffer, got.Buffer)
		assert.Equal(t, want.Findings, got.Findings)
		assert.Equal(t, want.Assumptions, got.Assumptions)
		assert.Equal(t, want.Sources, got.Sources)
		assert.Empty(t, got.Drivers)
		assert.GreaterOrEqual(t, got.Worst, units.Proportion(0))
	})
}

func BenchmarkJudge(b *testing.B) {
	in := job(fairDay())
	b.ReportAllocs()
	for b.Loop() {
		Judge(in)
	}
}
