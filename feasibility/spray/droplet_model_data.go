package spray

import (
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// The anchor of the default model: the fine/medium reference nozzle, 110 degree fan of size 03 at
// 3 bar, Dv0.5 = 236 um (Virk et al. 2021). With the 1/3 law of Kooij et al. 2018 the
// medium/coarse reference (06 at 2 bar) then comes to 340 um, as the S572.1 table has it.
const (
	anchorDv05     = 236 * um
	anchorFlow     = 0.30 * gpm // at 40 psi
	anchorPressure = 3 * units.Bar
)

// Surface tensions in the law. 72.7 mN/m is water at 20 C (IAPWS R1-76(2014): 72.74, from memory). 50 mN/m
// stands for a mix with adjuvant: the drop of 5 to 18 % in Dv0.5 by Creech et al. 2015 through the
// cube-root law means 62 to 40 mN/m, well above the equilibrium tension, because the sheet breaks
// within milliseconds (Sijs and Bonn 2020).
const (
	waterTension      = 72.7 * units.MillinewtonPerMeter
	adjuvantedTension = 50 * units.MillinewtonPerMeter
)

// The span of the model: 1 to 6 bar and sizes 0075 to 15, that of the reference nozzles and
// common charts. Own choice.
const (
	modelLowest   = 1 * units.Bar
	modelHighest  = 6 * units.Bar
	modelSmallest = 0.075 * gpm
	modelLargest  = 1.5 * gpm
)

// Uncertainties of Dv0.5, relative. The models' are this project's own estimates (published
// renderings of one reference nozzle differ by as much). The measured one is the agreement of
// three laboratories on the reference nozzles, Fritz et al. 2014.
const (
	modelUncertainty    units.Proportion = 0.25
	rotaryUncertainty   units.Proportion = 0.30
	measuredUncertainty units.Proportion = 0.05
)

// exponentSpread is half the spread of published pressure exponents, -0.09 (University of
// Nebraska NebGuide, from memory) to -0.52 (Creech et al. 2015, from memory): each unit of
// ln(p/p0) beyond the data adds this much to the relative uncertainty. Own choice of form.
const exponentSpread = 0.2

// familyModel is how a nozzle family differs from the standard flat fan in the default model.
type familyModel struct {
	Type             NozzleType
	Factor           float64
	SizeExponent     float64
	PressureExponent float64
	AngleMatters     bool
	Words            string
	Source           finding.Source
}

// familyModels. Pre-orifice 1.2 from 440/380 um (NebGuide, from memory; Ohio State Bulletin
// 816-00 implies up to 1.7). Air induction 2.0, assumed: by Creech et al. 2015 it lies between the
// pre-orifice deflector (1.35, from memory) and the air-induction deflector (2.76); its exponents
// 0.15 and -0.40 (the latter from memory) are that paper's averages over five families, two of
// them without air induction. Hollow cone 330/380 um against the 110 degree fan of equal
// flow at 40 psi (NebGuide, from memory).
var familyModels = [4]familyModel{
	{FlatFan, 1, 1.0 / 3, -1.0 / 3, true, "a standard flat fan", sourceModel},
	{PreOrifice, 1.2, 1.0 / 3, -1.0 / 3, true, "a pre-orifice flat fan", sourceNebGuide},
	{AirInduction, 2.0, 0.15, -0.40, true, "an air induction", sourceCreech},
	{HollowCone, 330.0 / 380, 1.0 / 3, -1.0 / 3, false, "a hollow cone", sourceNebGuide},
}

// modelOf finds the row of a family; an unknown family is taken as a hollow cone, the finest.
func modelOf(t NozzleType) *familyModel {
	for i := range familyModels {
		if familyModels[i].Type == t {
			return &familyModels[i]
		}
	}
	return &familyModels[3]
}

// anglePoint is the factor on Dv0.5 of a fan angle against 110 degrees.
type anglePoint struct {
	Angle  units.Angle
	Factor float64
}

// anglePoints: 110 by definition; 80 makes 80-08 at 2.5 bar give 403 um and 65 makes 65-10 at
// 2 bar give 504 um (S572.1 table; the NebGuide ratios are 1.24 and 1.45, from memory); 120
// assumed.
var anglePoints = [4]anglePoint{
	{65 * units.Degree, 1.25},
	{80 * units.Degree, 1.16},
	{110 * units.Degree, 1.00},
	{120 * units.Degree, 0.97},
}

// defaultAngle is the fan angle taken where none is stated. Own choice: the angle of the standard's
// reference nozzles up to medium/coarse, and finer than 80 degrees, so on the safe side.
const defaultAngle = 110 * units.Degree
