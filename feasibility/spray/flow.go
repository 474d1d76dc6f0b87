package spray

import (
	"math"

	"tractcheck/feasibility/units"
)

// RatingDensity is the density of the water that nozzle ratings stand for, 8.345 lb/gal: water
// at its densest, 0.99997 kg/L at 4 C (Tanaka et al. 2001, from memory). Extension tables round
// to 8.34 (University of Nebraska-Lincoln CropWatch 2016), 0.06 % less and 0.03 % in flow.
const RatingDensity = 8.345 * units.PoundPerGallon

// SpecificGravity reports a density against the water of the nozzle ratings; density must be
// positive. University of Nebraska-Lincoln CropWatch 2016, table 1.
func SpecificGravity(density units.Density) units.Proportion {
	return units.Proportion(density / RatingDensity)
}

// FlowAt reports the flow of one nozzle of a liquid of the given density at a pressure. All
// arguments must be positive. It follows the square law from the rated point, which holds within
// the working range, and is good to the 5 % to which nozzles are made.
func (h Hydraulic) FlowAt(p units.Pressure, density units.Density) units.Flow {
	// q2/q1 = sqrt(p2/p1): core manual, chapter 11.
	water := float64(h.RatedFlow) * math.Sqrt(float64(p/h.RatedPressure))
	// q_liquid = q_water/sqrt(SG): University of Nebraska-Lincoln CropWatch 2016.
	return units.Flow(water / math.Sqrt(SpecificGravity(density).SI()))
}

// PressureFor reports the pressure at the nozzle that gives a flow of a liquid of the given
// density. It is the inverse of FlowAt, with the same range, accuracy and sources.
func (h Hydraulic) PressureFor(q units.Flow, density units.Density) units.Pressure {
	// p = p_ref (q sqrt(SG)/q_ref)^2
	ratio := float64(q / h.RatedFlow)
	return h.RatedPressure * units.Pressure(ratio*ratio*SpecificGravity(density).SI())
}

// Size reports the flow of water at 40 psi, of which the ISO 10625 size code is the tenths of a
// US gallon a minute.
func (h Hydraulic) Size() units.Flow { return h.FlowAt(fortyPSI, RatingDensity) }
