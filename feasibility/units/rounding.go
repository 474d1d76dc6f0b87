package units

import "math"

// Significant rounds a quantity to a number of significant decimal digits, half away from zero.
// Figures leave the house rounded, so that processors whose last bits differ give one answer.
// A value that is zero, NaN or infinite comes back unchanged.
func Significant[Q ~float64](q Q, digits int) Q {
	x := float64(q)
	if x == 0 || math.IsNaN(x) || math.IsInf(x, 0) {
		return q
	}
	exponent := digits - 1 - int(math.Floor(math.Log10(math.Abs(x))))
	return Q(scaled(x, exponent, math.Round))
}

// settled is how near to a rounded figure a value counts as that figure when rounding down: the
// trace that an earlier rounding to nine significant digits leaves, and no more.
const settled = 5e-9

// SignificantDown rounds toward zero instead of to nearest, save where the value is the nearest
// figure but for an earlier rounding. It serves figures that must stay under a strict limit when
// they are sent back, such as the largest legal fill.
func SignificantDown[Q ~float64](q Q, digits int) Q {
	x := float64(q)
	if x == 0 || math.IsNaN(x) || math.IsInf(x, 0) {
		return q
	}
	if near := Significant(q, digits); math.Abs(float64(near)-x) <= settled*math.Abs(x) {
		return near
	}
	exponent := digits - 1 - int(math.Floor(math.Log10(math.Abs(x))))
	return Q(scaled(x, exponent, math.Trunc))
}

// scaled applies a rounding at 10^-exponent. Dividing by a power of ten, never multiplying by
// its inverse, keeps 30.7 as 30.7.
func scaled(x float64, exponent int, round func(float64) float64) float64 {
	if exponent > 300 {
		return x
	}
	if exponent >= 0 {
		factor := math.Pow10(exponent)
		return round(x*factor) / factor
	}
	factor := math.Pow10(-exponent)
	return round(x/factor) * factor
}
