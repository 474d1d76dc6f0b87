package drift

import (
	"slices"

	"tractcheck/feasibility/finding"
)

// ledger collects what the room has to say, in the order it was said.
type ledger struct {
	findings    []finding.Finding
	assumptions []finding.Assumption
	used        []string // source ids, each once; they are few
}

// usual is how much the room usually has to say, and usualSources how many sources it cites; room for
// that is made at once.
const (
	usual        = 6
	usualSources = 24
)

// report adds a finding and its source.
func (l *ledger) report(f finding.Finding) {
	if l.findings == nil {
		l.findings = make([]finding.Finding, 0, usual)
	}
	l.findings = append(l.findings, f)
	l.cite(f.Source)
}

// assume adds an assumption and its source.
func (l *ledger) assume(a finding.Assumption) {
	if l.assumptions == nil {
		l.assumptions = make([]finding.Assumption, 0, usual)
	}
	l.assumptions = append(l.assumptions, a)
	l.cite(a.Source)
}

// cite marks sources as used.
func (l *ledger) cite(sources ...finding.Source) {
	if l.used == nil {
		l.used = make([]string, 0, usualSources)
	}
	for i := range sources {
		if !slices.Contains(l.used, sources[i].ID) {
			l.used = append(l.used, sources[i].ID)
		}
	}
}

// cited reports the sources used, each once, in the order of the room's list.
func (l *ledger) cited() []finding.Source {
	if len(l.used) == 0 {
		return nil
	}
	list, known := make([]finding.Source, 0, len(l.used)), Sources()
	for i := range known {
		if slices.Contains(l.used, known[i].ID) {
			list = append(list, known[i])
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
