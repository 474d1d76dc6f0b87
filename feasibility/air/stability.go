package air

import (
	"fmt"
	"math"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// Stability is a Pasquill stability class, A (very unstable) to F (stable).
type Stability string

// The stability classes.
const (
	VeryUnstable     Stability = "A"
	Unstable         Stability = "B"
	SlightlyUnstable Stability = "C"
	Neutral          Stability = "D"
	SlightlyStable   Stability = "E"
	Stable           Stability = "F"
)

// overcast is the cloud cover from which the sky counts as covered, 8/8 to the nearest eighth
// rounded up to be careful. Own design.
const overcast = 95 * units.Percent

// halfCover is the cloud cover, 4/8, that parts the two columns of the night.
// Source: NOAA Air Resources Laboratory, Pasquill Stability Classes, after Pasquill 1961.
const halfCover = 50 * units.Percent

// fillStability settles the stability class: from two measured temperatures where there are any,
// else inferred from wind, sun and cloud.
func (s *State) fillStability(o Observation, n *notes) {
	if o.Lapse != nil {
		if class, ok := o.Lapse.class(s.windOver(o, ratioWindHeight)); ok {
			s.Stability = class
			n.cite(stabilityRatio)
			return
		}
	}
	s.StabilityInferred = true
	s.Stability = inferredClass(s.windOver(o, classWindHeight), o.Sun, o.CloudCover)
	n.cite(pasquill, turner)
	n.assumeSky(o, s.Stability)
}

// inferredClass reports the class for the wind at 10 m. Without a sun (time or place
// not stated) it is neutral, the middle; without a cloud cover the night is taken as clear and
// the day as covered, each the more stable reading.
// Source: Pasquill 1961 and Turner 1964, as tabled by NOAA Air Resources Laboratory.
func inferredClass(wind units.Speed, sun *Sun, cloud *units.Proportion) Stability {
	switch {
	case sun == nil:
		return Neutral
	case cloud != nil && units.AtLeast(*cloud, overcast):
		return Neutral
	case sun.NightForStability:
		return nightClass(wind, cloud)
	case cloud == nil:
		return Neutral
	default:
		return dayClass(wind, sun.Elevation, *cloud)
	}
}

// nightClass reads the table's night columns; an unknown cloud cover is read as a clear sky.
func nightClass(wind units.Speed, cloud *units.Proportion) Stability {
	row := pasquillRow(wind)
	if cloud != nil && !units.AtMost(*cloud, halfCover) {
		return row.cloudyNight
	}
	return row.clearNight
}

// dayClass reads the table by the strength of the sun, one step weaker where cloud covers more
// than half the sky (Turner 1964). A sun below 15 degrees is weaker than the table's "slight".
func dayClass(wind units.Speed, elevation units.Angle, cloud units.Proportion) Stability {
	strength := sunStrength(elevation)
	if !units.AtMost(cloud, halfCover) {
		strength = max(weakSun, strength-1)
	}
	return pasquillRow(wind).day[strength]
}

// assumeSky says what was taken of the sky where it was not stated.
func (n *notes) assumeSky(o Observation, class Stability) {
	switch {
	case o.Sun == nil:
		n.assume(finding.Assumption{
			Subject: "/weather/at",
			Assumed: "neutral air (stability class D), since time or place is not known",
			Settle:  "send the time of the job with its latitude and longitude, or a field boundary",
			Source:  pasquill,
		})
	case o.CloudCover == nil:
		sky := "a covered sky"
		if o.Sun.NightForStability {
			sky = "a clear sky"
		}
		n.assume(finding.Assumption{
			Subject: "/weather/cloud_cover",
			Assumed: fmt.Sprintf("%s, for the stability of the air (class %s)", sky, class),
			Settle:  "send how much of the sky is covered, in percent",
			Source:  pasquill,
		})
	}
}

// PerMeter is the unit of PerLength.
const PerMeter PerLength = 1

// In reports the value in the given unit.
func (q PerLength) In(unit PerLength) float64 { return float64(q) / float64(unit) }

// inverseObukhov reports the inverse of the Obukhov length for a class over a roughness. It is
// negative in unstable air, zero in neutral air and positive in stable air.
// Valid for roughness up to 0.5 m; a rougher surface is held there.
// Source: Golder 1972, Boundary-Layer Meteorol. 3:47: 1/L = a + b log10(z0).
func inverseObukhov(class Stability, roughness units.Length) PerLength {
	for _, row := range golderTable {
		if row.class == class {
			return PerLength(row.a + row.b*math.Log10(min(roughness, golderRoughest).SI()))
		}
	}
	return 0
}
