package units

import (
	"math"
	"strconv"
)

// Significant rounds a quantity to a number of significant decimal digits, half away from zero.
// Figures leave the house rounded, so that processors whose last bits differ give one answer.
// A value that is zero, NaN or infinite comes back unchanged.
func Significant[Q ~float64](q Q, digits int) Q { return Q(significant(float64(q), digits, false)) }

// Rounded is Significant of any quantity. Counts and money, which are whole, come back as they are; so
// does a quantity that is round already, without taking memory.
func Rounded(q Quantity, digits int) Quantity {
	switch v := q.(type) {
	case Mass:
		return rounded(q, v, digits)
	case Force:
		return rounded(q, v, digits)
	case Density:
		return rounded(q, v, digits)
	case Length:
		return rounded(q, v, digits)
	case Area:
		return rounded(q, v, digits)
	case Volume:
		return rounded(q, v, digits)
	case Angle:
		return rounded(q, v, digits)
	case Bearing:
		return rounded(q, v, digits)
	case Speed:
		return rounded(q, v, digits)
	case Duration:
		return rounded(q, v, digits)
	case RotationRate:
		return rounded(q, v, digits)
	case AreaRate:
		return rounded(q, v, digits)
	default:
		return roundedMore(q, digits)
	}
}

// roundedMore is Rounded of the dimensions of liquids, energy, air and money.
func roundedMore(q Quantity, digits int) Quantity {
	switch v := q.(type) {
	case Flow:
		return rounded(q, v, digits)
	case ApplicationRate:
		return rounded(q, v, digits)
	case Pressure:
		return rounded(q, v, digits)
	case AbsolutePressure:
		return rounded(q, v, digits)
	case SurfaceTension:
		return rounded(q, v, digits)
	case Energy:
		return rounded(q, v, digits)
	case Power:
		return rounded(q, v, digits)
	case Proportion:
		return rounded(q, v, digits)
	case Temperature:
		return rounded(q, v, digits)
	case TemperatureDifference:
		return rounded(q, v, digits)
	case AreaCost:
		return rounded(q, v, digits)
	default:
		return q
	}
}

// rounded rounds a value; held is the same value, kept where rounding does not change it.
func rounded[Q measure](held Quantity, v Q, digits int) Quantity {
	round := Significant(v, digits)
	if round == v {
		return held
	}
	return round
}

// measure is a quantity that is a number of its SI unit.
type measure interface {
	~float64
	Quantity
}

// settled is how near to a rounded figure a value counts as that figure when rounding down: the
// trace that an earlier rounding to nine significant digits leaves, and no more.
const settled = 5e-9

// SignificantDown rounds toward zero instead of to nearest, save where the value is the nearest
// figure but for an earlier rounding. It serves figures that must stay under a strict limit when
// they are sent back, such as the largest legal fill.
func SignificantDown[Q ~float64](q Q, digits int) Q {
	x := float64(q)
	if near := significant(x, digits, false); math.Abs(near-x) <= settled*math.Abs(x) {
		return Q(near)
	}
	return Q(significant(x, digits, true))
}

// significant rounds to significant digits, half away from zero or, down, toward zero. Dividing by a
// power of ten, never multiplying by its inverse, keeps 30.7 as 30.7.
func significant(x float64, digits int, down bool) float64 {
	size := math.Abs(x)
	if !usual(size) || digits > mostUsual {
		return significantFar(x, digits, down)
	}
	exponent := digits - 1 - decade(size)
	if exponent >= 0 {
		size = whole(float64(size*exact[exponent]), down) / exact[exponent]
	} else {
		size = whole(size/exact[-exponent], down) * exact[-exponent]
	}
	return math.Copysign(size, x)
}

// mostUsual is how many digits of every number within tens the exact powers of ten reach.
const mostUsual = mostExact + leastTen + 1

// decade is the power of ten of the first digit of a number within tens. Within a last bit of a power of
// ten it may be that or the one below; both round to the same figure.
func decade(size float64) int {
	// 1233/4096 is log10(2) to five digits, and 2^e <= x < 2^(e+1): the product is the decade or one less.
	at := (int(math.Float64bits(size)>>52)-1023)*1233>>12 - leastTen
	if size >= tens[at+1] {
		at++
	}
	return at + leastTen
}

// tens are the powers of ten from leastTen on, between which a logarithm need not be taken.
var tens = [...]float64{
	1e-9, 1e-8, 1e-7, 1e-6, 1e-5, 1e-4, 1e-3, 1e-2, 1e-1,
	1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12,
}

const leastTen = -9

// usual reports whether a number lies within tens.
func usual(size float64) bool { return size >= tens[0] && size < tens[len(tens)-1] }

// exact are the powers of ten that a float64 holds exactly (IEEE 754: 5^22 < 2^53 < 5^23).
var exact = [mostExact + 1]float64{
	1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10,
	1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22,
}

const mostExact = 22

// whole rounds a number with up to mostUsual digits before its point to a whole one. Adding a half never
// moves such a number past the next whole one.
func whole(size float64, down bool) float64 {
	if !down {
		size += 0.5
	}
	return float64(int64(size))
}

// significantFar is significant of any number, however large or small.
func significantFar(x float64, digits int, down bool) float64 {
	if x == 0 || math.IsNaN(x) || math.IsInf(x, 0) {
		return x
	}
	exponent := digits - 1 - decadeFar(x)
	switch {
	case exponent > 300:
		return x
	case exponent > mostExact || exponent < -mostExact:
		return bySpelling(x, digits, down)
	case exponent >= 0:
		return wholeFar(x*exact[exponent], down) / exact[exponent]
	default:
		return wholeFar(x/exact[-exponent], down) * exact[-exponent]
	}
}

// decadeFar is decade of any number.
func decadeFar(x float64) int {
	size := math.Abs(x)
	if usual(size) {
		return decade(size)
	}
	return int(math.Floor(math.Log10(size)))
}

// wholeFar is whole of any number.
func wholeFar(x float64, down bool) float64 {
	if down {
		return math.Trunc(x)
	}
	return math.Round(x)
}

// bySpelling rounds a number that is so large or small that powers of ten are not exact: it is spelled out
// in decimal digits and read again.
func bySpelling(x float64, digits int, down bool) float64 {
	near := spelled(x, digits)
	if down && math.Abs(near) > math.Abs(x) {
		near = spelled(near-math.Copysign(math.Pow10(decadeFar(x)-digits+1), x), digits)
	}
	return near
}

// spelled is the number that a number's first digits mean; one too large for a float64 is infinite.
func spelled(x float64, digits int) float64 {
	near, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'e', digits-1, 64), 64)
	return near
}
