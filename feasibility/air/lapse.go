package air

import (
	"fmt"
	"math"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// CodeLapseUnusable marks a pair of temperatures that says nothing, because the two heights are
// the same or nearly so.
const CodeLapseUnusable finding.Code = "lapse_unusable"

const (
	// closestHeights is the least distance between two thermometers that tells a lapse. Own design.
	closestHeights = 1 * units.Foot
	// ratioWindHeight is the height of the wind in the stability ratio, and ratioLower and
	// ratioUpper those of its temperatures.
	// Source: Yates, Akesson and Coutts 1967 and 1974 (from memory).
	ratioWindHeight = 5 * units.Meter
	ratioLower      = 2.5 * units.Meter
	ratioUpper      = 10 * units.Meter
	// adiabaticLapse is how fast air that is moved up cools, g/cp. Air that cools by less on the way up is
	// stable: what rises in it is cooler than what lies around it, and sinks back.
	// Source: Stull, Meteorology for Scientists and Engineers (9.8 K for each km; from memory).
	adiabaticLapse = 9.8 * units.KelvinDifference // for each kilometer
)

// difference reports by how much the upper air is warmer than the lower, whichever way the pair
// was written down. It is not usable where the heights are nearer than closestHeights.
func (l Lapse) difference() (units.TemperatureDifference, bool) {
	gap := l.UpperHeight - l.LowerHeight
	d := l.UpperTemperature.Minus(l.LowerTemperature)
	if gap < 0 {
		gap, d = -gap, -d
	}
	return d, units.AtLeast(gap, closestHeights) && min(l.LowerHeight, l.UpperHeight) > 0 && units.Finite(d)
}

// neutral reports by how much the upper air of the pair must be the cooler one for the air not to be stable.
func (l Lapse) neutral() units.TemperatureDifference {
	gap := max(l.UpperHeight-l.LowerHeight, l.LowerHeight-l.UpperHeight)
	return units.TemperatureDifference(gap.In(units.Kilometer)) * adiabaticLapse
}

// ratioClasses maps the stability ratio to a Pasquill class. The bounds are those of Yates,
// Akesson and Coutts (from memory); the classes set beside them are own design. They steer the
// wind profile only: an inversion is judged by the temperatures themselves.
var ratioClasses = []struct {
	below  float64
	class  Stability
	source string
}{
	{-1.7, VeryUnstable, "own design"}, // more unstable than the tabled range
	{-0.8, Unstable, "own design"},     // the stronger half of "unstable", -1.7 to -0.1
	{-0.1, SlightlyUnstable, "Yates, Akesson and Coutts: unstable"},
	{0.1, Neutral, "Yates, Akesson and Coutts: neutral"},
	{1.2, SlightlyStable, "Yates, Akesson and Coutts: stable"},
	{math.Inf(1), Stable, "Yates, Akesson and Coutts: very stable"},
}

// class reports the stability class by the stability ratio of the pair and the wind at 5 m.
func (l Lapse) class(wind units.Speed) (Stability, bool) {
	d, ok := l.difference()
	if !ok {
		return "", false
	}
	ratio := ratioOf(l.between(d), wind)
	for _, row := range ratioClasses {
		if ratio < row.below {
			return row.class, true
		}
	}
	return Stable, true
}

// between reports the difference that the pair means between 2.5 and 10 m, the heights for which
// the ratio's bounds hold. Near the ground temperature runs with the logarithm of the height.
func (l Lapse) between(d units.TemperatureDifference) units.TemperatureDifference {
	low, high := min(l.LowerHeight, l.UpperHeight).SI(), max(l.LowerHeight, l.UpperHeight).SI()
	// dT(2.5 to 10 m) = dT(low to high) x ln(10/2.5)/ln(high/low).
	return units.TemperatureDifference(d.SI() * math.Log(ratioUpper.SI()/ratioLower.SI()) / math.Log(high/low))
}

// ratioOf reports the stability ratio. In a dead calm it is held at a wind of 0.1 m/s.
// Source: Yates, Akesson and Coutts 1967 and 1974 (from memory).
func ratioOf(d units.TemperatureDifference, wind units.Speed) float64 {
	const centimeter = units.MeterPerSecond / 100
	u := max(wind, units.MeterPerSecond/10).In(centimeter)
	// Yates, Akesson and Coutts: SR = (T_10m - T_2.5m)/u^2 x 1e5, C and cm/s.
	return d.SI() / (u * u) * 1e5
}

// warnUnusable says that a pair of temperatures could not be read.
func (n *notes) warnUnusable(l Lapse) {
	n.find(finding.Finding{
		Code:     CodeLapseUnusable,
		Severity: finding.Caution,
		Subject:  "/weather/lapse",
		Message: fmt.Sprintf("The two temperatures at %s and %s say nothing about an inversion: the heights must be above the ground and at least 1 ft apart. "+
			"Measure at about 8 ft and 33 ft and send both.", feet(l.LowerHeight, 0), feet(l.UpperHeight, 0)),
		Source: stabilityRatio,
	})
}
