package feasibility

import (
	"slices"

	"tractcheck/feasibility/daylight"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// report is what one room says beside its numbers.
type report struct {
	findings    []finding.Finding
	assumptions []finding.Assumption
	sources     []finding.Source
}

// lightReport cites the daylight sources where the light was worked out.
func lightReport(light daylight.Light) report {
	if light.Phase == daylight.Unknown {
		return report{}
	}
	return report{sources: daylight.Sources()}
}

// gather puts the rooms' reports into the answer: findings gravest first and in the order of the
// rooms within a severity, assumptions and sources once each, in the order they came up.
func (a *Answer) gather(reports ...report) {
	a.makeRoom(reports)
	cited := citations{answer: a, listed: make(map[string]bool, usualSources)}
	for i := range a.Sources {
		cited.listed[a.Sources[i].ID] = true
	}
	for _, r := range reports {
		a.Findings = append(a.Findings, r.findings...)
		for _, s := range r.assumptions {
			if !slices.Contains(a.Assumptions, s) {
				a.Assumptions = append(a.Assumptions, s)
			}
			cited.add(&s.Source)
		}
		for i := range r.sources {
			cited.add(&r.sources[i])
		}
		for i := range r.findings {
			cited.add(&r.findings[i].Source)
		}
	}
	a.Findings = gravestFirst(a.Findings)
}

// makeRoom makes the lists as long as the reports need them.
func (a *Answer) makeRoom(reports []report) {
	var findings, assumptions int
	for _, r := range reports {
		findings += len(r.findings)
		assumptions += len(r.assumptions)
	}
	a.Findings = slices.Grow(a.Findings, findings)
	a.Assumptions = slices.Grow(a.Assumptions, assumptions)
	a.Sources = slices.Grow(a.Sources, usualSources)
}

// usualSources is about how many sources a whole answer cites; more only take more memory.
const usualSources = 96

// gravestFirst sorts findings by severity, in their order within one. A finding is large, so each is
// moved once.
func gravestFirst(findings []finding.Finding) []finding.Finding {
	sorted := make([]finding.Finding, 0, len(findings))
	for rank := finding.Stop.Rank(); rank <= finding.Note.Rank(); rank++ {
		for i := range findings {
			if findings[i].Severity.Rank() == rank {
				sorted = append(sorted, findings[i])
			}
		}
	}
	return sorted
}

// citations lists the sources of an answer, each once, in the order they came up.
type citations struct {
	answer *Answer
	listed map[string]bool // ids; only looked up, never ranged over
}

func (c *citations) add(s *finding.Source) {
	if !s.Cited() || c.listed[s.ID] {
		return
	}
	c.listed[s.ID] = true
	c.answer.Sources = append(c.answer.Sources, *s)
}

// cite adds one source where it is not listed yet. gather is quicker for many.
func (a *Answer) cite(s finding.Source) {
	if s.Cited() && !slices.ContainsFunc(a.Sources, func(t finding.Source) bool { return t.ID == s.ID }) {
		a.Sources = append(a.Sources, s)
	}
}

// settleSorties puts the crew's clock time and batteries beside the sorties.
func (a *Answer) settleSorties(m Mission) {
	a.Elapsed = a.CrewPlan.Elapsed
	a.BatteriesNeeded = a.CrewPlan.Batteries
	a.Aircraft = orElse(m.Aircraft.Count, units.Count(1))
}
