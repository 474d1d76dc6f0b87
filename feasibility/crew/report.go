package crew

import (
	"strconv"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// report gathers what the plan has to say beside its numbers.
type report struct {
	finding.Ledger

	perSet units.Count // batteries in one set
}

// onto writes the report into a result, the sources in the room's order.
func (r *report) onto(out Result) Result {
	out.Findings, out.Assumptions, out.Sources = r.Findings, r.Assumptions, r.Cited(sourcesTable)
	return out
}

// figure prints three significant digits, without an exponent for everyday sizes.
func figure(x float64) string {
	rounded := units.Significant(units.Proportion(x), 3).SI()
	if rounded >= 1e9 || (rounded != 0 && rounded < 1e-4) {
		return strconv.FormatFloat(rounded, 'g', 3, 64)
	}
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}

// minutes, hours and kilowatts print a quantity for a message.
func minutes(d units.Duration) string { return figure(d.In(units.Minute)) + " minutes" }
func hours(d units.Duration) string   { return figure(d.In(units.Hour)) + " hours" }
func kilowatts(p units.Power) string  { return figure(p.In(units.Kilowatt)) + " kW" }

// perAcre prints a cost.
func perAcre(c units.AreaCost) string {
	return "$" + strconv.FormatFloat(c.In(units.DollarPerAcre), 'f', 2, 64) + " per acre"
}

// batteriesOf prints a number of battery sets: as batteries, where a set is one.
func (r *report) batteriesOf(n units.Count) string {
	if r.perSet > 1 {
		return several(n, "set", "sets") + " of " + r.perSet.String() + " batteries"
	}
	return several(n, "battery", "batteries")
}

func chargersOf(n units.Count) string { return several(n, "charger", "chargers") }

// several prints a count with its noun.
func several(n units.Count, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return n.String() + " " + many
}

// capped turns a whole number held in a float into a count; beyond a billion it stays there.
func capped(x float64) units.Count {
	const most = 1_000_000_000
	if !(x < most) {
		return most
	}
	return units.Count(max(0, x))
}
