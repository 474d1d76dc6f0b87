package tract

import (
	"tractcheck/feasibility/flight"
	"tractcheck/feasibility/units"
)

// Job is how the field is to be flown; nil means not stated.
type Job struct {
	Swath       units.Length
	Speed       units.Speed  // over the ground
	Height      units.Length // above ground
	Course      *units.Bearing
	Crosswind   *bool
	WindFrom    units.Bearing
	WindSpeed   units.Speed // at flight height; 0: not known or calm
	TurnTime    *units.Duration
	Rate        units.ApplicationRate
	Fill        units.Volume // the most the tank may hold at takeoff
	Density     units.Density
	DryMass     units.Mass // everything on board but the liquid
	Aircraft    units.Count
	Power       flight.Model
	MinimumFill *units.Volume // the least the tank must hold at takeoff; what is not sprayed is flown home
	Headland    units.Count   // passes round the edge of the tract; 0: none, the aircraft turns over the edge
	Clear       []Clear       // strips to leave unsprayed for neighbors; only a field on the map has sides to leave
	// FillBoundByWeight says that Fill was held below the tank's capacity by a weight limit; nil
	// reads as false.
	FillBoundByWeight *bool
}

// Bound says what ends a sortie.
type Bound string

// The bounds.
const (
	BoundTank    Bound = "tank"
	BoundBattery Bound = "battery"
	BoundWeight  Bound = "weight" // the fill was held under a weight limit below the tank's capacity
)

// complete reports whether every number that the plan divides by or multiplies with is usable,
// and names the first that is not by its pointer.
func (j Job) complete() (pointer string, ok bool) {
	for _, need := range []struct {
		pointer string
		value   float64
	}{
		{"/flight/swath", j.Swath.SI()},
		{"/flight/speed", j.Speed.SI()},
		{"/load/application_rate", j.Rate.SI()},
		{"/load/fill", j.Fill.SI()},
		{"/load/density", j.Density.SI()},
		{"/aircraft/empty_weight", j.DryMass.SI()},
	} {
		if !(need.value > 0) || !units.Finite(units.Length(need.value)) {
			return need.pointer, false
		}
	}
	return "", true
}

// fillBound reports what a full tank means: the tank itself or a weight limit.
func (j Job) fillBound() Bound {
	if j.FillBoundByWeight != nil && *j.FillBoundByWeight {
		return BoundWeight
	}
	return BoundTank
}
