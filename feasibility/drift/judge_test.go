package drift

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// Judging says what assessing says, but for what explains it.
func TestJudgeSaysWhatAssessSays(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		in := anyJob(t)
		want, got := Assess(in), Judge(in, false)
		assert.Equal(t, want.Grade, got.Grade)
		assert.Equal(t, want.AtNeighbors, got.AtNeighbors)
		assert.Equal(t, want.Buffer, got.Buffer)
		assert.Equal(t, want.Airborne, got.Airborne)
		assert.Equal(t, want.Findings, got.Findings)
		assert.Equal(t, want.Assumptions, got.Assumptions)
		assert.Equal(t, want.Sources, got.Sources)
		assert.Empty(t, got.Drivers)
		assert.GreaterOrEqual(t, got.Worst, units.Proportion(0))
	})
}

// By the rules alone nothing is found that the whole judgment does not find, and a grade is given only
// where the whole judgment gives the same.
func TestJudgeByRulesIsPartOfTheWhole(t *testing.T) {
	t.Parallel()
	graded := 0
	rapid.Check(t, func(t *rapid.T) {
		in := anyJob(t)
		whole, rules := Judge(in, false), Judge(in, true)
		for _, f := range rules.Findings {
			assert.Contains(t, whole.Findings, f)
		}
		if rules.Grade != "" {
			graded++
			assert.Equal(t, whole.Grade, rules.Grade)
		} else {
			assert.NotEqual(t, finding.Stop, gravest(rules.Findings, severeCodes))
		}
		for i, n := range rules.AtNeighbors {
			assert.Equal(t, whole.AtNeighbors[i].Downwind, n.Downwind)
		}
	})
	assert.Positive(t, graded, "some job is severe by its wind or its air")
}

// gravest is the severity of the gravest finding of some codes.
func gravest(found []finding.Finding, codes []finding.Code) finding.Severity {
	severity := finding.Note
	for _, f := range found {
		for _, code := range codes {
			if f.Code == code && f.Severity.Rank() < severity.Rank() {
				severity = f.Severity
			}
		}
	}
	return severity
}

func BenchmarkJudge(b *testing.B) {
	in := job(fairDay())
	for name, rulesOnly := range map[string]bool{"whole": false, "rules": true} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				Judge(in, rulesOnly)
			}
		})
	}
}
