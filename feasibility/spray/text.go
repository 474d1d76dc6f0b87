package spray

import (
	"math"
	"strconv"
	"strings"

	"tractcheck/feasibility/units"
)

// figure prints a number with three significant digits, without an exponent where a person
// would not use one.
func figure(x float64) string {
	if a := math.Abs(x); a != 0 && (a < 1e-3 || a >= 1e6) {
		return strconv.FormatFloat(x, 'g', 3, 64)
	}
	return strconv.FormatFloat(units.Significant(x, 3), 'f', -1, 64)
}

func inPSI(p units.Pressure) string        { return figure(p.In(psi)) + " psi" }
func inGPM(q units.Flow) string            { return figure(q.In(gpm)) + " gal/min" }
func inGPA(r units.ApplicationRate) string { return figure(r.In(units.GallonPerAcre)) + " gal/ac" }
func inMPH(v units.Speed) string           { return figure(v.In(units.MilePerHour)) + " mph" }
func inRPM(n units.RotationRate) string    { return figure(n.In(units.RevolutionPerMinute)) + " rpm" }
func inMicrometers(d units.Length) string  { return figure(d.In(um)) + " um" }
func inPercent(p units.Proportion) string  { return figure(p.In(units.Percent)) + " %" }
func inTension(t units.SurfaceTension) string {
	return figure(t.In(units.MillinewtonPerMeter)) + " mN/m"
}

// roundedDown and roundedUp round a speed to three digits in miles an hour without leaving the
// range whose upper or lower end it is.
func roundedDown(v units.Speed) units.Speed {
	return units.Speed(units.SignificantDown(v.In(units.MilePerHour), 3)) * units.MilePerHour
}

func roundedUp(v units.Speed) units.Speed {
	down := roundedDown(v).In(units.MilePerHour)
	if down <= 0 || units.AtLeast(down, v.In(units.MilePerHour)) {
		return v
	}
	digit := math.Pow(10, math.Floor(math.Log10(down))-2)
	return units.Speed(units.Significant(down+digit, 3)) * units.MilePerHour
}

// words turns a code such as very_fine into plain words.
func (c Class) words() string { return strings.ReplaceAll(string(c), "_", " ") }
