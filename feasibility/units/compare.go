package units

import "math"

// Tolerance is the relative width within which two computed quantities count as equal: one part
// in a billion. Sums of values converted from pounds to kilograms differ from the exact sum by a
// few parts in 1e16, so anything this close to a limit is at the limit. Every branch that
// compares a computed quantity with a limit goes through the functions of this file.
const Tolerance = 1e-9

// StrictlyBelow reports whether q is less than limit and not equal to it within Tolerance.
// It decides strict limits such as "less than 55 pounds on takeoff" (14 CFR 107.3).
func StrictlyBelow[Q ~float64](q, limit Q) bool {
	return float64(q) < float64(limit)-slack(float64(limit))
}

// AtMost reports whether q is less than limit or equal to it within Tolerance.
func AtMost[Q ~float64](q, limit Q) bool {
	return float64(q) <= float64(limit)+slack(float64(limit))
}

// AtLeast reports whether q is more than limit or equal to it within Tolerance.
func AtLeast[Q ~float64](q, limit Q) bool {
	return float64(q) >= float64(limit)-slack(float64(limit))
}

// Ceil reports the least whole number not below x, where x within Tolerance above a whole number
// counts as that number: 3.0000000001 sorties are three, not four.
func Ceil(x float64) int {
	return int(math.Ceil(x - slack(max(1, math.Abs(x)))))
}

func slack(limit float64) float64 { return math.Abs(limit) * Tolerance }
