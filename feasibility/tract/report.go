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

// repeat says again what was said before.
func (r *report) repeat(before *report) {
	r.Findings = append(r.Findings, before.Findings...)
	r.Assumptions = append(r.Assumptions, before.Assumptions...)
	for _, s := range before.Cited(sourcesTable) {
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
