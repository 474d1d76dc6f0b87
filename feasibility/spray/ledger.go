package spray

import (
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// ledger gathers what one call reports beside its numbers.
type ledger struct {
	findings    []finding.Finding
	assumptions []finding.Assumption
	used        map[string]bool // source ids; only ever looked up, never walked
}

func newLedger() *ledger { return &ledger{used: map[string]bool{}} }

// find adds a finding.
func (l *ledger) find(f finding.Finding) {
	l.findings = append(l.findings, f)
	l.cite(f.Source)
}

// assume adds an assumption.
func (l *ledger) assume(subject, assumed, settle string, source finding.Source) {
	l.assumptions = append(l.assumptions, finding.Assumption{
		Subject: subject, Assumed: assumed, Settle: settle, Source: source,
	})
	l.cite(source)
}

// cite marks sources as used.
func (l *ledger) cite(sources ...finding.Source) {
	for _, s := range sources {
		l.used[s.ID] = true
	}
}

// close hands the ledger over to the result: sources once each, in the order of the list.
func (l *ledger) close(r *Result) {
	r.Findings, r.Assumptions = l.findings, l.assumptions
	for _, s := range sources() {
		if l.used[s.ID] {
			r.Sources = append(r.Sources, s)
		}
	}
}

// compared fills the figures of a finding: margin is positive on the safe side.
func compared[Q interface {
	~float64
	units.Quantity
}](f finding.Finding, measured, limit Q, limitIsCeiling bool) finding.Finding {
	margin := measured - limit
	if limitIsCeiling {
		margin = limit - measured
	}
	f.Measured, f.Limit, f.Margin = measured, limit, margin
	return f
}
