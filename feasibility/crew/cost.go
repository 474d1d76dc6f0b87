package crew

import (
	"fmt"
	"strings"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// part works out one part of the cost; it reports false, with the prices that are missing, where
// it cannot.
type part struct {
	name    string
	missing []string // members of /crew/costs, or what else must be known
	perArea units.AreaCost
}

// costs works out the cost per area from the prices given; nil where there are none.
func costs(out Result, in Input, j job, r *report) *Cost {
	c := in.Crew.Costs
	if c.none() {
		return nil
	}
	parts := []part{machine(c, r), batteries(c, in, j), labor(c, out, in, j), energy(c, in, j), travel(c, in)}
	cost := &Cost{GroundQuote: c.GroundQuote, MannedAircraftQuote: c.MannedAircraftQuote}
	var left, send []string
	for _, p := range parts {
		if len(p.missing) > 0 {
			left, send = append(left, p.name), append(send, p.missing...)
			continue
		}
		cost.Parts = append(cost.Parts, CostPart{Name: p.name, PerArea: p.perArea})
		cost.PerArea += p.perArea
	}
	r.Cite(sourceCost)
	r.Assume("/crew/costs", "insurance, repairs, taxes and the spray itself are not in the cost", "add them yourself when you hold the cost beside a quote", sourceCost)
	if len(left) > 0 {
		r.Find(finding.Finding{
			Code: CodeCostPartial, Severity: finding.Note, Subject: "/crew/costs",
			Message: "The cost leaves out " + strings.Join(left, ", ") + ", so the true cost is higher. Send " + strings.Join(send, ", ") + ".",
			Source:  sourceCost,
		})
	}
	r.quote(cost, c.GroundQuote, "/crew/costs/ground_quote", "ground rig", len(left) > 0)
	r.quote(cost, c.MannedAircraftQuote, "/crew/costs/manned_aircraft_quote", "manned aircraft", len(left) > 0)
	return cost
}

// batteries counts each battery set drained as one cycle of the life of every battery in it: price
// times batteries in a set times loads over cycles and area.
func batteries(c Costs, in Input, j job) part {
	p := part{name: "batteries"}
	p.need(c.BatteryPrice != nil, "battery_price")
	p.need(c.BatteryCycles != nil && *c.BatteryCycles > 0, "battery_cycles")
	if len(p.missing) == 0 {
		loads := in.Plan.Sorties.SI() / float64(j.shift.perBattery)
		p.perArea = units.AreaCost(c.BatteryPrice.SI() * in.perSet().SI() * loads / c.BatteryCycles.SI() / in.area().SI())
	}
	return p
}

// labor pays every person for the clock time of the job.
func labor(c Costs, out Result, in Input, j job) part {
	p := part{name: "labor"}
	p.need(c.LaborPerPersonHour != nil, "labor_per_person_hour")
	if out.Elapsed <= 0 { // the hours could not be worked out
		p.missing = append(p.missing, "what the hours need")
	}
	if len(p.missing) == 0 {
		p.perArea = units.AreaCost(c.LaborPerPersonHour.SI() * j.times.people.SI() * out.Elapsed.In(units.Hour) / in.area().SI())
	}
	return p
}

// energy buys what the batteries drain, through the charger: kWh per area = energy of a battery
// load over charger efficiency and the area of a battery load. Where no price of a kilowatt hour is
// stated but one of fuel is, all of it comes from the generator.
func energy(c Costs, in Input, j job) part {
	p := part{name: "energy"}
	loads := in.Plan.Sorties.SI() / float64(j.shift.perBattery)
	bought := j.drained.In(units.KilowattHour) / chargerEfficiency.SI() * loads
	switch {
	case c.EnergyPerKilowattHour != nil:
		p.perArea = units.AreaCost(c.EnergyPerKilowattHour.SI() * bought / in.area().SI())
	case c.FuelPerGallon != nil:
		p.perArea = units.AreaCost(c.FuelPerGallon.SI() * bought / generatorYield / in.area().SI())
	default:
		p.missing = append(p.missing, "energy_per_kilowatt_hour or fuel_per_gallon")
	}
	return p
}

// travel spreads the way to the job over its area.
func travel(c Costs, in Input) part {
	p := part{name: "travel"}
	p.need(c.TravelPerJob != nil, "travel_per_job")
	if len(p.missing) == 0 {
		p.perArea = c.TravelPerJob.Over(in.area())
	}
	return p
}

// need notes whether a price was stated.
func (p *part) need(stated bool, pointer string) {
	if stated {
		return
	}
	p.missing = append(p.missing, pointer)
}

// quote says where another machine was offered for less.
func (r *report) quote(cost *Cost, quote *units.AreaCost, pointer, who string, partial bool) {
	if quote == nil || units.AtLeast(*quote, cost.PerArea) {
		return
	}
	sure := "."
	if partial {
		sure = ", and parts of this cost are still missing."
	}
	r.Find(finding.Finding{
		Code: CodeQuoteLower, Severity: finding.Note, Subject: pointer,
		Message: fmt.Sprintf("The quote for the %s, %s, is below the %s worked out here%s Weigh wet ground, crop damage and timing before you choose.",
			who, perAcre(*quote), perAcre(cost.PerArea), sure),
		Measured: cost.PerArea, Limit: *quote, Margin: *quote - cost.PerArea, Source: sourceCost,
	})
}
