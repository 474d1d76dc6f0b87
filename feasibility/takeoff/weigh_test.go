package takeoff_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/takeoff"
	"tractcheck/feasibility/units"
)

func pow10(n float64) float64 { return math.Pow(10, n) }

// sprayer is an invented machine with a tank and a maker's maximum far out of the way.
func sprayer(airframe, battery float64) takeoff.Input {
	return takeoff.Input{Aircraft: takeoff.Aircraft{
		EmptyWeight:      units.Mass(airframe) * units.Pound,
		BatteryWeight:    units.Mass(battery) * units.Pound,
		BatteriesOnBoard: 1,
		OtherOnboard:     new(units.Mass(0)),
		TankCapacity:     40 * units.Gallon,
		MaxTakeoffWeight: 500 * units.Pound,
	}}
}

func part(t *testing.T, r takeoff.Result, name string) units.Mass {
	t.Helper()
	for _, p := range r.Parts {
		if p.Name == name {
			return p.Weight
		}
	}
	require.Failf(t, "no such part", "%s", name)
	return 0
}

func limitOf(t *testing.T, r takeoff.Result, code takeoff.LimitCode) takeoff.Limit {
	t.Helper()
	for _, l := range r.Limits {
		if l.Code == code {
			return l
		}
	}
	require.Failf(t, "no such limit", "%s", code)
	return takeoff.Limit{}
}

func findingOf(t *testing.T, r takeoff.Result, code finding.Code) finding.Finding {
	t.Helper()
	for _, f := range r.Findings {
		if f.Code == code {
			return f
		}
	}
	require.Failf(t, "no such finding", "%s in %v", code, codes(r))
	return finding.Finding{}
}

func codes(r takeoff.Result) []finding.Code {
	list := make([]finding.Code, 0, len(r.Findings))
	for _, f := range r.Findings {
		list = append(list, f.Code)
	}
	return list
}

func assumed(r takeoff.Result) []string {
	list := make([]string, 0, len(r.Assumptions))
	for _, a := range r.Assumptions {
		list = append(list, a.Subject)
	}
	return list
}

// The worked mission: airframe 24.0 lb, battery 10.5 lb, 2.0 gal at 8.345 lb/gal.
func TestWorkedMission(t *testing.T) {
	t.Parallel()
	in := sprayer(24, 10.5)
	in.Aircraft.TankCapacity = 2.6 * units.Gallon
	in.Aircraft.MaxTakeoffWeight = 58 * units.Pound
	in.Load.Fill = new(2 * units.Gallon)
	in.Load.Density = new(8.345 * units.PoundPerGallon)
	in.Air = &takeoff.Air{DensityRatio: 0.99, DensityAltitude: 340 * units.Foot}
	got := takeoff.Weigh(in)

	assert.InDelta(t, 51.19, got.Total.In(units.Pound), 1e-9)
	small := limitOf(t, got, takeoff.SmallUnmannedAircraft)
	assert.InDelta(t, 3.81, small.Margin.In(units.Pound), 1e-9)
	assert.True(t, small.Strict)
	assert.InDelta(t, 2.457, got.LargestFill.Volume.In(units.Gallon), 0.0005)
	assert.Equal(t, takeoff.SmallUnmannedAircraft, got.LargestFill.BoundBy)
	assert.True(t, got.Small)
	assert.Empty(t, got.Findings)
	assert.Empty(t, got.Assumptions)

	order := make([]takeoff.LimitCode, 0, 4)
	for _, l := range got.Limits {
		order = append(order, l.Code)
	}
	assert.Equal(t, []takeoff.LimitCode{
		takeoff.SmallUnmannedAircraft, takeoff.MakerMaximum, takeoff.DensityAltitude, takeoff.TankCapacity,
	}, order)
	assert.InDelta(t, 24.0, part(t, got, takeoff.Airframe).In(units.Pound), 1e-12)
	assert.InDelta(t, 10.5, part(t, got, takeoff.Battery).In(units.Pound), 1e-12)
	assert.InDelta(t, 16.69, part(t, got, takeoff.Liquid).In(units.Pound), 1e-9)
}

func TestEveryBatteryCounts(t *testing.T) {
	t.Parallel()
	in := sprayer(24, 10.5)
	in.Load.Fill = new(units.Volume(0))
	in.Aircraft.BatteriesOnBoard = 2
	in.Aircraft.OtherOnboard = new(1.5 * units.Pound)
	got := takeoff.Weigh(in)
	assert.InDelta(t, 21, part(t, got, takeoff.Battery).In(units.Pound), 1e-9)
	assert.InDelta(t, 1.5, part(t, got, takeoff.OtherOnboard).In(units.Pound), 1e-9)
	assert.InDelta(t, 46.5, got.Total.In(units.Pound), 1e-9)

	onBoard := func(a finding.Assumption) bool { return a.Subject == "/aircraft/battery/on_board" }
	assert.False(t, slices.ContainsFunc(got.Assumptions, onBoard))
	in.Aircraft.BatteriesOnBoard = 0
	got = takeoff.Weigh(in)
	assert.InDelta(t, 10.5, part(t, got, takeoff.Battery).In(units.Pound), 1e-9, "an electric machine flies on at least one")
	assert.True(t, slices.ContainsFunc(got.Assumptions, onBoard), "and the answer says that one was taken")
}

func TestWhatBindsTheFill(t *testing.T) {
	t.Parallel()
	cases := []struct {
		name  string
		shape func(*takeoff.Input)
		bound takeoff.LimitCode
		gal   float64
	}{
		{"the 55 lb line", func(*takeoff.Input) {}, takeoff.SmallUnmannedAircraft, (20.5 - 55e-6) / 8},
		{"the tank", func(in *takeoff.Input) { in.Aircraft.TankCapacity = 1 * units.Gallon }, takeoff.TankCapacity, 1},
		{"the maker", func(in *takeoff.Input) { in.Aircraft.MaxTakeoffWeight = 50.5 * units.Pound }, takeoff.MakerMaximum, 2},
		{"thin air", func(in *takeoff.Input) {
			in.Aircraft.MaxTakeoffWeight = 60 * units.Pound
			in.Air = &takeoff.Air{DensityRatio: 0.8, DensityAltitude: 7450 * units.Foot}
		}, takeoff.DensityAltitude, (48 - 34.5) / 8},
		{"dense air adds nothing", func(in *takeoff.Input) {
			in.Aircraft.MaxTakeoffWeight = 50.5 * units.Pound
			in.Air = &takeoff.Air{DensityRatio: 1.1}
		}, takeoff.MakerMaximum, 2},
		{"the authority for large aircraft lifts the line", func(in *takeoff.Input) {
			in.LargeAllowed = true
			in.Aircraft.MaxTakeoffWeight = 74.5 * units.Pound
		}, takeoff.MakerMaximum, 5},
		{"an empty machine over the line", func(in *takeoff.Input) {
			in.Aircraft.EmptyWeight = 60 * units.Pound
			in.Aircraft.MaxTakeoffWeight = 110.5 * units.Pound
		}, takeoff.MakerMaximum, 5},
	}
	for _, tc := range cases {
		t.Run(tc.name, func(t *testing.T) {
			in := sprayer(24, 10.5)
			in.Load.Density = new(8 * units.PoundPerGallon)
			tc.shape(&in)
			got := takeoff.Weigh(in)
			assert.Equal(t, tc.bound, got.LargestFill.BoundBy)
			assert.InDelta(t, tc.gal, got.LargestFill.Volume.In(units.Gallon), 1e-9)
			assert.Equal(t, got.LargestFill.Volume, got.Fill, "a fill left open is the largest")
			assert.True(t, limitOf(t, got, tc.bound).Within, "the largest fill is within the limit that bound it")
		})
	}
}

func TestWhatIsNotStatedIsAssumedAloud(t *testing.T) {
	t.Parallel()
	in := sprayer(24, 10.5)
	in.Aircraft.OtherOnboard = nil
	got := takeoff.Weigh(in)
	assert.Equal(t, []string{"/aircraft/other_onboard_weight", "/load/fill", "/load/density", "/weather"}, assumed(got))
	assert.Equal(t, takeoff.Water, got.Density)
	for _, a := range got.Assumptions {
		assert.NotEmpty(t, a.Assumed)
		assert.NotEmpty(t, a.Settle)
		assert.True(t, a.Source.Cited())
	}

	in.Load.Density = new(units.Density(-1))
	assert.Contains(t, assumed(takeoff.Weigh(in)), "/load/density", "a density that cannot be is not stated")
	in.Air = &takeoff.Air{DensityRatio: 0}
	assert.Contains(t, assumed(takeoff.Weigh(in)), "/weather", "air that cannot be is not stated")
}

func TestSourcesAreNamedOnceAndInOrder(t *testing.T) {
	t.Parallel()
	in := sprayer(24, 10.5)
	in.Aircraft.OtherOnboard = nil
	got := takeoff.Weigh(in)
	seen := map[string]bool{}
	for _, s := range got.Sources {
		assert.True(t, s.Cited())
		assert.False(t, seen[s.ID], "%s is listed twice", s.ID)
		seen[s.ID] = true
	}
	for _, f := range got.Findings {
		assert.True(t, seen[f.Source.ID], "the source of %s is listed", f.Code)
	}
	for _, a := range got.Assumptions {
		assert.True(t, seen[a.Source.ID], "the source of %s is listed", a.Subject)
	}
	assert.Equal(t, got, takeoff.Weigh(in), "the same input gives the same result")
}
