package tract

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

func TestSourcesAreDistinctAndUsed(t *testing.T) {
	t.Parallel()
	seen := map[string]bool{}
	for _, s := range sources() {
		assert.True(t, s.Cited(), s.ID)
		assert.False(t, seen[s.ID], s.ID)
		seen[s.ID] = true
	}
	// Everything a plan cites is in its sources, in the room's order.
	yes := true
	job := tankJob(0.3)
	job.Crosswind, job.WindSpeed, job.WindFrom = &yes, 4*units.MeterPerSecond, 200*units.BearingDegree
	for _, plan := range []Plan{
		Fly(Field{Boundary: []Polygon{placed(box(0, 0, 800, 500))}}, job),
		Fly(Field{Boundary: []Polygon{placed(ragged(60, 0, 0, 300))}}, tankJob(1)),
		Fly(Field{Area: new(40 * units.Acre), LaunchPoint: &Position{}}, tankJob(1)),
	} {
		cited := map[string]bool{}
		for _, s := range plan.Sources {
			cited[s.ID] = true
		}
		assert.Len(t, cited, len(plan.Sources), "each once")
		for _, f := range plan.Findings {
			assert.True(t, cited[f.Source.ID], f.Code)
		}
		for _, a := range plan.Assumptions {
			assert.True(t, cited[a.Source.ID], a.Assumed)
			assert.NotEmpty(t, a.Subject)
			assert.NotEmpty(t, a.Settle)
		}
	}
}

// TestFindingsAreConsistent: where a finding carries a measure, a limit and a margin, they share a
// dimension and the margin is their difference, positive on the safe side.
func TestFindingsAreConsistent(t *testing.T) {
	t.Parallel()
	narrow, long, far := 5*units.Meter, 300*units.Meter, 6*units.Mile
	tiny := tankJob(1)
	tiny.Fill = 1 * units.Milliliter
	fine := tankJob(1)
	fine.Swath = units.Meter / 1000
	for _, plan := range []Plan{
		Fly(Field{Length: &long, Width: &narrow}, tankJob(0.3)),
		Fly(Field{Area: new(40 * units.Acre), FerryDistance: &far}, tankJob(1)),
		Fly(Field{Area: new(40 * units.Acre), FerryDistance: new(1 * units.Kilometer)}, tankJob(3)),
		Fly(Field{Area: new(40_000 * units.Acre)}, tiny),
		Fly(Field{Area: new(40 * units.Acre)}, fine),
	} {
		for _, f := range plan.Findings {
			if f.Measured == nil || f.Limit == nil || f.Margin == nil {
				continue
			}
			assert.Equal(t, f.Limit.Dimension(), f.Measured.Dimension(), f.Code)
			assert.Equal(t, f.Limit.Dimension(), f.Margin.Dimension(), f.Code)
			apart := math.Abs(f.Limit.SI() - f.Measured.SI())
			assert.InDelta(t, apart, math.Abs(f.Margin.SI()), 1e-9*(1+apart), f.Code)
			assert.LessOrEqual(t, f.Margin.SI(), 0.0, "%s is a finding because it is not on the safe side", f.Code)
		}
	}
}

func TestTheSameAnswerTwice(t *testing.T) {
	t.Parallel()
	field := Field{
		Boundary: []Polygon{placed(ragged(80, 0, 0, 400), box(-50, -50, 50, 50))},
		KeepOuts: []Polygon{placed(ragged(20, 200, 0, 40)), placed(box(-220, -30, -180, 10))},
	}
	job := tankJob(0.5)
	job.Aircraft = 3
	assert.Equal(t, Fly(field, job), Fly(field, job))
}

func TestCompass(t *testing.T) {
	t.Parallel()
	for degrees, want := range map[float64]string{
		0: "north", 22: "north", 23: "northeast", 90: "east", 135: "southeast", 180: "south",
		225: "southwest", 270: "west", 315: "northwest", 338: "north", 359.9: "north",
	} {
		assert.Equal(t, want, compass(units.Bearing(degrees)*units.BearingDegree), "%v degrees", degrees)
	}
}

func TestFiguresInMessages(t *testing.T) {
	t.Parallel()
	for x, want := range map[float64]string{
		0: "0", 1319.99: "1320", 0.01234: "0.0123", 40: "40", 5.5555: "5.56", 123456: "123000", 1e12: "1e+12", 1e-7: "1e-07",
	} {
		assert.Equal(t, want, figure(x))
	}
	assert.Equal(t, units.Count(1_000_000_000), capped(math.Inf(1)))
	assert.Equal(t, units.Count(1_000_000_000), capped(math.NaN()))
	assert.Equal(t, units.Count(0), capped(-3))
}

// TestFarCornersOfAHugeTract: beyond the sorties flown one by one, the farthest line must still be
// within reach.
func TestFarCornersOfAHugeTract(t *testing.T) {
	t.Parallel()
	launch := placed(box(0, 0, 1, 1))[0][0]
	job := tankJob(0.5)
	job.Rate *= 8 // many small sorties, so that a thousand do not cover the tract
	huge := Field{Boundary: []Polygon{placed(box(0, 0, 9000, 2500))}, LaunchPoint: &launch}
	east := 90 * units.BearingDegree
	job.Course = &east
	plan := Fly(huge, job)
	assert.False(t, plan.Feasible)
	f := found(plan, CodeBatteryTooSmall)
	require.Equal(t, finding.Stop, f.Severity)

	near := tankJob(4)
	near.Rate *= 8
	near.Course = &east
	plan = Fly(huge, near)
	require.True(t, plan.Feasible, "%v", codes(plan))
	assert.Greater(t, plan.Sorties, units.Count(mostListed))
}

func TestTooManyPiecesAreAveraged(t *testing.T) {
	t.Parallel()
	// 1,500 teeth make 1,500 pieces of each line along x.
	field := Field{Boundary: []Polygon{placed(comb(1500, 0, 0, 5000, 400))}}
	job := tankJob(1)
	job.Swath = 3 * units.Meter
	east := 90 * units.BearingDegree
	job.Course = &east
	plan := Fly(field, job)
	assert.Contains(t, codes(plan), CodePlanCoarse)
	assert.InEpsilon(t, plan.Area.SI(), plan.Treated.SI(), 1e-9, "swath times length is the ground")
	assert.Greater(t, plan.Segments, units.Count(mostRuns))
}
