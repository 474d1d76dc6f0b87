package finding_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tractcheck/feasibility/finding"
)

func TestLedgerCitesEachSourceOnceInTheRoomsOrder(t *testing.T) {
	first := finding.Source{ID: "first", Citation: "First 2001"}
	second := finding.Source{ID: "second", Citation: "Second 2002"}
	idle := finding.Source{ID: "idle", Citation: "Idle 2003"}
	var l finding.Ledger
	assert.Empty(t, l.Cited([]finding.Source{first}))
	l.Find(finding.Finding{Code: "b", Source: second})
	l.Find(finding.Finding{Code: "a", Source: second})
	l.Assume("/load/fill", "2 gal", "send it", first)
	assert.Equal(t, []finding.Source{first, second}, l.Cited([]finding.Source{idle, first, second}))
	assert.Equal(t, []finding.Code{"b", "a"}, []finding.Code{l.Findings[0].Code, l.Findings[1].Code})
	assert.Equal(t, []finding.Assumption{{Subject: "/load/fill", Assumed: "2 gal", Settle: "send it", Source: first}}, l.Assumptions)
}
