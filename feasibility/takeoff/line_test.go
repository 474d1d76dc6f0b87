package takeoff_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/takeoff"
	"tractcheck/feasibility/units"
)

// Exactly 55 lb is not small: 24 + 10.5 + 2.5 gal of 8.2 lb/gal = 55.0. 14 CFR 107.3 says
// "less than 55 pounds".
func TestExactlyFiftyFivePoundsIsNotSmall(t *testing.T) {
	t.Parallel()
	cases := []struct {
		name   string
		weight func(in *takeoff.Input)
		small  bool
	}{
		{"in pounds", func(*takeoff.Input) {}, false},
		{"in kilograms", func(in *takeoff.Input) {
			in.Aircraft.EmptyWeight = 10.88621688 * units.Kilogram
			in.Aircraft.BatteryWeight = 4.762719885 * units.Kilogram
			in.Load.Fill = new(9.46352946 * units.Liter)
			in.Load.Density = new(0.9825767039994 * units.KilogramPerLiter)
		}, false},
		{"in grams", func(in *takeoff.Input) {
			in.Aircraft.EmptyWeight = 24947.58035 * units.Gram
			in.Aircraft.BatteryWeight = 0
			in.Load.Fill = new(units.Volume(0))
		}, false},
		{"a thousandth of a pound less", func(in *takeoff.Input) { in.Aircraft.EmptyWeight = 23.999 * units.Pound }, true},
		{"a thousandth of a pound more", func(in *takeoff.Input) { in.Aircraft.EmptyWeight = 24.001 * units.Pound }, false},
		{"a gram less", func(in *takeoff.Input) { in.Aircraft.EmptyWeight -= 1 * units.Gram }, true},
		{"a gram more", func(in *takeoff.Input) { in.Aircraft.EmptyWeight += 1 * units.Gram }, false},
		{"ten times the tolerance less", func(in *takeoff.Input) { in.Aircraft.EmptyWeight -= 55 * 1e-8 * units.Pound }, true},
		{"a tenth of the tolerance less", func(in *takeoff.Input) { in.Aircraft.EmptyWeight -= 55 * 1e-10 * units.Pound }, false},
		{"by other equipment", func(in *takeoff.Input) {
			in.Aircraft.EmptyWeight = 23.2 * units.Pound
			in.Aircraft.OtherOnboard = new(0.8 * units.Pound)
		}, false},
	}
	for _, tc := range cases {
		t.Run(tc.name, func(t *testing.T) {
			in := sprayer(24, 10.5)
			in.Load.Fill = new(2.5 * units.Gallon)
			in.Load.Density = new(8.2 * units.PoundPerGallon)
			tc.weight(&in)
			got := takeoff.Weigh(in)
			assert.Equal(t, tc.small, got.Small, "total %.12f lb", got.Total.In(units.Pound))
			assert.Equal(t, tc.small, limitOf(t, got, takeoff.SmallUnmannedAircraft).Within)
			if !tc.small {
				f := findingOf(t, got, takeoff.CodeOverSmallLimit)
				assert.Equal(t, finding.Needed, f.Severity)
			} else {
				assert.NotContains(t, codes(got), takeoff.CodeOverSmallLimit)
			}
		})
	}
}

// Parts in tenths of a pound that add up to 55.0 lb are at the line however their sum rounds in
// kilograms, and a tenth of a pound either side of it decides as it should.
func TestTenthsOfAPoundAtTheLine(t *testing.T) {
	t.Parallel()
	random := rand.New(rand.NewPCG(107, 3))
	for range 20000 {
		left := 550
		take := func() float64 {
			tenths := random.IntN(left - 10)
			left -= tenths
			return float64(tenths) / 10
		}
		in := sprayer(take(), take())
		in.Aircraft.OtherOnboard = new(units.Mass(take()) * units.Pound)
		// The rest is liquid: so many gallons of 8.0 lb/gal, a density exact in tenths.
		in.Load.Density = new(8 * units.PoundPerGallon)
		in.Load.Fill = new(units.Volume(float64(left)/10/8) * units.Gallon)
		got := takeoff.Weigh(in)
		require.False(t, got.Small, "%v of 55.0 lb is not under it", got.Parts)

		in.Aircraft.EmptyWeight -= 0.1 * units.Pound
		require.True(t, takeoff.Weigh(in).Small, "54.9 lb is under the line")
		in.Aircraft.EmptyWeight += 0.2 * units.Pound
		require.False(t, takeoff.Weigh(in).Small, "55.1 lb is over the line")
	}
}

// The largest fill sent back as the fill is under the line, whatever the split.
func TestLargestFillStaysUnderTheLine(t *testing.T) {
	t.Parallel()
	random := rand.New(rand.NewPCG(107, 4))
	for range 5000 {
		in := sprayer(float64(random.IntN(400))/10, float64(random.IntN(140))/10)
		in.Load.Density = new(units.Density(6+6*random.Float64()) * units.PoundPerGallon)
		most := takeoff.Weigh(in).LargestFill
		require.Equal(t, takeoff.SmallUnmannedAircraft, most.BoundBy)
		in.Load.Fill = &most.Volume
		got := takeoff.Weigh(in)
		require.True(t, got.Small, "total %.12f lb", got.Total.In(units.Pound))
		require.InDelta(t, 55, got.Total.In(units.Pound), 0.0001, "and leaves next to nothing unused")

		in.Load.Fill = new(units.Volume(float64(most.Volume) * (1 + 1e-5)))
		if most.Volume > 1*units.Gallon {
			require.False(t, takeoff.Weigh(in).Small, "a hair more is over it")
		}
	}
}

func TestAtMostLimitsHoldAtEquality(t *testing.T) {
	t.Parallel()
	in := sprayer(24, 10.5)
	in.Load.Density = new(8.2 * units.PoundPerGallon)
	in.Load.Fill = new(2.5 * units.Gallon)
	in.Aircraft.MaxTakeoffWeight = 55 * units.Pound
	in.Aircraft.TankCapacity = 2.5 * units.Gallon
	got := takeoff.Weigh(in)
	assert.True(t, limitOf(t, got, takeoff.MakerMaximum).Within, "the maker's maximum may be reached")
	assert.True(t, limitOf(t, got, takeoff.TankCapacity).Within, "the tank may be full")

	in.Load.Fill = new(2.501 * units.Gallon)
	got = takeoff.Weigh(in)
	assert.False(t, limitOf(t, got, takeoff.MakerMaximum).Within)
	assert.False(t, limitOf(t, got, takeoff.TankCapacity).Within)
}
