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

// daylightSources is the list of the daylight room, made once; nobody changes it.
var daylightSources = daylight.Sources()

// lightReport cites the daylight sources where the light was worked out.
func lightReport(light daylight.Light) report {
	if light.Phase == daylight.Unknown {
		return report{}
	}
	return report{sources: daylightSources}
}

// gather puts the rooms' reports into the answer: findings gravest first and in the order of the
// rooms within a severity, assumptions and sources once each, in the order they came up.
func (a *Answer) gather(reports ...report) {
	a.Findings = gravestFirst(a.Findings, reports)
	a.Assumptions = slices.Grow(a.Assumptions, assumptionsIn(reports))
	var cited citations
	for i := range a.Sources {
		cited.add(&a.Sources[i])
	}
	for i := range reports {
		r := &reports[i]
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
	a.Sources = cited.appendTo(a.Sources)
}

// gravestFirst sorts the findings that there are and those of reports by severity, in their order within
// one. A finding is large, so each is moved once.
func gravestFirst(found []finding.Finding, reports []report) []finding.Finding {
	count := 0
	for i := range reports {
		count += len(reports[i].findings)
	}
	if count == 0 && found != nil {
		return found // sorted when they were gathered
	}
	sorted := make([]finding.Finding, 0, len(found)+count)
	for rank := finding.Stop.Rank(); rank <= finding.Note.Rank(); rank++ {
		sorted = appendRanked(sorted, found, rank)
		for i := range reports {
			sorted = appendRanked(sorted, reports[i].findings, rank)
		}
	}
	return sorted
}

// appendRanked appends the findings of one rank.
func appendRanked(to, found []finding.Finding, rank int) []finding.Finding {
	for i := range found {
		if found[i].Severity.Rank() == rank {
			to = append(to, found[i])
		}
	}
	return to
}

// assumptionsIn counts the assumptions of reports.
func assumptionsIn(reports []report) int {
	count := 0
	for i := range reports {
		count += len(reports[i].assumptions)
	}
	return count
}

// citations lists sources, each once, in the order they came up. The zero citations is ready.
type citations struct {
	near  [usualSources]*finding.Source
	count int                      // of those
	slots [4 * usualSources]uint16 // places among them, from 1 on, by the hash of the id; 0 is free
	far   []*finding.Source        // those that near has no room for, looked through one by one
}

// usualSources is more sources than most answers cite; each further one costs a little more. Own choice.
const usualSources = 128

func (c *citations) add(s *finding.Source) {
	if !s.Cited() {
		return
	}
	slot := slotOf(s.ID) % len(c.slots)
	for ; c.slots[slot] != 0; slot = (slot + 1) % len(c.slots) {
		if c.near[c.slots[slot]-1].ID == s.ID {
			return
		}
	}
	if c.count < len(c.near) {
		c.near[c.count] = s
		c.count++
		c.slots[slot] = uint16(c.count)
		return
	}
	if !slices.ContainsFunc(c.far, func(t *finding.Source) bool { return t.ID == s.ID }) {
		c.far = append(c.far, s)
	}
}

// appendTo appends to a list, whose own sources were added first, the others.
func (c *citations) appendTo(list []finding.Source) []finding.Source {
	known := len(list)
	list = slices.Grow(list, max(0, c.count+len(c.far)-known))
	for _, s := range c.near[min(known, c.count):c.count] {
		list = append(list, *s)
	}
	for _, s := range c.far[max(0, known-c.count):] {
		list = append(list, *s)
	}
	return list
}

// slotOf is where the search for an id begins: the FNV-1a hash (Fowler, Noll and Vo) of its length and its
// last letters, in which ids differ most, 16 bits of it.
func slotOf(id string) int {
	const letters = 8
	hash := (uint32(2166136261) ^ uint32(len(id))) * 16777619
	for i := max(0, len(id)-letters); i < len(id); i++ {
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
