package drift

import (
	"slices"

	"tractcheck/feasibility/finding"
)

// ledger collects what the room has to say, in the order it was said.
type ledger struct {
	findings    []finding.Finding
	assumptions []finding.Assumption
	sources     []finding.Source
}

// report adds a finding and its source.
func (l *ledger) report(f finding.Finding) {
	l.findings = append(l.findings, f)
	l.cite(f.Source)
}

// assume adds an assumption and its source.
func (l *ledger) assume(a finding.Assumption) {
	l.assumptions = append(l.assumptions, a)
	l.cite(a.Source)
}

// cite marks sources as used.
func (l *ledger) cite(sources ...finding.Source) { l.sources = append(l.sources, sources...) }

// cited reports the sources used, each once, in the order of the room's list.
func (l *ledger) cited() []finding.Source {
	var list []finding.Source
	for _, known := range Sources() {
		if slices.ContainsFunc(l.sources, func(s finding.Source) bool { return s.ID == known.ID }) {
			list = append(list, known)
		}
	}
	return list
}

// stopped reports whether one of the codes was reported as a stop.
func (l *ledger) stopped(codes ...finding.Code) bool {
	return slices.ContainsFunc(l.findings, func(f finding.Finding) bool {
		return f.Severity == finding.Stop && slices.Contains(codes, f.Code)
	})
}
