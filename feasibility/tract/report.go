package tract

import (
	"strconv"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// report gathers what the plan has to say beside its numbers.
type report struct{ finding.Ledger }

// onto writes the report into a plan, the sources in the room's order.
func (r *report) onto(p Plan) Plan {
	p.Findings, p.Assumptions, p.Sources = r.Findings, r.Assumptions, r.Cited(sourcesTable)
	return p
}

// said is what was said of a field or of its lines, to be repeated for other jobs.
type said struct {
	findings    []finding.Finding
	assumptions []finding.Assumption
	sources     []finding.Source
}

// said reports what has been said so far.
func (r *report) said() said {
	return said{r.Findings, r.Assumptions, r.Cited(sourcesTable)}
}

// brief is a report that has seldom more than one thing to say.
func brief() *report {
	r := &report{}
	r.Assumptions = make([]finding.Assumption, 0, 1)
	return r
}

// repeat says again what was said before.
func (r *report) repeat(before *said) {
	r.Findings = append(r.Findings, before.findings...)
	r.Assumptions = append(r.Assumptions, before.assumptions...)
	for _, s := range before.sources {
		r.Cite(s)
	}
}

// acres, feet, gallons and percent print a quantity for a message, in US units with three
// significant digits.
func acres(a units.Area) string     { return figure(a.In(units.Acre)) + " acres" }
func feet(l units.Length) string    { return figure(l.In(units.Foot)) + " ft" }
func gallons(v units.Volume) string { return figure(v.In(units.Gallon)) + " gal" }
func percent(p units.Proportion) string {
	return figure(p.In(units.Percent)) + " percent"
}

// figure prints three significant digits, without an exponent for everyday sizes.
func figure(x float64) string {
	rounded := units.Significant(units.Proportion(x), 3).SI()
	if rounded >= 1e9 || (rounded != 0 && rounded < 1e-4) {
		return strconv.FormatFloat(rounded, 'g', 3, 64)
	}
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}

// capped turns a whole number held in a float into a count; beyond a billion it stays there.
func capped(x float64) units.Count {
	const most = 1_000_000_000
	if !(x < most) {
		return most
	}
	return units.Count(max(0, x))
}
