package drift

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tractcheck/feasibility/air"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

func TestAssess_fairDay(t *testing.T) {
	t.Parallel()
	r := Assess(job(fairDay()))
	require.Len(t, r.Deposit, len(distances))
	last := units.Proportion(1)
	for _, d := range r.Deposit {
		e := d.PercentOfRate
		assert.LessOrEqual(t, e.Best, last, "less further away")
		assert.InEpsilon(t, uncertainty, e.Best.SI()/e.Low.SI(), 0.01)
		assert.True(t, e.High == units.Whole || math.Abs(e.High.SI()/e.Best.SI()-uncertainty) < 0.03)
		last = e.Best
	}
	boom, aerial := BasicDrift(GroundBoom, 10*units.Meter), BasicDrift(MannedAerial, 10*units.Meter)
	assert.Greater(t, depositAtTen(r), boom, "above the ground boom")
	assert.Less(t, depositAtTen(r), aerial, "below manned aircraft")
	require.Len(t, r.AtNeighbors, 1)
	assert.True(t, r.AtNeighbors[0].Downwind)
	assert.Positive(t, r.AtNeighbors[0].PercentOfRate.Best)
	assert.Equal(t, "deposit", r.Buffer.BoundBy)
	assert.Equal(t, 2*units.Percent, r.Buffer.PercentOfRate)
	assert.Positive(t, r.Airborne)
	assert.Less(t, r.Airborne, 10*units.Percent)
	assert.Len(t, r.ReferenceCurves, 3)
	assert.Empty(t, r.Assumptions, "nothing was missing")
	for _, f := range r.Findings {
		assert.NotEqual(t, finding.Stop, f.Severity, f.Message)
	}
	assert.Contains(t, []Grade{Low, Moderate, High}, r.Grade)
	var sum units.Proportion
	for _, d := range r.Drivers {
		assert.GreaterOrEqual(t, d.Share, units.Proportion(0), d.Factor)
		sum += d.Share
	}
	assert.InDelta(t, 1, sum.SI(), 0.03)
}

func TestAssess_everyFindingHasASource(t *testing.T) {
	t.Parallel()
	known := map[string]bool{}
	for _, s := range Sources() {
		assert.True(t, s.Cited())
		assert.False(t, known[s.ID], "twice: %s", s.ID)
		known[s.ID] = true
	}
	for _, in := range []Input{job(fairDay()), {}, stormy(), {WindSpeed: 1, Pesticide: true}} {
		r := Assess(in)
		listed := map[string]bool{}
		for _, s := range r.Sources {
			assert.True(t, known[s.ID])
			listed[s.ID] = true
		}
		for _, f := range r.Findings {
			assert.True(t, listed[f.Source.ID], f.Code)
			assert.NotEmpty(t, f.Message)
			assert.NotEmpty(t, f.Subject)
			if f.Severity == finding.Stop {
				assert.NotEqual(t, finding.FromMemory, f.Source.Standing, "no stop stands on memory alone: %s", f.Code)
			}
		}
		for _, a := range r.Assumptions {
			assert.True(t, listed[a.Source.ID])
		}
	}
}

// stormy is a job with everything wrong.
func stormy() Input {
	day := fairDay()
	day.wind, day.humidity, day.gust = 20*units.MilePerHour, 10*units.Percent, new(30*units.MilePerHour)
	in := sized(job(day), 130)
	in.Release.Height, in.Release.Speed = 40*units.Foot, 40*units.MilePerHour
	in.Neighbors = append(in.Neighbors, Neighbor{Kind: "apiary", Distance: 20 * units.Foot, Bearing: 95 * units.BearingDegree})
	return in
}

func TestAssess_missingFactsAreAssumedAndSaid(t *testing.T) {
	t.Parallel()
	in := job(fairDay())
	full := Assess(in)
	in.Spray.Nonvolatile, in.Release.UnderRotors, in.Release.Crosswind = nil, nil, nil
	in.Ground.Along, in.Ground.Area, in.Neighbors = nil, nil, nil
	r := Assess(in)
	subjects := []string{}
	for _, a := range r.Assumptions {
		subjects = append(subjects, a.Subject)
		assert.NotEmpty(t, a.Settle)
	}
	assert.Equal(t, []string{atLoad, atPlacement, atCrosswind, atArea, atNeighbors}, subjects)
	assert.Equal(t, finding.Needed, found(r, CodeNeighborsNotStated).Severity)
	assert.GreaterOrEqual(t, depositAtTen(r), depositAtTen(full), "missing never reads as good news")

	in.Release.Mass = nil
	unaided := Assess(in)
	assert.Equal(t, finding.Caution, found(unaided, CodeWakeNotStated).Severity)
	assert.Greater(t, depositAtTen(unaided), depositAtTen(r))

	in.Spray.Droplet.Spectrum.Dv05 = 0
	blind := Assess(in)
	assert.Equal(t, finding.Needed, found(blind, CodeDropletUnknown).Severity)
	assert.Equal(t, Severe, blind.Grade)
}

func TestAssess_areaStandsInForTheExtent(t *testing.T) {
	t.Parallel()
	in := job(fairDay())
	in.Ground.Along, in.Ground.Area = nil, new(units.Area(300*300))
	assert.Equal(t, Assess(job(fairDay())).Deposit, Assess(in).Deposit)
}

func TestAcrossWind(t *testing.T) {
	t.Parallel()
	in := job(fairDay())
	assert.True(t, acrossWind(in))
	in.Release.Crosswind = nil
	assert.False(t, acrossWind(in), "not known")
	for degrees, want := range map[units.Bearing]bool{0: true, 180: true, 30: true, 90: false, 270: false, 240: false} {
		in.Release.Course = new(degrees * units.BearingDegree)
		assert.Equal(t, want, acrossWind(in), "course %v, wind from 270", degrees)
	}
}

func TestAssess_sameInputSameAnswer(t *testing.T) {
	t.Parallel()
	for _, in := range []Input{job(fairDay()), stormy(), {}} {
		assert.True(t, reflect.DeepEqual(Assess(in), Assess(in)))
	}
}

// carriedPast is the share of the rate over which a deposit is no guide to a law: drops are then
// already carried past the place in numbers, and anything that carries further lays less down.
const carriedPast = 0.3

// The shares of the drivers, flown coarsely, against flights ten times as fine over 60 conditions:
// a root-mean-square error of a share under a tenth.
func TestDrivers_errorIsBounded(t *testing.T) {
	t.Parallel()
	random := rand.New(rand.NewPCG(2025, 1))
	finest := resolution{classes: 40, below: 14, above: 9, widening: 1.12, growth: 1.1, parts: 20}
	square, count := 0.0, 0.0
	for range 60 {
		c := draw(random)
		plan, in := c.plan(), Input{}
		in.Spray.Droplet.Spectrum = sprayOf(c.dv05)
		got, want := drivers(in, *plan, 10, c.length, coarse), drivers(in, *plan, 10, c.length, finest)
		for i := range got {
			e := got[i].Share.SI() - want[i].Share.SI()
			square += e * e
			count++
		}
	}
	t.Logf("root-mean-square error of a share %.3f", math.Sqrt(square/count))
	assert.Less(t, math.Sqrt(square/count), 0.10)
}

// Whatever the wire admits: no NaN, nothing negative, nothing over the whole, no panic.
func TestAssess_absurdInput(t *testing.T) {
	t.Parallel()
	extreme := rapid.SampledFrom([]float64{0, 1e-9, 1e-3, 0.5, 1, 7, 100, 1e4, 1e9})
	rapid.Check(t, func(t *rapid.T) {
		day := fairDay()
		day.wind = units.Speed(extreme.Draw(t, "wind"))
		day.humidity = units.Proportion(extreme.Draw(t, "humidity"))
		day.crop = units.Length(extreme.Draw(t, "crop"))
		in := job(day)
		if rapid.Bool().Draw(t, "no air") {
			in.Air = air.State{}
		}
		in.Spray.Density = units.Density(extreme.Draw(t, "density"))
		in.Spray.Nonvolatile = new(units.Proportion(extreme.Draw(t, "nonvolatile")))
		in.Spray.Droplet.Spectrum.Dv01 = units.Length(extreme.Draw(t, "dv01"))
		in.Spray.Droplet.Spectrum.Dv05 = units.Length(extreme.Draw(t, "dv05"))
		in.Spray.Droplet.Spectrum.Dv09 = units.Length(extreme.Draw(t, "dv09"))
		in.Release.Height = units.Length(extreme.Draw(t, "height"))
		in.Release.Speed = units.Speed(extreme.Draw(t, "speed"))
		in.Release.Swath = units.Length(extreme.Draw(t, "swath"))
		in.Release.Mass = new(units.Mass(extreme.Draw(t, "mass")))
		in.Release.DiscArea = new(units.Area(extreme.Draw(t, "disc")))
		in.Ground.Along = new(units.Length(extreme.Draw(t, "along")))
		in.Neighbors[0].Distance = units.Length(extreme.Draw(t, "distance"))
		in.Neighbors[0].Bearing = units.Bearing(extreme.Draw(t, "bearing"))
		in.Neighbors[0].Tolerance = new(units.Proportion(extreme.Draw(t, "tolerance")))
		r := Assess(in)
		whole := func(name string, p units.Proportion) {
			require.True(t, p >= 0 && p <= 1, "%s: %v", name, p)
		}
		whole("airborne", r.Airborne)
		for _, d := range r.Deposit {
			whole("low", d.PercentOfRate.Low)
			whole("best", d.PercentOfRate.Best)
			whole("high", d.PercentOfRate.High)
		}
		for _, d := range r.Drivers {
			whole(d.Factor, d.Share)
		}
		require.True(t, units.Finite(r.Buffer.Distance) && r.Buffer.Distance >= 0)
		require.NotEmpty(t, r.Grade)
	})
}

// The answer is flown in well under a millisecond, with few allocations.
func TestAssess_allocatesLittle(t *testing.T) {
	in := job(fairDay())
	assert.Less(t, testing.AllocsPerRun(20, func() { Assess(in) }), 100.0)
}

// The best of many tries, so that other work on the machine does not count.
func TestAssess_isQuick(t *testing.T) {
	if testing.Short() {
		t.Skip("the short runs are those that slow the code down: race and coverage")
	}
	in := job(fairDay())
	best := time.Hour
	for range 500 {
		start := time.Now()
		Assess(in)
		best = min(best, time.Since(start))
	}
	t.Log(best)
	assert.Less(t, best, 300*time.Microsecond)
}

func BenchmarkAssess(b *testing.B) {
	in := job(fairDay())
	b.ReportAllocs()
	for b.Loop() {
		Assess(in)
	}
}
