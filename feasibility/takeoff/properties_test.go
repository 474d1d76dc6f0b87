package takeoff_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tractcheck/feasibility/takeoff"
	"tractcheck/feasibility/units"
)

// absurd draws a positive number of any size the wire admits.
func absurd(t *rapid.T, label string) float64 {
	return math.Pow(10, rapid.Float64Range(-12, 12).Draw(t, label))
}

func anyInput(t *rapid.T) takeoff.Input {
	in := takeoff.Input{
		Aircraft: takeoff.Aircraft{
			EmptyWeight:      units.Mass(absurd(t, "empty")),
			BatteryWeight:    units.Mass(absurd(t, "battery")),
			BatteriesOnBoard: units.Count(rapid.IntRange(0, 1000).Draw(t, "batteries")),
			TankCapacity:     units.Volume(absurd(t, "tank")),
			MaxTakeoffWeight: units.Mass(absurd(t, "maximum")),
		},
		LargeAllowed: rapid.Bool().Draw(t, "large"),
	}
	if rapid.Bool().Draw(t, "states other") {
		in.Aircraft.OtherOnboard = new(units.Mass(absurd(t, "other")))
	}
	if rapid.Bool().Draw(t, "states fill") {
		in.Load.Fill = new(units.Volume(absurd(t, "fill")))
	}
	if rapid.Bool().Draw(t, "states density") {
		in.Load.Density = new(units.Density(absurd(t, "density")))
	}
	if rapid.Bool().Draw(t, "states air") {
		in.Air = &takeoff.Air{DensityRatio: units.Proportion(absurd(t, "ratio")), DensityAltitude: units.Length(absurd(t, "altitude"))}
	}
	return in
}

func TestAnyInputIsWeighed(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		in := anyInput(t)
		got := takeoff.Weigh(in)
		require.True(t, units.Finite(got.Total) && units.Finite(got.Fill) && units.Finite(got.LargestFill.Volume))
		require.NotEmpty(t, got.LargestFill.BoundBy)
		require.GreaterOrEqual(t, float64(got.LargestFill.Volume), 0.0)
		var sum units.Mass
		for _, p := range got.Parts {
			sum += p.Weight
		}
		require.InEpsilon(t, float64(got.Total), float64(sum), 1e-12, "the parts add up to the total")
		for _, l := range got.Limits {
			require.True(t, units.Finite(l.Limit) && units.Finite(l.Margin) && units.Finite(l.FillLimit), "%+v", l)
			require.GreaterOrEqual(t, float64(l.FillLimit), 0.0)
		}
		require.Equal(t, got.Small, got.Limits[0].Within)
		for _, f := range got.Findings {
			require.NotEmpty(t, f.Message)
			for _, q := range []units.Quantity{f.Measured, f.Limit, f.Margin} {
				require.True(t, q == nil || !math.IsNaN(q.SI()) && !math.IsInf(q.SI(), 0), "%s: %v", f.Code, q)
			}
		}
	})
}

// A fill left open breaks no limit that applies, unless the aircraft does so with an empty tank.
func TestTheOpenFillIsLegal(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		in := anyInput(t)
		in.Load.Fill = nil
		got := takeoff.Weigh(in)
		if got.Fill == 0 {
			return
		}
		for _, l := range got.Limits {
			if l.Code == takeoff.SmallUnmannedAircraft && (in.LargeAllowed || l.FillLimit == 0) {
				continue
			}
			if l.Code == takeoff.DensityAltitude && in.Air != nil && in.Air.DensityRatio >= 0.92 {
				continue // an estimate too rough to overrule the maker in air no thinner than a hot day's
			}
			require.True(t, l.Within, "%+v at a fill of %v", l, got.Fill)
		}
	})
}

// More weight anywhere never lets more liquid in and never turns a large aircraft small.
func TestHeavierNeverCarriesMore(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		in := anyInput(t)
		in.LargeAllowed = true // one set of limits on both sides
		light := takeoff.Weigh(in)
		in.Aircraft.EmptyWeight *= units.Mass(rapid.Float64Range(1, 3).Draw(t, "times"))
		heavy := takeoff.Weigh(in)
		require.LessOrEqual(t, float64(heavy.LargestFill.Volume), float64(light.LargestFill.Volume))
		if in.Load.Fill != nil && !light.Small {
			require.False(t, heavy.Small)
		}
	})
}

// Thinner air never raises a limit.
func TestThinnerAirNeverCarriesMore(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		in := anyInput(t)
		in.Air = &takeoff.Air{DensityRatio: units.Proportion(rapid.Float64Range(0.3, 1.3).Draw(t, "ratio"))}
		dense := takeoff.Weigh(in).LargestFill.Volume
		in.Air.DensityRatio *= units.Proportion(rapid.Float64Range(0.5, 1).Draw(t, "thinner"))
		require.LessOrEqual(t, float64(takeoff.Weigh(in).LargestFill.Volume), float64(dense))
	})
}
