package wire

import (
	"math"
	"strconv"

	"tractcheck/feasibility/units"
)

// limit is the physical range of one member. Values outside it are refused: they are slips of the
// hand or of the unit, and no room can say anything true about them. The bounds are wide; whether
// a value inside them is wise is for the findings.
type limit struct {
	path      string // the member, * for an index
	low, high units.Quantity
}

// negligible is the least magnitude a value other than 0 may have, in the caller's unit.
const negligible = 1e-12

// limitOf finds the limit of a member.
var limitOf = indexLimits()

func indexLimits() map[string]limit {
	index := make(map[string]limit, len(limits))
	for _, l := range limits {
		index[l.path] = l
	}
	return index
}

// admits reports whether a value in a unit lies within the limit, ends included.
func (l limit) admits(value float64, u unit) bool {
	if math.IsNaN(value) || math.IsInf(value, 0) {
		return false
	}
	if value != 0 && math.Abs(value) < negligible {
		return false
	}
	si := u.toSI(value)
	return units.AtLeast(units.Length(si), units.Length(l.low.SI())) &&
		units.AtMost(units.Length(si), units.Length(l.high.SI()))
}

// allowed says the limit in a unit. The ends are rounded inward, so that both may be sent.
func (l limit) allowed(u unit) string {
	low, high := inward(u.from(l.low.SI()), math.Ceil), inward(u.from(l.high.SI()), math.Floor)
	return sayRounded(low) + " to " + sayRounded(high) + " " + u.code
}

// inward rounds a bound to the digits of an answer in the direction of round, math.Ceil or
// math.Floor.
func inward(x float64, round func(float64) float64) float64 {
	x = float64(units.Significant(units.Length(x), settled))
	if x == 0 {
		return 0
	}
	scale := math.Pow10(digits - 1 - int(math.Floor(math.Log10(math.Abs(x)))))
	if math.Abs(x*scale-math.Round(x*scale)) < 1e-6 {
		return math.Round(x*scale) / scale
	}
	return round(x*scale) / scale
}

func sayRounded(x float64) string {
	if math.Abs(x) >= 1e-7 && math.Abs(x) < 1e12 || x == 0 {
		return strconv.FormatFloat(float64(units.Significant(units.Length(x), digits)), 'f', -1, 64)
	}
	return strconv.FormatFloat(x, 'g', digits, 64)
}
