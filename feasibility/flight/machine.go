package flight

import (
	"math"

	"tractcheck/feasibility/units"
)

// Machine is what the power model needs of an aircraft; nil means not stated.
type Machine struct {
	Rotors         *Rotors
	BatteryEnergy  units.Energy // nameplate, of everything that feeds the motors at once
	UsableShare    *units.Proportion
	DragArea       *units.Area     // equivalent flat plate area of the whole aircraft
	EmptyEndurance *units.Duration // measured hover, tank empty
	FullEndurance  *units.Duration // measured hover, at FullMass
	EmptyMass      units.Mass      // ready to fly, tank empty
	FullMass       units.Mass      // at the maker's maximum takeoff weight
	// MeasuredShare is the part of the battery that the measured hovers used; nil: all of it,
	// which reads the most power out of a measured time.
	MeasuredShare *units.Proportion
	// SprayPower is what pump and atomizers draw while spraying; nil: an allowance.
	SprayPower *units.Power
}

// Rotors is the rotor set.
type Rotors struct {
	Count    units.Count // all rotors, both of every coaxial pair
	Diameter units.Length
	Coaxial  bool
}

// DiscArea reports the total disc area as seen from above, a coaxial pair counted once:
// N pi D^2/4. An odd coaxial rotor is left out; a set of no rotors or no diameter has no area.
func (r Rotors) DiscArea() units.Area {
	discs := float64(max(0, r.Count))
	if r.Coaxial {
		discs = math.Floor(discs / 2)
	}
	d := max(0, float64(r.Diameter))
	return units.Area(discs * math.Pi * d * d / 4)
}

// interference reports by how much the ideal power exceeds that of the same disc area without a
// second rotor below: for a pair the area counts once, and the pair needs 1.22/sqrt(2) = 0.863 of
// what a single rotor of that area would.
func (r Rotors) interference() float64 {
	if r.Coaxial {
		return coaxialInterference / math.Sqrt2
	}
	return 1
}

// stated reports whether the rotor set gives a disc area at all.
func (r *Rotors) stated() bool {
	return r != nil && r.DiscArea() > 0 && units.Finite(r.DiscArea())
}

// reference reports the mass the machine is sized by: at the maker's maximum, or with an empty
// tank where that is not known.
func (m Machine) reference() units.Mass {
	if units.Finite(m.FullMass) && m.FullMass > 0 {
		return m.FullMass
	}
	return m.EmptyMass
}
