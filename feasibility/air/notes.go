package air

import (
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// notes gathers what Observe has to say beside its numbers.
type notes struct {
	findings    []finding.Finding
	assumptions []finding.Assumption
	used        []finding.Source
}

// find adds a finding and cites its source.
func (n *notes) find(f finding.Finding) {
	n.findings = append(n.findings, f)
	n.cite(f.Source)
}

// assume adds an assumption and cites its source.
func (n *notes) assume(a finding.Assumption) {
	n.assumptions = append(n.assumptions, a)
	n.cite(a.Source)
}

// cite marks sources as used by a number that says nothing of itself.
func (n *notes) cite(sources ...finding.Source) { n.used = append(n.used, sources...) }

// cited reports the sources used, each once, in the order of the sources table.
func (n *notes) cited() []finding.Source {
	var list []finding.Source
	for _, known := range Sources() {
		for _, s := range n.used {
			if s.ID == known.ID {
				list = append(list, known)
				break
			}
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
