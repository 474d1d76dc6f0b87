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
	cited := citations{answer: a}
	for i := range a.Sources {
		cited.list(a.Sources[i].ID, i)
	}
	for i := range reports {
		r := &reports[i]
		a.Findings = append(a.Findings, r.findings...)
		for i := range r.assumptions {
			if !slices.Contains(a.Assumptions, r.assumptions[i]) {
				a.Assumptions = append(a.Assumptions, r.assumptions[i])
			}
			cited.add(&r.assumptions[i].Source)
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
	var findings, assumptions, sources int
	for i := range reports {
		findings += len(reports[i].findings)
		assumptions += len(reports[i].assumptions)
		sources += len(reports[i].sources)
	}
	a.Findings = slices.Grow(a.Findings, findings)
	a.Assumptions = slices.Grow(a.Assumptions, assumptions)
	a.Sources = slices.Grow(a.Sources, sources+spareSources)
}

// spareSources is about how many sources are cited beside those that the rooms list; more only take
// more memory.
const spareSources = 8

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
	slots  [512]uint16 // places in the list, from 1 on, by the hash of the id; 0 is free
}

func (c *citations) add(s *finding.Source) {
	if !s.Cited() || c.listed(s.ID) {
		return
	}
	c.list(s.ID, len(c.answer.Sources))
	c.answer.Sources = append(c.answer.Sources, *s)
}

// list marks the source of an id as standing at a place in the list. Past half of the slots it marks no
// more; listed then looks through the rest of the list.
func (c *citations) list(id string, at int) {
	if at >= len(c.slots)/2 {
		return
	}
	slot := slotOf(id)
	for c.slots[slot%len(c.slots)] != 0 {
		slot++
	}
	c.slots[slot%len(c.slots)] = uint16(at + 1)
}

// listed reports whether the source of an id is listed.
func (c *citations) listed(id string) bool {
	for slot := slotOf(id); ; slot++ {
		at := int(c.slots[slot%len(c.slots)])
		if at == 0 {
			break
		}
		if c.answer.Sources[at-1].ID == id {
			return true
		}
	}
	rest := c.answer.Sources[min(len(c.slots)/2, len(c.answer.Sources)):]
	return slices.ContainsFunc(rest, func(s finding.Source) bool { return s.ID == id })
}

// slotOf is where the search for an id begins: its FNV-1a hash (Fowler, Noll and Vo), 16 bits of it.
func slotOf(id string) int {
	hash := uint32(2166136261)
	for i := range len(id) {
		hash = (hash ^ uint32(id[i])) * 16777619
	}
	return int(hash >> 16)
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
