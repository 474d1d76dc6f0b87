package feasibility

import (
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/tract"
	"tractcheck/feasibility/units"
)

// CodeSearchEnded (caution): the search for remedies ended before all changes were tried.
const CodeSearchEnded finding.Code = "remedy_search_ended"

// mostWork is how many steps the search for remedies may take on the field, beyond those of the plan that
// was asked about. Own choice: some tenths of a second.
const mostWork units.Count = 20_000_000

// sourceSearch is where the bound comes from.
var sourceSearch = finding.Source{
	ID:       "remedy-search",
	Citation: "Choice of this program: the search for remedies is bounded by counted steps on the field, so that any field is answered in seconds and the same mission always gets the same answer",
	Standing: finding.OwnDesign,
}

// effort is the work on the field that a search for remedies may take: counted, never timed, so that the
// same mission gets the same answer. What was found before it is used up is still worked out in full.
type effort struct {
	land  *tract.Land
	most  units.Count
	ended bool
}

// newEffort begins to count.
func newEffort(land *tract.Land) *effort { return &effort{land: land, most: land.Work() + mostWork} }

// searches reports whether there is work left to look for changes, and notes where there is none.
func (e *effort) searches() bool {
	e.ended = e.ended || e.land.Work() > e.most
	return !e.ended
}

// verifies reports whether there is work left to work out in full a change that was found.
func (e *effort) verifies() bool {
	still := e.land.Work() <= e.most+mostWork
	e.ended = e.ended || !still
	return still
}

// tell says that the search has ended early.
func (e *effort) tell(a *Answer) {
	if !e.ended {
		return
	}
	const simplify = "Draw the field with fewer corners, or in parts, and ask again."
	if a.RemediesNote != "" {
		a.RemediesNote += " The search ended before all changes were tried, because this outline takes too much work. " + simplify
	}
	a.gather(report{findings: []finding.Finding{{
		Code: CodeSearchEnded, Severity: finding.Caution, Subject: "/field/boundary", Source: sourceSearch,
		Message: "The search for changes that would help ended before all were tried, because the outline of this field takes too much work. There may be changes that help more than those shown, or help where none is shown. " + simplify,
	}}})
}
