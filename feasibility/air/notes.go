package air

import (
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// notes gathers what Observe has to say beside its numbers.
type notes struct {
	findings    []finding.Finding
	assumptions []finding.Assumption
	used        [mostSources]bool // by place in the sources table
}

// mostSources is room for the sources table; a test holds it to that.
const mostSources = 24

// usual is about how many findings or assumptions the air has; more only take more memory.
const usual = 4

// sourcesTable is Sources, built once; it never changes.
var sourcesTable = Sources()

// find adds a finding and cites its source.
func (n *notes) find(f finding.Finding) {
	if n.findings == nil {
		n.findings = make([]finding.Finding, 0, usual)
	}
	n.findings = append(n.findings, f)
	n.cite(f.Source)
}

// assume adds an assumption and cites its source.
func (n *notes) assume(a finding.Assumption) {
	if n.assumptions == nil {
		n.assumptions = make([]finding.Assumption, 0, usual)
	}
	n.assumptions = append(n.assumptions, a)
	n.cite(a.Source)
}

// cite marks sources as used by a number that says nothing of itself.
func (n *notes) cite(sources ...finding.Source) {
	for _, s := range sources {
		for i := range sourcesTable {
			if sourcesTable[i].ID == s.ID {
				n.used[i] = true
			}
		}
	}
}

// cited reports the sources used, each once, in the order of the sources table.
func (n *notes) cited() []finding.Source {
	count := 0
	for _, used := range n.used {
		if used {
			count++
		}
	}
	if count == 0 {
		return nil
	}
	list := make([]finding.Source, 0, count)
	for i, used := range n.used {
		if used {
			list = append(list, sourcesTable[i])
		}
	}
	return list
}

// bounds is the span of values of a quantity that can occur on farmland.
type bounds[Q ~float64] struct{ low, high Q }

// hold reports the value held within the bounds, and whether it was outside them. A value that
// is no number is held at the lower bound.
func (b bounds[Q]) hold(q Q) (Q, bool) {
	held := max(b.low, min(b.high, q))
	if !units.Finite(q) {
		held = b.low
	}
	return held, held != q
}
