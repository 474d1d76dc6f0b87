package wire

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility"
	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/finding"
)

// severityOf is the severity of the finding of a code; empty where there is none.
func severityOf(a feasibility.Answer, code finding.Code) finding.Severity {
	for _, f := range a.Findings {
		if f.Code == code {
			return f.Severity
		}
	}
	return ""
}

// A list left out is asked for, and an empty one says that there are none: in a whole assessment, in its
// drift alone, and in the papers, which read the same list.
func TestNoListOfNeighborsIsNotAnEmptyOne(t *testing.T) {
	t.Parallel()
	for _, tc := range []struct {
		name      string
		neighbors any // nil: left out
		pesticide bool
		want      finding.Severity
	}{
		{"left out", nil, true, finding.Needed},
		{"left out, not a pesticide", nil, false, finding.Caution},
		{"empty", []any{}, true, ""},
		{"empty, not a pesticide", []any{}, false, ""},
	} {
		t.Run(tc.name, func(t *testing.T) {
			body := sampleBody(t)
			drop(body, "/field/neighbors")
			if tc.neighbors != nil {
				put(body, "/field/neighbors", tc.neighbors)
			}
			put(body, "/load/pesticide", tc.pesticide)
			drop(body, "/operation/dispenses")
			for _, e := range []struct {
				endpoint Endpoint
				assess   func(feasibility.Mission) (feasibility.Answer, error)
			}{
				{Assessments, feasibility.Assess}, {DriftRisks, feasibility.AssessDriftRisk},
			} {
				mission, faults := decoded(t, body).Mission(e.endpoint)
				require.Empty(t, faults)
				answer, err := e.assess(mission)
				require.NoError(t, err)
				assert.Equal(t, tc.want, severityOf(answer, drift.CodeNeighborsNotStated), e.endpoint)
				assert.Equal(t, tc.neighbors != nil, severityOf(answer, drift.CodeNoNeighborDownwind) == finding.Note, e.endpoint)
			}
		})
	}
}
