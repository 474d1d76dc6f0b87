package tract

import (
	"math"
	"slices"
	"syscall"
	"testing"
	"time"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/units"
)

// spikes is a star whose corners lie at two distances from the middle in turn.
func spikes(corners int, near, far float64) []orb.Point {
	out := make([]orb.Point, 0, corners)
	for i := range corners {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(corners))
		radius := near
		if i%2 == 1 {
			radius = far
		}
		out = append(out, orb.Point{radius * cos, radius * sin})
	}
	return out
}

// wound is a strip wound round a middle.
func wound(corners int, turns, radius, width float64) []orb.Point {
	half := corners / 2
	var out, back []orb.Point
	for i := range half {
		share := float64(i) / float64(half)
		sin, cos := math.Sincos(2 * math.Pi * turns * share)
		r := radius * (0.1 + 0.9*share)
		out, back = append(out, orb.Point{r * cos, r * sin}), append(back, orb.Point{(r - width) * cos, (r - width) * sin})
	}
	for i := range back {
		out = append(out, back[len(back)-1-i])
	}
	return out
}

// strewn is triangles in rows over a square.
func strewn(count int, side, size float64) []Polygon {
	rows := int(math.Sqrt(float64(count)))
	var out []Polygon
	for i := range rows * rows {
		x, y := side*(float64(i%rows)/float64(rows)-0.5), side*(float64(i/rows)/float64(rows)-0.5)
		out = append(out, placed([]orb.Point{{x, y}, {x + size, y + size/8}, {x + size*0.6, y + size}}))
	}
	return out
}

// hostile lists fields of as many corners as the contract admits, drawn to take much work.
func hostile() map[string]Field {
	across := comb(1600, -2000, -1500, 4000, 3000)
	for i, p := range across {
		across[i] = orb.Point{p[1], p[0]}
	}
	return map[string]Field{
		"spikes":             {Boundary: []Polygon{placed(spikes(9900, 60, 540))}},
		"star":               {Boundary: []Polygon{placed(spikes(9900, 14000, 22000))}},
		"comb":               {Boundary: []Polygon{placed(comb(4900, 0, 0, 1500, 1500))}},
		"long comb":          {Boundary: []Polygon{placed(comb(4900, 0, 0, 25000, 100))}},
		"spiral":             {Boundary: []Polygon{placed(wound(9900, 40, 1000, 12))}},
		"keep-outs":          {Boundary: []Polygon{placed(box(-22000, -22000, 22000, 22000))}, KeepOuts: strewn(2400, 40000, 850)},
		"slivers":            {Boundary: []Polygon{placed(box(-2000, -2000, 2000, 2000))}, KeepOuts: strewn(2400, 2500, 1400)},
		"parcels":            {Boundary: strewn(2400, 2000, 38)},
		"combs that cross":   {Boundary: []Polygon{placed(comb(2400, -2000, -1500, 4000, 3000))}, KeepOuts: []Polygon{placed(across)}},
		"stars that overlap": {Boundary: []Polygon{placed(spikes(4900, 1500, 4500))}, KeepOuts: []Polygon{placed(spikes(4900, 1400, 4600))}},
		"square":             {Boundary: []Polygon{placed(box(-22000, -22000, 22000, 22000))}},
	}
}

// TestHostileFieldsTakeBoundedWork: whatever field the contract admits, the plan, the set-back strips and
// the plans of changes end within counted steps, and a plan that was given up is never a good one.
func TestHostileFieldsTakeBoundedWork(t *testing.T) {
	t.Parallel()
	for name, field := range hostile() {
		job := tankJob(1)
		job.Swath, job.Headland, job.WindSpeed = 10*units.Foot, mostHeadlands, 3*units.MeterPerSecond
		requireBounded(t, name, field, job)
		if !slices.Contains([]string{"spikes", "comb", "square"}, name) {
			continue
		}
		job.Swath = 1 * units.Foot
		for i := range 200 {
			job.Clear = append(job.Clear, Clear{Neighbor: units.Count(i), Bearing: units.Bearing(0.8 * float64(i) / 200), Buffer: units.Length(20+i) * units.Foot})
		}
		requireBounded(t, name, field, job)
	}
}

// requireBounded flies a job and some changes of it.
func requireBounded(t *testing.T, name string, field Field, job Job) {
	t.Helper()
	land := NewLand(field)
	plan := land.Fly(job)
	// One more step of an inner loop than may be taken is at most a line over all sides, or a ring simplified.
	const mostOver = 20_000_000
	first := land.Work()
	assert.LessOrEqual(t, int(first), mostPlanWork*3/2+mostMown+mostOver, "%s: swath %v, %d neighbors", name, job.Swath, len(job.Clear))
	if found(plan, CodeOutlineTooRagged).Code != "" {
		assert.False(t, plan.Feasible, name)
		return
	}
	plan.SetBack(job.Clear)
	for range 5 {
		job.Fill *= 0.9
		job.Speed *= 0.9
		land.Judge(job)
	}
	assert.LessOrEqual(t, int(land.Work()-first), mostPlanWork, "%s: changes of the load and the speed lay no lines anew", name)
}

// TestALandGivesThePlansOfFly: what is kept from one job to the next shows in none of the plans.
func TestALandGivesThePlansOfFly(t *testing.T) {
	t.Parallel()
	field := Field{
		Boundary: []Polygon{placed(spikes(40, 120, 300))}, KeepOuts: []Polygon{placed(box(-20, -20, 20, 20))},
		FerryDistance: new(100 * units.Meter),
	}
	strip := Clear{Kind: "yard", Bearing: 1, Buffer: 20 * units.Meter}
	land := NewLand(field)
	for i := range 40 {
		job := tankJob(2)
		job.Speed *= units.Speed(1 + float64(i%3)/10)
		job.Swath = units.Length(5 + i%4)
		job.Headland = units.Count(i % 2)
		if i%5 > 2 {
			job.Clear = []Clear{strip}
		}
		if i%7 > 4 {
			job.Course = new(units.Bearing(float64(i)))
		}
		want, got, judged := Fly(field, job), land.Fly(job), land.Judge(job)
		assert.Equal(t, want.Findings, judged.Findings, "job %d", i)
		assert.Equal(t, want.Sources, judged.Sources, "job %d", i)
		assert.Equal(t, want.List, judged.List, "job %d", i)
		want.drawn, got.drawn = nil, nil
		assert.Equal(t, want, got, "job %d", i)
	}
}

// uneven is a comb whose teeth all end at heights of their own, so that a drawing has a stretch of every tooth
// at each of them.
func uneven(teeth int) region {
	ring := orb.Ring{{0, -1}, {float64(teeth), -1}}
	for i := teeth - 1; i >= 0; i-- {
		tip := 100 + 50*math.Mod(float64(i)*math.Phi, 1)
		ring = append(ring, orb.Point{float64(i) + 0.5, tip}, orb.Point{float64(i), 50 * math.Mod(float64(i)*math.Sqrt2, 1)})
	}
	return region{append(ring, ring[0])}
}

// TestDrawingFourTimesTheTeethTakesNoMoreThanTheirSquare: stretches times heights, and no more than that. It
// stands alone, because it takes the time of the process.
func TestDrawingFourTimesTheTeethTakesNoMoreThanTheirSquare(t *testing.T) {
	draw := func(teeth int) time.Duration {
		whole := uneven(teeth)
		took := time.Hour
		for range 3 {
			before := processorTime(t)
			area := 0.0
			for _, ring := range trace(newFrame(0), whole, nil, func(inside, _, out []interval) []interval { return append(out, inside...) }) {
				area += planar.Area(ring)
			}
			took = min(took, processorTime(t)-before)
			assert.InEpsilon(t, math.Abs(planar.Area(whole[0])), area, 1e-6, "%d teeth", teeth)
		}
		return took
	}
	few := draw(500)
	many := draw(2000)
	t.Logf("500 teeth take %v, 2,000 %v", few, many)
	assert.Less(t, many, 35*few, "the cube would be 64 times")
}

// processorTime is what the process has had.
func processorTime(t *testing.T) time.Duration {
	t.Helper()
	var used syscall.Rusage
	require.NoError(t, syscall.Getrusage(syscall.RUSAGE_SELF, &used))
	return time.Duration(used.Utime.Nano() + used.Stime.Nano())
}

// TestWhatIsGivenUpDependsOnTheJobAlone: a job that follows another on the same land is given up where it is
// by itself, and only there.
func TestWhatIsGivenUpDependsOnTheJobAlone(t *testing.T) {
	t.Parallel()
	field := hostile()["spikes"]
	given := map[bool]int{}
	land := NewLand(field)
	for _, swath := range []units.Length{8, 12, 4, 7, 4, 6, 12} {
		job := tankJob(1)
		job.Swath, job.Clear = swath, []Clear{{Bearing: 1, Buffer: 20 * units.Meter}}
		cold, warm := Fly(field, job), land.Judge(job)
		assert.Equal(t, cold.Feasible, warm.Feasible, "%v m", swath)
		assert.Equal(t, cold.Findings, warm.Findings, "%v m", swath)
		given[found(cold, CodeOutlineTooRagged).Code != ""]++
	}
	assert.Len(t, given, 2, "some are given up and some are not: %v", given)
}
