package feasibility

import (
	"slices"

	"tractcheck/feasibility/air"
	"tractcheck/feasibility/crew"
	"tractcheck/feasibility/daylight"
	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/flight"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/takeoff"
	"tractcheck/feasibility/tract"
	"tractcheck/feasibility/units"
)

// report is what one room says beside its numbers.
type report struct {
	findings    []finding.Finding
	assumptions []finding.Assumption
	sources     []finding.Source
}

// reports collects the reports of the rooms that ran, in the order they are given.
func (m Mission) reports(rooms ...any) []report {
	all := make([]report, 0, len(rooms)+1)
	for _, room := range rooms {
		all = append(all, m.report(room))
	}
	return all
}

// report reads one room's report from its result.
func (m Mission) report(room any) report {
	switch r := room.(type) {
	case report:
		return r
	case daylight.Light:
		return m.lightReport(r)
	case air.State:
		return report{r.Findings, r.Assumptions, r.Sources}
	case airReport:
		if r.sky == nil {
			return report{assumptions: []finding.Assumption{weatherNotStated()}}
		}
		return report{r.sky.Findings, r.sky.Assumptions, r.sky.Sources}
	case takeoff.Result:
		return report{r.Findings, r.Assumptions, r.Sources}
	case spray.Result:
		return report{r.Findings, r.Assumptions, r.Sources}
	case drift.Result:
		return report{r.Findings, r.Assumptions, r.Sources}
	case flight.Model:
		return report{r.Findings, r.Assumptions, r.Sources}
	case tract.Plan:
		return report{r.Findings, r.Assumptions, r.Sources}
	case crew.Result:
		return report{r.Findings, r.Assumptions, r.Sources}
	case permits.Checklist:
		return report{r.Findings, r.Assumptions, r.Sources}
	default:
		return report{}
	}
}

// lightReport cites the daylight sources where the light was worked out.
func (m Mission) lightReport(light daylight.Light) report {
	if light.Phase == daylight.Unknown {
		return report{}
	}
	return report{sources: daylight.Sources()}
}

// gather puts the rooms' reports into the answer: findings gravest first and in the order of the
// rooms within a severity, assumptions and sources once each, in the order they came up.
func (a *Answer) gather(reports ...report) {
	for _, r := range reports {
		a.Findings = append(a.Findings, r.findings...)
		for _, s := range r.assumptions {
			if !slices.Contains(a.Assumptions, s) {
				a.Assumptions = append(a.Assumptions, s)
			}
			a.cite(s.Source)
		}
		for _, s := range r.sources {
			a.cite(s)
		}
		for _, f := range r.findings {
			a.cite(f.Source)
		}
	}
	slices.SortStableFunc(a.Findings, func(x, y finding.Finding) int {
		return x.Severity.Rank() - y.Severity.Rank()
	})
}

// cite adds a source once.
func (a *Answer) cite(s finding.Source) {
	if !s.Cited() || slices.ContainsFunc(a.Sources, func(t finding.Source) bool { return t.ID == s.ID }) {
		return
	}
	a.Sources = append(a.Sources, s)
}

// settleSorties puts the crew's clock time and batteries beside the sorties.
func (a *Answer) settleSorties(m Mission) {
	a.Elapsed = a.CrewPlan.Elapsed
	a.BatteriesNeeded = a.CrewPlan.Batteries
	a.Aircraft = orElse(m.Aircraft.Count, units.Count(1))
}
