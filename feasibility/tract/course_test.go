package tract

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

func TestCourse(t *testing.T) {
	t.Parallel()
	field := Field{Boundary: []Polygon{placed(box(0, 0, 800, 200))}} // long from west to east
	yes, east, south := true, 90*units.BearingDegree, 180*units.BearingDegree
	for name, tc := range map[string]struct {
		job    func(*Job)
		by     CourseChoice
		course float64 // degrees
		passes units.Count
		says   finding.Code
	}{
		"fewest turns":     {func(*Job) {}, CourseByFewestTurns, 90, 29, ""},
		"caller":           {func(j *Job) { j.Course = &south; j.Crosswind = &yes; j.WindSpeed = 3 }, CourseByCaller, 180, 115, CodeStartDownwind},
		"across the wind":  {func(j *Job) { j.Crosswind = &yes; j.WindSpeed = 3; j.WindFrom = east }, CourseByWind, 180, 115, CodeStartDownwind},
		"no wind to cross": {func(j *Job) { j.Crosswind = &yes }, CourseByFewestTurns, 90, 29, CodeCrosswindWithoutWind},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			job := tankJob(1)
			tc.job(&job)
			plan := Fly(field, job)
			assert.Equal(t, tc.by, plan.CourseBy)
			assert.InDelta(t, tc.course, plan.Course.In(units.BearingDegree), 0.01)
			assert.Equal(t, tc.passes, plan.Passes)
			if tc.says != "" {
				assert.Contains(t, codes(plan), tc.says)
			}
		})
	}
}

func TestStartDownwind(t *testing.T) {
	t.Parallel()
	field := Field{Boundary: []Polygon{placed(box(0, 0, 800, 200))}}
	for from, side := range map[units.Bearing]string{0: "south", 180: "north", 20: "south", 200: "north"} {
		job := tankJob(1)
		job.WindSpeed, job.WindFrom = 3, from*units.BearingDegree
		assert.Contains(t, found(Fly(field, job), CodeStartDownwind).Message, "the "+side+" side")

		// The first line indeed lies at that side.
		g, _ := survey(field, &report{})
		c := choose(&g, &job, &report{})
		l := lay(&g, c.angle, 7)
		first := l.frame.back(l.runs[0].from, l.offset(l.runs[0].line-1))
		assert.Equal(t, side == "north", first[1] > 0, "wind from %v", from)
	}
	north := Field{Boundary: []Polygon{placed(box(0, 0, 200, 800))}}
	for from, side := range map[units.Bearing]string{90: "west", 270: "east"} {
		job := tankJob(1)
		job.WindSpeed, job.WindFrom = 3, from*units.BearingDegree
		assert.Contains(t, found(Fly(north, job), CodeStartDownwind).Message, "the "+side+" side")
	}
}

// TestNoHeadingBeatsTheFewestTurns tries headings all round; none may take clearly fewer pieces.
func TestNoHeadingBeatsTheFewestTurns(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		g, ok := survey(raggedField(t), &report{})
		if !ok {
			t.Skip("no ground")
		}
		const swath = 5.0
		angle, _ := fewestTurns(&g, &Job{Swath: swath})
		best := lay(&g, angle, swath).pieces
		for degrees := 0; degrees < 180; degrees += 7 {
			pieces := lay(&g, float64(degrees)*math.Pi/180, swath).pieces
			// Headings are ranked by the expected pieces; the count on the lattice of lines differs
			// by a few, and keep-outs clear a whole swath.
			if limit := best*0.8 - 6; pieces < limit {
				t.Fatalf("%d degrees: %v pieces, fewest turns: %v", degrees, pieces, best)
			}
		}
	})
}

func TestFieldsWithoutAMap(t *testing.T) {
	t.Parallel()
	length, width := 100*units.Meter, 400*units.Meter
	yes, east := true, 90*units.BearingDegree
	job := tankJob(1)
	plan := Fly(Field{Length: &length, Width: &width, KeepOuts: []Polygon{placed(box(0, 0, 9, 9))}}, job)
	assert.Equal(t, units.Count(15), plan.Passes, "along the longer side")
	assert.Contains(t, codes(plan), CodeKeepOutsUnplaced)
	assert.Zero(t, plan.Accounting.Unsprayed)

	job.Crosswind, job.WindFrom, job.WindSpeed = &yes, east, 3
	plan = Fly(Field{Length: &length, Width: &width}, job)
	assert.InDelta(t, 180, plan.Course.In(units.BearingDegree), 1e-9)
	require.NotEmpty(t, plan.Assumptions)
	assert.Contains(t, plan.Assumptions[0].Assumed, "along the course")

	area := 40 * units.Acre
	assert.Contains(t, codes(Fly(Field{Area: &area}, tankJob(1))), CodeAreaAssumedSquare)
	assert.Contains(t, codes(Fly(Field{Area: new(units.Area(0))}, tankJob(1))), CodeFieldEmpty)
}

func TestNarrowStrip(t *testing.T) {
	t.Parallel()
	length, width := 300*units.Meter, 5*units.Meter
	plan := Fly(Field{Length: &length, Width: &width}, tankJob(1))
	assert.Equal(t, units.Count(1), plan.Passes)
	f := found(plan, CodeSwathWiderThanField)
	assert.Equal(t, finding.Caution, f.Severity)
	assert.InDelta(t, -2, f.Margin.SI(), 1e-9)
	assert.Contains(t, codes(plan), CodeSprayPastEdge)
	assert.InDelta(t, 600, plan.SprayedPastEdge.SI(), 1e-6, "a meter on either side")
}

func TestKeepOutsCoverTheField(t *testing.T) {
	t.Parallel()
	plan := Fly(Field{
		Boundary: []Polygon{placed(box(0, 0, 100, 100))},
		KeepOuts: []Polygon{placed(box(-10, -10, 110, 110))},
	}, tankJob(1))
	assert.False(t, plan.Feasible)
	assert.Equal(t, finding.Stop, found(plan, CodeKeepOutsCoverField).Severity)
	assert.InEpsilon(t, plan.Area.SI(), plan.Accounting.KeepOuts.SI(), 1e-9)
}

func TestSlantedEdgesAreSaid(t *testing.T) {
	t.Parallel()
	course := 90 * units.BearingDegree
	job := tankJob(1)
	job.Course = &course
	plan := Fly(Field{Boundary: []Polygon{placed([]orb.Point{{0, 0}, {80, 0}, {0, 60}})}}, job)
	assert.Subset(t, codes(plan), []finding.Code{CodeSlivers, CodeGroundUnsprayed, CodeSprayPastEdge})
	a := plan.Accounting
	assert.InEpsilon(t, a.Tract.SI(), (a.Sprayed + a.Unsprayed + a.KeepOuts).SI(), 1e-12)
	// A slanted edge cuts the corners of swaths as much as it leaves open: both are near 8 lines x
	// (7 m)^2/2 x 80/60 / 4.
	assert.InDelta(t, 8*49.0/2*80/60/4, plan.SprayedPastEdge.SI(), 30)
}

func TestLaunchPoint(t *testing.T) {
	t.Parallel()
	boundary := []Polygon{placed(box(0, 0, 400, 400))}
	at := func(x, y float64) *Position { p := placed(box(x, y, x+1, y+1))[0][0]; return &p }
	job := tankJob(3)
	side := Fly(Field{Boundary: boundary, LaunchPoint: at(200, -10)}, job)
	corner := Fly(Field{Boundary: boundary, LaunchPoint: at(-10, -10)}, job)
	far := Fly(Field{Boundary: boundary, LaunchPoint: at(-1500, -10)}, job)
	assert.Less(t, side.FerryEach, corner.FerryEach, "the middle of a side is nearer than a corner")
	assert.Greater(t, far.FerryEach, 1500*units.Meter)
	assert.Equal(t, finding.Caution, found(far, CodeFerryLong).Severity)
	assert.NotContains(t, codes(side), CodeFerryLong)

	// The first line starts at the end nearer to the launch point.
	for _, x := range []float64{-10, 410} {
		g, _ := survey(Field{Boundary: boundary, LaunchPoint: at(x, -10)}, &report{})
		l := lay(&g, 0, 7)
		p := join(&l, turning{speed: 7, swath: 7}, g.launch)
		out, _ := p.ferries(p.spot(0), 10)
		assert.Less(t, out, 20.0)
	}
}

// TestWindOnTheLines: along the wind the air speed is the ground speed with the wind added one way
// and taken off the other; across it both ways are the same.
func TestWindOnTheLines(t *testing.T) {
	t.Parallel()
	job := tankJob(1)
	job.WindSpeed, job.WindFrom = 3, 0
	lines, ferry := airSpeeds(&job, course{bearing: 0}, 10)
	assert.InDelta(t, 10, lines[0].SI(), 1e-12)
	assert.InDelta(t, 4, lines[1].SI(), 1e-12)
	assert.InDelta(t, 13, ferry.SI(), 1e-12)
	lines, _ = airSpeeds(&job, course{bearing: 90 * units.BearingDegree}, 10)
	assert.InDelta(t, math.Hypot(7, 3), lines[0].SI(), 1e-12)
	assert.InDelta(t, lines[0].SI(), lines[1].SI(), 1e-12)
}

func TestResumeCountsAlongTheWholeLine(t *testing.T) {
	t.Parallel()
	// Two pieces of line 1, 100 and 50 m, then line 2.
	p := path{length: 200,
		legs: []leg{{line: 1, start: 0}, {line: 1, start: 100, piece: 1}, {line: 2, start: 150, piece: 2}},
		runs: []run{{line: 1, to: 100}, {line: 1, from: 110, to: 160}, {line: 2, to: 50}}}
	line, along := p.resume(120)
	assert.Equal(t, units.Count(1), line)
	assert.InDelta(t, 120, along.SI(), 1e-12)
	line, along = p.resume(150) // at the joint: the later line
	assert.Equal(t, units.Count(2), line)
	assert.Zero(t, along)
	coarse := path{length: 1e6, meanLeg: 100}
	line, along = coarse.resume(250)
	assert.Equal(t, units.Count(3), line)
	assert.InDelta(t, 50, along.SI(), 1e-9)
}
