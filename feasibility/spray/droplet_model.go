package spray

import (
	"math"

	"tractcheck/feasibility/units"
)

// angleFactor interpolates the fan angle factor and holds it beyond 65 and 120 degrees.
func angleFactor(angle units.Angle) float64 {
	if angle <= anglePoints[0].Angle {
		return anglePoints[0].Factor
	}
	for i := 1; i < len(anglePoints); i++ {
		a, b := anglePoints[i-1], anglePoints[i]
		if angle <= b.Angle {
			share := float64((angle - a.Angle) / (b.Angle - a.Angle))
			return a.Factor + float64(share*(b.Factor-a.Factor))
		}
	}
	return anglePoints[len(anglePoints)-1].Factor
}

// tensionFactor is the cube root law of surface tension: Kooij et al. 2018, with the dynamic
// tension as Sijs and Bonn 2020 advise.
func tensionFactor(tension units.SurfaceTension) float64 {
	return math.Cbrt(float64(tension / waterTension))
}

// ModelDv05 reports the Dv0.5 of a nozzle family by the default model.
//
// size is the flow of water at 40 psi, p the pressure at the nozzle, tension the dynamic surface
// tension of the mix; all must be positive. Meant for sizes 0075 to 15 and 1 to 6 bar. The form
// follows Kooij et al. 2018; the constant is this project's own fit through the fine/medium and
// medium/coarse reference nozzles. Good to 25 %.
func ModelDv05(family NozzleType, size units.Flow, p units.Pressure, angle units.Angle, tension units.SurfaceTension) units.Length {
	m := modelOf(family)
	return m.at(m.base(size, tension), p, angle)
}

// base is the part of the model that no pressure moves:
// Dv0.5 = 236 um (N/0.30)^(1/3) (p/3)^(-1/3) f_angle f_type (sigma/72.7)^(1/3).
func (m *familyModel) base(size units.Flow, tension units.SurfaceTension) float64 {
	d := anchorDv05.SI() * m.Factor * tensionFactor(tension)
	return d * math.Pow(float64(size/anchorFlow), m.SizeExponent)
}

// at is the model at a pressure and a fan angle.
func (m *familyModel) at(base float64, p units.Pressure, angle units.Angle) units.Length {
	d := base * math.Pow(float64(p/anchorPressure), m.PressureExponent)
	if m.AngleMatters {
		d *= angleFactor(angle)
	}
	return units.Length(d)
}

// stretch reports how far a positive x lies beyond [low, high], as the natural logarithm of the
// ratio to the nearer end; zero inside.
func stretch(x, low, high float64) float64 {
	if x >= low && x <= high {
		return 0
	}
	return max(0, math.Log(low)-math.Log(x), math.Log(x)-math.Log(high))
}

// modelSpread widens the model's uncertainty beyond its span of sizes and pressures, up to 100 %.
func modelSpread(size units.Flow, p units.Pressure) (units.Proportion, bool) {
	beyond := stretch(p.SI(), modelLowest.SI(), modelHighest.SI()) +
		stretch(size.SI(), modelSmallest.SI(), modelLargest.SI())
	return min(1, modelUncertainty+units.Proportion(exponentSpread*beyond)), beyond > units.Tolerance
}
