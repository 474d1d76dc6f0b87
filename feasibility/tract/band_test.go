package tract

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/units"
)

// A rectangle with one pass round the edge: the pass is its perimeter less four swaths, the lines
// fill the block inside it, and all but the four outer corners of half a swath is sprayed once.
func TestHeadlandOfARectangle(t *testing.T) {
	t.Parallel()
	length, width := 350*units.Meter, 210*units.Meter
	job := tankJob(4)
	job.Headland = 1
	plan := Fly(Field{Length: &length, Width: &width, FerryDistance: new(50 * units.Meter)}, job)
	require.True(t, plan.Feasible)
	assert.Equal(t, units.Count(1), plan.Headland.Passes)
	assert.InDelta(t, 2*(350+210)-4*7, plan.Headland.Length.SI(), 1e-3)
	assert.Equal(t, units.Count(28), plan.Passes, "196 m inside the headland, 7 m each")
	assert.InDelta(t, 28*336+1092, plan.SprayLength.SI(), 1e-3)
	assert.InDelta(t, 350*210-4*3.5*3.5, plan.Accounting.Sprayed.SI(), 1e-3)
	assert.InDelta(t, 4*3.5*3.5, plan.Accounting.Unsprayed.SI(), 1e-3)
	assert.InDelta(t, plan.Accounting.Sprayed.SI()+4*3.5*3.5, plan.Treated.SI(), 1e-3, "twice only where two sides meet")
	assert.InDelta(t, 4*3.5*3.5, plan.Headland.Costs[0].Twice.SI(), 1e-3)
	assert.InDelta(t, 0, plan.SprayedPastEdge.SI(), 1e-6)
	assert.InDelta(t, 1092.0/7+4*5, plan.Headland.Time.SI(), 5, "four sharp corners, and the hop from the last line to the first side")
	last := plan.List[len(plan.List)-1]
	assert.Zero(t, last.ResumeLine)

	require.Len(t, plan.Headland.Costs, 2)
	with, without := plan.Headland.Costs[0], plan.Headland.Costs[1]
	bare := job
	bare.Headland = 0
	alone := Fly(Field{Length: &length, Width: &width, FerryDistance: new(50 * units.Meter)}, bare)
	assert.Equal(t, plan.FlightTime, with.FlightTime)
	assert.Equal(t, alone.SprayLength, without.Length)
	assert.Equal(t, alone.Accounting.Unsprayed, without.Missed)
	assert.InEpsilon(t, alone.FlightTime.SI(), without.FlightTime.SI(), 0.05, "with the same ferries")
	assert.Greater(t, with.FlightTime, without.FlightTime, "on a rectangle a headland only costs")
}

// Round the corner of an L the pass is drawn on to where its two sides meet.
func TestHeadlandRoundACornerThatPointsInward(t *testing.T) {
	t.Parallel()
	job := tankJob(4)
	job.Swath, job.Headland = 10, 2
	plan := Fly(Field{Boundary: []Polygon{placed([]orb.Point{{0, 0}, {200, 0}, {200, 200}, {100, 200}, {100, 100}, {0, 100}})}}, job)
	require.True(t, plan.Feasible)
	assert.Equal(t, units.Count(2), plan.Headland.Passes)
	// A pass d inside: perimeter less 2 d at each of five corners, and 2 d more at the sixth.
	assert.InDelta(t, 800-8*5+800-8*15, plan.Headland.Length.SI(), 0.01)
	inner := plan.Treated.SI() - plan.Headland.Length.SI()*10
	assert.InEpsilon(t, 160*160-100*100, inner, 0.03, "the L two swaths inside")
	m, _ := plan.Map()
	assert.Equal(t, plan.Passes+2, m.Lines[len(m.Lines)-1].Number, "passes round the edge are numbered after the lines")
}

// Along slanted edges a headland pass takes the ragged ends away.
func TestHeadlandTidiesSlantedEdges(t *testing.T) {
	t.Parallel()
	field := Field{Boundary: []Polygon{placed([]orb.Point{{0, 0}, {400, 60}, {430, 330}, {180, 420}, {-60, 300}})}}
	job := tankJob(4)
	bare := Fly(field, job)
	job.Headland = 1
	tidy := Fly(field, job)
	require.True(t, tidy.Feasible)
	assert.InDelta(t, 0, tidy.SprayedPastEdge.SI(), 1e-6)
	assert.Less(t, tidy.Accounting.Unsprayed.SI(), 0.25*bare.Accounting.Unsprayed.SI(), "the corners are left")
	assert.Greater(t, tidy.Headland.Costs[0].Twice, tidy.Headland.Costs[1].Twice, "and some is sprayed twice")
	assert.Equal(t, bare.Accounting.Unsprayed, tidy.Headland.Costs[1].Missed)
	assert.Equal(t, bare.SprayedPastEdge, tidy.Headland.Costs[1].PastEdge)
	assert.InEpsilon(t, tidy.Area.SI(), tidy.Treated.SI(), 0.02)
}

// In a neck narrower than two swaths the pass that comes back does not spray the same ground again,
// and where there is no room for a pass the lines are flown without.
func TestHeadlandInNarrowPlaces(t *testing.T) {
	t.Parallel()
	job := tankJob(4)
	job.Headland = 1
	neck := []orb.Point{{0, 0}, {100, 0}, {100, 45}, {200, 45}, {200, 0}, {300, 0}, {300, 100}, {200, 100}, {200, 55}, {100, 55}, {100, 100}, {0, 100}}
	plan := Fly(Field{Boundary: []Polygon{placed(neck)}}, job)
	require.True(t, plan.Feasible)
	assert.Less(t, plan.Treated.SI(), 1.05*plan.Accounting.Sprayed.SI())
	assert.Greater(t, plan.Accounting.Sprayed.SI(), 0.95*plan.Area.SI())

	narrow := Fly(Field{Boundary: []Polygon{placed(box(0, 0, 500, 5))}}, job)
	assert.Contains(t, codes(narrow), CodeHeadlandLeftOut)
	assert.True(t, narrow.Feasible)
	assert.Equal(t, units.Count(1), narrow.Passes)
	assert.Zero(t, narrow.Headland.Passes)

	only := Fly(Field{Boundary: []Polygon{placed(box(0, 0, 500, 14))}}, job)
	assert.True(t, only.Feasible)
	assert.Zero(t, only.Passes, "two sides of the pass are all there is")
	assert.InDelta(t, 14*500, only.Accounting.Sprayed.SI(), 60)
}

// Where a strip for a neighbor takes the place of the pass, the lines go up to the strip.
func TestHeadlandBesideAStrip(t *testing.T) {
	t.Parallel()
	job := tankJob(4)
	job.Headland, job.Course = 1, new(units.Bearing(0))
	job.Clear = []Clear{{Bearing: 0, Buffer: 5}} // along the north side, across the lines
	plan := Fly(Field{Boundary: []Polygon{placed(box(0, 0, 210, 210))}}, job)
	require.True(t, plan.Feasible)
	assert.InEpsilon(t, 5*210, plan.Accounting.Strips.SI(), 1e-3)
	// The south pass from corner to corner, and east and west up to the strip.
	assert.InDelta(t, 203+2*(210-5-3.5), plan.Headland.Length.SI(), 0.2)
	assert.Less(t, (plan.Accounting.Unsprayed - plan.Accounting.Strips).SI(), 60.0, "little but the corners is missed")
}

// Lines too many to lay one by one are planned without a headland, and the answer says so.
func TestNoHeadlandOnACoarsePlan(t *testing.T) {
	t.Parallel()
	job := tankJob(4)
	job.Headland, job.Swath = 2, 0.05
	length, width := 4000*units.Meter, 3000*units.Meter
	plan := Fly(Field{Length: &length, Width: &width}, job)
	assert.Contains(t, codes(plan), CodePlanCoarse)
	assert.Contains(t, codes(plan), CodeHeadlandLeftOut)
	assert.Zero(t, plan.Headland)
}

// Random tracts with headland passes: the accounting closes against counting points, the sorties spray
// every line once, the liquid is the rate over swath and length, and no swath lies nearer to the
// edge than half of itself.
func TestHeadlandsOfRandomTracts(t *testing.T) {
	t.Parallel()
	tracts := 300
	if testing.Short() {
		tracts = 40
	}
	r := rand.New(rand.NewPCG(20260612, 2))
	flown := 0
	for i := range tracts {
		field, job := blotField(r), tankJob(4)
		job.Swath = units.Length(4 + 10*r.Float64())
		job.Headland = units.Count(1 + r.IntN(3))
		job.Course = new(units.Bearing(2 * math.Pi * r.Float64()))
		plan := Fly(field, job)
		if plan.drawn == nil || plan.drawn.ground.band.width == 0 || !plan.Feasible {
			continue
		}
		flown++
		requireLinesOnce(t, plan, job)
		g, swath := plan.drawn.ground, job.Swath.SI()
		a := plan.Accounting
		require.InEpsilon(t, a.Tract.SI(), a.Sprayed.SI()+a.Unsprayed.SI()+a.KeepOuts.SI(), 1e-9)
		require.LessOrEqual(t, a.Sprayed.SI(), plan.Treated.SI()-plan.SprayedPastEdge.SI()+1e-6*a.Tract.SI())

		within, sprayed := 0, 0
		const asked = 3000
		for range asked {
			p := orb.Point{700*r.Float64() - 350, 700*r.Float64() - 350}
			if !ofRegion(g.tract, p) {
				continue
			}
			within++
			if beneath(plan.drawn.path.stretches(), p, swath) {
				sprayed++
				for _, keepOut := range g.keepOuts {
					require.False(t, ofRegion(keepOut, p) && clearOf(keepOut, p) > 0.01*swath, "tract %d: a keep-out is sprayed", i)
				}
			}
		}
		share := float64(sprayed) / float64(within)
		want := a.Sprayed.SI() / a.Tract.SI()
		// Four standard errors of a share counted at so many points.
		require.InDelta(t, want, share, 4*math.Sqrt(want*(1-want)/float64(within))+0.002, "tract %d", i)
		for _, l := range g.band.laps {
			require.True(t, ofRegion(g.tract, orb.Point{(l.from[0] + l.to[0]) / 2, (l.from[1] + l.to[1]) / 2}), "tract %d: a pass lies outside", i)
		}
	}
	require.Greater(t, flown, tracts/2)
}

// beneath reports whether a point lies under the swath of a leg.
func beneath(legs []stretch, p orb.Point, swath float64) bool {
	for _, l := range legs {
		f := newFrame(math.Atan2(l.to[1]-l.from[1], l.to[0]-l.from[0]))
		u0, n0 := f.turn(l.from)
		u, n := f.turn(p)
		if math.Abs(n-n0) <= swath/2 && u >= u0 && u <= u0+l.length {
			return true
		}
	}
	return false
}

// clearOf reports how far a point lies from the sides of a region.
func clearOf(rings region, p orb.Point) float64 {
	least := math.Inf(1)
	for _, ring := range rings {
		for i := 1; i < len(ring); i++ {
			least = min(least, planar.DistanceFromSegment(ring[i-1], ring[i], p))
		}
	}
	return least
}

// requireLinesOnce lays the sorties of a plan over its path: each takes up where the one before
// stopped, from the first leg to the last, and the liquid is the rate over the swath of it all.
func requireLinesOnce(t *testing.T, plan Plan, job Job) {
	t.Helper()
	at, fill := 0.0, 0.0
	for k, end := range plan.drawn.ends {
		require.InEpsilon(t, plan.List[k].Area.SI(), (end-at)*job.Swath.SI(), 1e-9)
		at = end
		fill += plan.List[k].Fill.SI()
	}
	require.InDelta(t, plan.SprayLength.SI(), at, 1e-3)
	sum := 0.0
	for _, l := range plan.drawn.path.stretches() {
		sum += l.length
	}
	require.InEpsilon(t, plan.SprayLength.SI(), sum, 1e-9)
	require.InEpsilon(t, job.Rate.SI()*plan.SprayLength.SI()*job.Swath.SI(), fill, 1e-9)
	seen := map[units.Count]float64{}
	m, ok := plan.Map()
	require.True(t, ok)
	for _, line := range m.Lines {
		seen[line.Number] += line.Length.SI()
	}
	drawn := 0.0
	for _, length := range seen {
		drawn += length
	}
	require.InEpsilon(t, plan.SprayLength.SI(), drawn, 1e-6)
}
