package drift

import (
	"math"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// Curve names a published drift curve.
type Curve string

// The published curves.
const (
	GroundBoom      Curve = "ground_boom"
	OrchardAirblast Curve = "orchard_airblast" // fruit crops, late growth stages
	MannedAerial    Curve = "manned_aerial"
)

// basicDrift is one regression of the basic drift values: percent of the rate y = A x^B up to the
// hinge and C x^D beyond, x in m from the last row or boom end. 90th percentile of one
// application, wind up to 5 m/s.
type basicDrift struct {
	Curve      Curve
	A, B, C, D float64
	Hinge      units.Length
	Source     finding.Source
}

// at reports the curve at a distance, as a share of the rate; distances under 1 m are held at 1 m,
// where the regressions begin.
func (b basicDrift) at(distance units.Length) units.Proportion {
	x := max(1, distance.SI())
	percent := b.A * math.Pow(x, b.B)
	if b.C > 0 && x > b.Hinge.SI() {
		percent = b.C * math.Pow(x, b.D)
	}
	return units.Proportion(percent) * units.Percent
}

// curve finds a published curve.
func curve(name Curve) basicDrift {
	for _, b := range basicDrifts {
		if b.Curve == name {
			return b
		}
	}
	return basicDrift{}
}

// BasicDrift reports the published basic drift value of a kind of sprayer at a distance down the
// wind, as a share of the rate. It is the 90th percentile of one application in wind up to 5 m/s;
// distances under 1 m are held at 1 m. It is 0 for an unknown curve.
// Source: Rautmann, Streloke and Winkler 2001, Mitt. BBA 383:133.
func BasicDrift(name Curve, distance units.Length) units.Proportion { return curve(name).at(distance) }

// referencePoints are the published curves at the distances of the answer, only read.
var referencePoints = func() (points [len(basicDrifts)][len(distances)]ReferencePoint) {
	for i, b := range basicDrifts {
		for j, x := range distances {
			points[i][j] = ReferencePoint{Distance: x, PercentOfRate: units.Significant(b.at(x), 3)}
		}
	}
	return points
}()

// referenceCurves lays the published curves out for an answer, which may round them for itself.
func referenceCurves() []ReferenceCurve {
	out, points := make([]ReferenceCurve, len(basicDrifts)), referencePoints
	for i := range basicDrifts {
		out[i] = ReferenceCurve{Name: string(basicDrifts[i].Curve), Standing: basicDrifts[i].Source.Standing, Deposit: points[i][:]}
	}
	return out
}
