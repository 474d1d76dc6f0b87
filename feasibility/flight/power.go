package flight

import (
	"math"

	"tractcheck/feasibility/units"
)

// Hover reports the electrical power to hover at a mass; a mass that is not positive needs none.
// Momentum theory with one overall efficiency, or the law through the measured hover times.
func (m Model) Hover(mass units.Mass) units.Power {
	return units.Power(m.law.at(mass.SI()))
}

// Forward reports the electrical power in level flight at a mass and air speed; the direction of
// the speed does not matter. At rest it is Hover. Induced power follows Glauert's inflow, profile
// power grows with the advance ratio, and the work against drag is added through the drive. At
// spraying speeds it is less than Hover, which makes hover a safe bound; turns and stops cost more
// than steady flight. In thin air Hover rises, yet at high speed Forward may fall, since drag
// does. Leishman (from memory); Sensors 2023 23(15):6795 for the terms.
func (m Model) Forward(mass units.Mass, air units.Speed) units.Power {
	speed := math.Abs(air.SI())
	if mass <= 0 || m.law.power <= 0 {
		return 0
	}
	if speed == 0 {
		return m.Hover(mass)
	}
	f := forwardFlow(mass.Weight().SI(), m.density, m.DiscArea.SI(), m.dragArea, speed)
	// Hover power at the same thrust, split into lift and blade drag, each with its own growth.
	hover := m.law.at(f.thrust / units.StandardGravity)
	lift := inducedShare * hover * (f.induced / f.hover)
	blades := (1 - inducedShare) * hover * bladeGrowth(profileGrowth, speed/tipSpeed.SI())
	return units.Power(lift + blades + f.parasite/driveEfficiency)
}

// Endurance reports the hover time at a mass on the usable energy, the reserve kept.
func (m Model) Endurance(mass units.Mass) units.Duration {
	power := m.Hover(mass)
	if power <= 0 {
		return 0
	}
	return power.Time(m.Usable)
}

// Climb reports the energy that climbing takes beyond hovering: m g h over the efficiency. A
// descent gives none back. At an efficiency of 0.53 it is 0.46 kJ per kg for 25 m.
func (m Model) Climb(mass units.Mass, height units.Length) units.Energy {
	if m.Efficiency <= 0 || mass <= 0 || height <= 0 {
		return 0
	}
	return units.Energy(mass.Weight().SI() * height.SI() / float64(m.Efficiency))
}
