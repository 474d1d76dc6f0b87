package takeoff

import "tractcheck/feasibility/units"

// Aircraft is what of a machine counts on the scale; nil means not stated. Weights and the tank are
// positive; a mass of any size is weighed, since what is absurd shows in the findings.
type Aircraft struct {
	EmptyWeight      units.Mass  // airframe, tank empty, no battery
	BatteryWeight    units.Mass  // one battery
	BatteriesOnBoard units.Count // 0: not stated, taken as 1
	OtherOnboard     *units.Mass // everything else on board or attached: radio, lights, remote-ID module
	TankCapacity     units.Volume
	MaxTakeoffWeight units.Mass // the maker's
}

// Load is the liquid to carry.
type Load struct {
	Fill    *units.Volume // nil: the largest that is legal and fits
	Density *units.Density
}

// Air is what the weight needs of the air.
type Air struct {
	DensityRatio    units.Proportion // of the air to 1.225 kg/m3
	DensityAltitude units.Length     // for the wording only; the ratio decides
}

// Input is everything the room reads.
type Input struct {
	Aircraft Aircraft
	Load     Load
	Air      *Air // nil: weather not stated
	// LargeAllowed says that the caller holds the authority for 55 lb and over, so a fill left
	// open may go past the small-aircraft line. The line is still reported.
	LargeAllowed bool
	// PublicAgency says that a government flies public aircraft, which go over the line under their
	// own authority, not under an exemption.
	PublicAgency bool
	// LineElsewhere says that the job is in another country: the line of 55 lb still bounds a fill
	// left open, for want of a better one, but is reported as a note only.
	LineElsewhere bool
}

// batteries reports the mass of every battery on board; fewer than one on board reads as one.
func (a Aircraft) batteries() units.Mass {
	return units.Mass(float64(max(1, a.BatteriesOnBoard)) * float64(a.BatteryWeight))
}

// other reports the stated mass of other equipment, or zero.
func (a Aircraft) other() units.Mass {
	if a.OtherOnboard == nil {
		return 0
	}
	return *a.OtherOnboard
}

// dry reports the mass of everything on board but the liquid.
func (a Aircraft) dry() units.Mass {
	return a.EmptyWeight + a.batteries() + a.other()
}

// density reports the density of the liquid, and false where water stands in for it because none
// was stated or the one stated is not a positive number.
func (l Load) density() (units.Density, bool) {
	if l.Density == nil || !units.Finite(*l.Density) || *l.Density <= 0 {
		return Water, false
	}
	return *l.Density, true
}

// ratio reports the density ratio of the air, and false where it was not stated.
func (in Input) ratio() (units.Proportion, bool) {
	if in.Air == nil || !units.Finite(in.Air.DensityRatio) || in.Air.DensityRatio <= 0 {
		return units.Whole, false
	}
	return in.Air.DensityRatio, true
}
