package crew

import (
	"tractcheck/feasibility/tract"
	"tractcheck/feasibility/units"
)

// Crew is the people and the ground equipment; nil means not stated.
type Crew struct {
	People          *units.Count
	Batteries       *units.Count    // sets, all aircraft together
	Chargers        *units.Count    // each charges one set at a time
	ChargeTime      *units.Duration // one set, from the reserve to full
	BatterySwapTime *units.Duration
	RefillTime      *units.Duration
	Generator       *units.Power    // rated
	WorkHours       *units.Duration // in one day
	Costs           Costs
}

// Costs are the caller's prices; nil means not stated, and its part is left out of the sum.
type Costs struct {
	MachinePrice          *units.Money // one aircraft with its ground equipment, batteries apart
	SalvageValue          *units.Money
	MachineLifeArea       *units.Area // sprayed over its life
	MachineYears          *units.Count
	InterestRate          *units.Proportion // a year; real or nominal, as the caller reckons
	FuelPerGallon         *units.Money      // for the generator
	BatteryPrice          *units.Money      // one battery
	BatteryCycles         *units.Count
	LaborPerPersonHour    *units.Money
	EnergyPerKilowattHour *units.Money
	TravelPerJob          *units.Money
	GroundQuote           *units.AreaCost
	MannedAircraftQuote   *units.AreaCost
}

// none reports whether no price was stated that a part of the cost rests on.
func (c Costs) none() bool {
	return c.MachinePrice == nil && (c.MachineLifeArea == nil || *c.MachineLifeArea <= 0) &&
		c.BatteryPrice == nil && (c.BatteryCycles == nil || *c.BatteryCycles <= 0) &&
		c.LaborPerPersonHour == nil && c.EnergyPerKilowattHour == nil && c.FuelPerGallon == nil && c.TravelPerJob == nil
}

// Input is everything the room reads.
type Input struct {
	Crew           Crew
	Plan           tract.Plan
	Aircraft       units.Count
	RemotePilots   *units.Count       // not used for the hours; the rule on them is a matter of permits
	Observers      *units.Count       // visual observers, likewise
	BatteryEnergy  units.Energy       // nameplate, one set
	BatteriesInSet units.Count        // on board at once; 1 where not positive
	Daylight       *units.Duration    // between sunrise and sunset; nil: not known
	Elevation      *units.Length      // of the field, for the generator; nil: not known
	Temperature    *units.Temperature // of the air, for the generator; nil: not known
}

// perSet reports the batteries in one set.
func (in Input) perSet() units.Count { return max(1, in.BatteriesInSet) }

// area reports the ground the job treats, each bit once; it is what hours and costs are spread on.
func (in Input) area() units.Area {
	if in.Plan.Accounting.Sprayed > 0 {
		return in.Plan.Accounting.Sprayed
	}
	return in.Plan.Area
}
