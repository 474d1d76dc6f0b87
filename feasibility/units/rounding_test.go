package units_test

import (
	"math"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tractcheck/feasibility/units"
)

func TestSignificant(t *testing.T) {
	for _, tc := range []struct {
		x      float64
		digits int
		near   float64
		down   float64
	}{
		{2.456560814, 6, 2.45656, 2.45656},
		{2.4999999, 6, 2.5, 2.49999},
		{30.66449, 3, 30.7, 30.6},
		{-30.66449, 3, -30.7, -30.6},
		{123456789, 4, 123500000, 123400000},
		{0.000123456, 3, 0.000123, 0.000123},
		{2.39999999995, 6, 2.4, 2.4},
		{0, 6, 0, 0},
	} {
		assert.InDelta(t, tc.near, float64(units.Significant(units.Volume(tc.x), tc.digits)), 1e-18)
		assert.InDelta(t, tc.down, float64(units.SignificantDown(units.Volume(tc.x), tc.digits)), 1e-18)
	}
	assert.True(t, math.IsNaN(float64(units.Significant(units.Volume(math.NaN()), 6))))
	assert.True(t, math.IsInf(float64(units.SignificantDown(units.Volume(math.Inf(1)), 6)), 1))
	assert.False(t, units.Finite(units.Volume(math.NaN())))
	assert.False(t, units.Finite(units.Volume(math.Inf(-1))))
}

func TestRoundingStaysCloseAndSettles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-1e300, 1e300).Draw(t, "x")
		near := float64(units.Significant(units.Mass(x), 6))
		if math.Abs(near-x) > 5.0001e-6*math.Abs(x) {
			t.Fatalf("%g rounded to %g", x, near)
		}
		if again := float64(units.Significant(units.Mass(near), 6)); again != near {
			t.Fatalf("rounding twice moved %g to %g", near, again)
		}
		down := float64(units.SignificantDown(units.Mass(x), 6))
		if math.Abs(down) > math.Abs(x)*(1+1e-8) {
			t.Fatalf("%g rounded away from zero to %g", x, down)
		}
	})
}

// The decade is found without a logarithm; the figures are those of the logarithm wherever the power of ten
// is exact in a float64. Anywhere, a figure of so many digits is spelled with no more.
func TestSignificantIsThatOfTheLogarithm(t *testing.T) {
	byLogarithm := func(x float64, digits int) float64 {
		exponent := digits - 1 - int(math.Floor(math.Log10(math.Abs(x))))
		if exponent >= 0 {
			return math.Round(x*math.Pow10(exponent)) / math.Pow10(exponent)
		}
		return math.Round(x/math.Pow10(-exponent)) * math.Pow10(-exponent)
	}
	check := func(t require.TestingT, x float64) {
		for _, digits := range []int{1, 3, 6, 9, 13} {
			got := float64(units.Significant(units.Mass(x), digits))
			if power := digits - 1 - int(math.Floor(math.Log10(math.Abs(x)))); -22 <= power && power <= 22 {
				require.Equal(t, byLogarithm(x, digits), got, "%g to %d digits", x, digits)
			}
			require.InEpsilon(t, x, got, math.Pow10(1-digits), "%g to %d digits", x, digits)
			spelled, _, _ := strings.Cut(strings.TrimPrefix(strconv.FormatFloat(got, 'e', -1, 64), "-"), "e")
			require.LessOrEqual(t, len(strings.Replace(spelled, ".", "", 1)), digits, "%g to %d digits is %g", x, digits, got)
		}
	}
	for exponent := -14; exponent <= 16; exponent++ {
		ten := math.Pow10(exponent)
		for _, x := range []float64{ten, math.Nextafter(ten, 0), math.Nextafter(ten, 1e300), -ten} {
			check(t, x)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(1, 10).Draw(t, "digits") * math.Pow10(rapid.IntRange(-250, 290).Draw(t, "exponent"))
		check(t, x)
		check(t, -x)
	})
}

// Every quantity rounds by its own type; a type left out of the list would leave unrounded.
func TestRoundedKnowsEveryQuantity(t *testing.T) {
	const x = 1.23456789012345
	for _, q := range []units.Quantity{
		units.Mass(x), units.Force(x), units.Density(x), units.Length(x), units.Area(x), units.Volume(x), units.Angle(x),
		units.Bearing(x), units.Speed(x), units.Duration(x), units.RotationRate(x), units.AreaRate(x), units.Flow(x),
		units.ApplicationRate(x), units.Pressure(x), units.AbsolutePressure(x), units.SurfaceTension(x), units.Energy(x),
		units.Power(x), units.Proportion(x), units.Temperature(x), units.TemperatureDifference(x), units.AreaCost(x),
	} {
		round := units.Rounded(q, 6)
		assert.Equal(t, reflect.TypeOf(q), reflect.TypeOf(round))
		assert.InDelta(t, 1.23457, reflect.ValueOf(round).Float(), 1e-15, "%T", q)
		assert.Zero(t, testing.AllocsPerRun(10, func() { round = units.Rounded(round, 6) }), "%T", q)
	}
	assert.Equal(t, units.Count(1234567), units.Rounded(units.Count(1234567), 3))
	assert.Equal(t, units.Money(1234567), units.Rounded(units.Money(1234567), 3))
	assert.Nil(t, units.Rounded(nil, 3))
}

func BenchmarkSignificant(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		_ = units.Significant(2.456560814*units.Liter, 6)
	}
}
