package units_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
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

func BenchmarkSignificant(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		_ = units.Significant(2.456560814*units.Liter, 6)
	}
}
