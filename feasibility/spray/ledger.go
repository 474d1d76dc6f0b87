package spray

import (
	"slices"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// ledger gathers what one call reports beside its numbers.
type ledger struct {
	findings    []finding.Finding
	assumptions []finding.Assumption
	used        [mostSources]bool // by place in the sources table
}

// What a call usually reports; room for it is made at once.
const (
	usualFindings    = 6
	usualAssumptions = 3
)

// mostSources is room for the sources table.
const mostSources = 32

func newLedger() *ledger {
	return &ledger{findings: make([]finding.Finding, 0, usualFindings), assumptions: make([]finding.Assumption, 0, usualAssumptions)}
}

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
	for i := range sources {
		for at := range sourceTable {
			if sourceTable[at].ID == sources[i].ID {
				l.used[at] = true
				break
			}
		}
	}
}

// close hands the ledger over to the result: sources once each, in the order of the list.
func (l *ledger) close(r *Result) {
	r.Findings, r.Assumptions = slices.Clip(l.findings), slices.Clip(l.assumptions)
	count := 0
	for at := range sourceTable {
		if l.used[at] {
			count++
		}
	}
	r.Sources = make([]finding.Source, 0, count)
	for at := range sourceTable {
		if l.used[at] {
			r.Sources = append(r.Sources, sourceTable[at])
		}
	}
}

// compared fills the figures of a finding: margin is positive on the safe side. They are rounded here
// to the digits that leave the house, so that they are put into the finding once.
func compared[Q interface {
	~float64
	units.Quantity
}](f finding.Finding, measured, limit Q, limitIsCeiling bool) finding.Finding {
	margin := measured - limit
	if limitIsCeiling {
		margin = limit - measured
	}
	f.Measured, f.Limit, f.Margin = shown(measured), shown(limit), shown(margin)
	return f
}

// shown rounds a figure to the nine digits that leave the house.
func shown[Q ~float64](q Q) Q { return units.Significant(q, 9) }
