package takeoff

import (
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// The names of the parts, in the order they are added up.
const (
	Airframe     = "airframe"
	Battery      = "battery" // every battery on board
	OtherOnboard = "other_onboard"
	Liquid       = "liquid"
)

// Part is one weight on the scale.
type Part struct {
	Name   string // airframe, battery, other_onboard, liquid
	Weight units.Mass
}

// Result is the takeoff weight and how it stands to its limits. Nothing in it is rounded, so that
// the rooms that follow compute with what was compared here.
type Result struct {
	Total       units.Mass
	Parts       []Part // they add up to Total
	Limits      []Limit
	Fill        units.Volume // as stated, or the largest fill
	Density     units.Density
	LargestFill Largest
	Small       bool // total strictly less than 55 lb
	Findings    []finding.Finding
	Assumptions []finding.Assumption
	Sources     []finding.Source
}

// Weigh adds up the takeoff weight and compares it with every limit. Masses, volumes and
// densities are positive and of any size; a fill that is not stated is the largest that the
// limits allow, a density that is not stated is that of water, and both are reported as
// assumptions. The arithmetic is exact to floating point; how true it is rests on the caller's
// scale. 14 CFR 107.3 for the small-aircraft line; the maker for the rest.
func Weigh(in Input) Result {
	density, _ := in.Load.density()
	l := load{dry: in.Aircraft.dry(), density: density}
	most := largest(in, l.dry, limits(in, l))
	l.fill = most.Volume
	if in.Load.Fill != nil {
		l.fill = max(0, *in.Load.Fill)
	}

	r := Result{
		Total:       l.total(),
		Parts:       parts(in.Aircraft, l),
		Limits:      limits(in, l),
		Fill:        l.fill,
		Density:     density,
		LargestFill: most,
		Small:       units.StrictlyBelow(l.total(), SmallLine),
	}
	r.Assumptions = assumptions(in, r)
	r.Findings = findings(in, r, l)
	r.Sources = sourcesOf(r)
	return r
}

// parts lists the weights in the order they are summed.
func parts(a Aircraft, l load) []Part {
	return []Part{
		{Name: Airframe, Weight: a.EmptyWeight},
		{Name: Battery, Weight: a.batteries()},
		{Name: OtherOnboard, Weight: a.other()},
		{Name: Liquid, Weight: l.liquid()},
	}
}
