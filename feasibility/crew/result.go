package crew

import (
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// CostPart is one part of the cost per area.
type CostPart struct {
	Name    string // machine, batteries, labor, energy, travel
	PerArea units.AreaCost
}

// Cost is the cost per area by its parts. Parts whose prices were not stated are left out, so the
// sum is a lower bound then; a finding names them.
type Cost struct {
	PerArea                          units.AreaCost
	Parts                            []CostPart
	GroundQuote, MannedAircraftQuote *units.AreaCost
}

// Result is the crew's plan.
type Result struct {
	Batteries       units.Count  // needed so that no aircraft waits
	Chargers        units.Count  // likewise; 0 where the batteries can all be charged beforehand
	GeneratorPower  units.Power  // rated, for the chargers that run
	GeneratorFuel   units.Volume // for the batteries charged in the field
	WorkRate        units.AreaRate
	FieldEfficiency units.Proportion // effective over theoretical capacity of the aircraft flown
	Elapsed         units.Duration   // first loading to last landing, waiting and no nights in it
	Waiting         units.Duration   // part of Elapsed lost for want of charged batteries
	Days            units.Count
	HoursPerDay     units.Duration // of spraying, taken for Days
	Cost            *Cost          // nil where no price was given
	Findings        []finding.Finding
	Assumptions     []finding.Assumption
	Sources         []finding.Source
}
