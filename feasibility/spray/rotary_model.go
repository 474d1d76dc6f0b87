package spray

import (
	"math"

	"tractcheck/feasibility/units"
)

// waterViscosity is 1.0016 mPa s, water at 20 C (IAPWS, 0.1 MPa, from memory). It enters by a power of 0.017,
// so a mix ten times as thick changes the size by 4 %.
const waterViscosity = 1.0016e-3

// mostFlowPerDisc is the flow beyond which the liquid leaves a disc in sheets and the size laws no
// longer hold: 110 cm3/s, Proc. Inst. Mech. Eng. 166 (1952).
const mostFlowPerDisc units.Flow = 110e-6

// waltonPrewett is the size of the main drops off a disc edge; d in m, rotation omega in rad/s.
// Walton and Prewett 1949: d = 3.8/omega sqrt(T/(D rho)), tested from 15 um to 3 mm. Other
// constants reported run from 2.7 to 6.6 (from memory).
func waltonPrewett(disc units.Length, rotation units.RotationRate, tension units.SurfaceTension, density units.Density) units.Length {
	t, d, rho := tension.SI(), disc.SI(), density.SI()
	return units.Length(3.8 / rotation.SI() * math.Sqrt(t/(d*rho)))
}

// frost is the drop size of the ligament mode with the flow q of one disc.
// Frost 1981 (from memory): D = 1.87 Q^0.44 sigma^0.15 mu^0.017 / (omega^0.75 Dd^0.8 rho^0.16).
// SI throughout: q in m3/s, sigma in N/m, mu in Pa s, omega in rad/s, Dd and D in m. The exponents
// pass a dimension check, so 1.87 is a pure number.
func frost(disc units.Length, rotation units.RotationRate, q units.Flow, tension units.SurfaceTension, density units.Density) units.Length {
	up := 1.87 * math.Pow(q.SI(), 0.44) * math.Pow(tension.SI(), 0.15) * math.Pow(waterViscosity, 0.017)
	down := math.Pow(rotation.SI(), 0.75) * math.Pow(disc.SI(), 0.8) * math.Pow(density.SI(), 0.16)
	return units.Length(up / down)
}

// RotaryDv05 reports the Dv0.5 of a spinning disc by the default model: the larger of Walton and
// Prewett 1949 and Frost 1981, which differ by up to a factor of 2 at high flow.
//
// q is the flow of one disc; all arguments must be positive. Taking the larger is this project's
// choice. Good to 30 %; beyond 110 cm3/s a disc it is a guess.
func RotaryDv05(disc units.Length, rotation units.RotationRate, q units.Flow, tension units.SurfaceTension, density units.Density) units.Length {
	return max(waltonPrewett(disc, rotation, tension, density), frost(disc, rotation, q, tension, density))
}
