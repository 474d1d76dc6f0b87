package tract

import (
	"fmt"
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/units"
)

// spiral is a long arm wound round itself.
func spiral() []orb.Point {
	var out, back []orb.Point
	for i := range 60 {
		angle := 2 * math.Pi * float64(i) / 24
		sin, cos := math.Sincos(angle)
		inner := 20 + 60*angle/(2*math.Pi)
		out = append(out, orb.Point{(inner + 40) * cos, (inner + 40) * sin})
		back = append([]orb.Point{{inner * cos, inner * sin}}, back...)
	}
	return append(out, back...)
}

// teeth is a block with long teeth.
func teeth(count int) []orb.Point {
	out := []orb.Point{{0, 0}, {float64(20 * count), 0}}
	for i := count - 1; i >= 0; i-- {
		x := float64(20 * i)
		out = append(out, orb.Point{x + 20, 150}, orb.Point{x + 8, 150}, orb.Point{x + 8, 30})
		if i > 0 {
			out = append(out, orb.Point{x, 30})
		}
	}
	return append(out, orb.Point{0, 30})
}

// shapes are tracts of every kind.
func shapes() map[string]Field {
	u := []orb.Point{{0, 0}, {300, 0}, {300, 300}, {200, 300}, {200, 100}, {100, 100}, {100, 300}, {0, 300}}
	return map[string]Field{
		"U":                       {Boundary: []Polygon{placed(u)}},
		"comb":                    {Boundary: []Polygon{placed(teeth(9))}},
		"spiral":                  {Boundary: []Polygon{placed(spiral())}},
		"hole":                    {Boundary: []Polygon{placed(box(0, 0, 300, 200), box(100, 50, 180, 150))}},
		"three parts":             {Boundary: []Polygon{placed(box(0, 0, 100, 100)), placed(box(150, 20, 260, 90)), placed(box(-40, 150, 30, 300))}},
		"island in a lake":        {Boundary: []Polygon{placed(box(0, 0, 300, 300), box(50, 50, 250, 250)), placed(box(120, 120, 180, 180))}},
		"three meters square":     {Boundary: []Polygon{placed(box(0, 0, 3, 3))}},
		"3 km long and 9 m wide":  {Boundary: []Polygon{placed(box(0, 0, 3000, 9))}},
		"3 km at a slant":         {Boundary: []Polygon{placed([]orb.Point{{0, 0}, {2400, 1800}, {2393, 1810}, {-7, 10}})}},
		"triangle":                {Boundary: []Polygon{placed([]orb.Point{{0, 0}, {400, 0}, {0, 300}})}},
		"keep-outs over the edge": {Boundary: []Polygon{placed(box(0, 0, 250, 250))}, KeepOuts: []Polygon{placed(box(-20, 100, 60, 140)), placed(box(40, 120, 120, 200)), placed(box(200, 200, 300, 300), box(210, 210, 230, 230))}},
	}
}

// Every shape, with courses all round, swaths narrow and wide, with and without a headland, for one
// aircraft and for three: the ground adds up, every line is sprayed once and lies in the tract clear
// of keep-outs, and no sortie takes more than its tank or its battery.
func TestEveryShapeAndCourse(t *testing.T) {
	t.Parallel()
	courses := []units.Bearing{0, 90, 180, 359.9, 37}
	for name, field := range shapes() {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			field.FerryDistance = new(50 * units.Meter)
			for i, course := range courses {
				for k, swath := range []units.Length{3.3, 7, 40} {
					job := tankJob(1)
					job.Swath, job.Course = swath, new(course*units.BearingDegree)
					job.Headland = units.Count((i + k) % 3)
					job.Aircraft = units.Count(1 + 2*(i%2))
					requireSound(t, fmt.Sprintf("course %v, swath %v, headland %v", course, swath.SI(), job.Headland), Fly(field, job), job)
				}
			}
		})
	}
}

// requireSound holds a plan to what every plan must be.
func requireSound(t *testing.T, what string, plan Plan, job Job) {
	t.Helper()
	a := plan.Accounting
	require.InEpsilonf(t, a.Tract.SI(), a.Sprayed.SI()+a.Unsprayed.SI()+a.KeepOuts.SI(), 1e-9, "%s: %+v", what, a)
	require.GreaterOrEqual(t, a.Sprayed.SI(), 0.0, what)
	require.GreaterOrEqual(t, a.Unsprayed.SI(), -1e-9*a.Tract.SI(), what)
	require.LessOrEqual(t, a.Sprayed.SI(), plan.Treated.SI()-plan.SprayedPastEdge.SI()+1e-6*a.Tract.SI(), what)
	if !plan.Feasible {
		require.NotEmpty(t, plan.Findings, what)
		return
	}
	requireLinesOnce(t, plan, job)
	for i, s := range plan.List {
		require.Equal(t, units.Count(i)%job.Aircraft+1, s.Aircraft, what)
		require.LessOrEqual(t, s.Fill.SI(), job.Fill.SI()*(1+1e-9), what)
		require.LessOrEqual(t, s.Energy.SI(), job.Power.Usable.SI()*(1+1e-9), what)
	}
	g := plan.drawn.ground
	for _, l := range plan.drawn.path.stretches() {
		for _, share := range []float64{0.001, 0.3, 0.7, 0.999} {
			p := orb.Point{l.from[0] + share*(l.to[0]-l.from[0]), l.from[1] + share*(l.to[1]-l.from[1])}
			require.Truef(t, ofRegion(g.tract, p) || clearOf(g.tract, p) < 0.01, "%s: line %d leaves the tract at %v", what, l.line, p)
			for _, forbidden := range g.forbidden {
				require.Falsef(t, ofRegion(forbidden, p) && clearOf(forbidden, p) > 0.01*job.Swath.SI(), "%s: line %d crosses a keep-out at %v", what, l.line, p)
			}
		}
	}
}

// A tract smaller than the swath takes one line along its middle, and says so.
func TestTractsSmallerThanASwath(t *testing.T) {
	t.Parallel()
	job := tankJob(1)
	job.Swath = 40
	plan := Fly(Field{Boundary: []Polygon{placed(box(0, 0, 30, 20))}, FerryDistance: new(10 * units.Meter)}, job)
	require.True(t, plan.Feasible)
	assert.Equal(t, units.Count(1), plan.Passes)
	assert.Contains(t, codes(plan), CodeSwathWiderThanField)
	assert.InEpsilon(t, 600, plan.Accounting.Sprayed.SI(), 1e-6)
	assert.InEpsilon(t, plan.Treated.SI()-600, plan.SprayedPastEdge.SI(), 1e-6)
}

// The lines run as the course says, to the tenth of a degree, and 0 and 180 degrees are one course.
func TestCoursesAllRound(t *testing.T) {
	t.Parallel()
	field := Field{Boundary: []Polygon{placed(box(0, 0, 300, 210))}, FerryDistance: new(10 * units.Meter)}
	for _, course := range []units.Bearing{0, 45, 90, 135, 180, 270, 359.9} {
		job := tankJob(4)
		job.Course = new(course * units.BearingDegree)
		plan := Fly(field, job)
		require.True(t, plan.Feasible)
		for _, l := range plan.drawn.path.stretches() {
			bearing := units.Bearing(math.Atan2(l.to[0]-l.from[0], l.to[1]-l.from[1]))
			off := bearing.Between(*job.Course)
			require.Less(t, min(off, math.Pi-off).In(units.Degree), 1e-6, "course %v", course)
		}
		if course == 0 || course == 180 {
			assert.Equal(t, units.Count(43), plan.Passes)
		}
	}
}

// Thousands of lines are laid one by one and flown, each once.
func TestThousandsOfLines(t *testing.T) {
	t.Parallel()
	job := tankJob(4)
	job.Swath, job.Course = 1.1, new(units.Bearing(0))
	plan := Fly(Field{Boundary: []Polygon{placed(box(0, 0, 5500, 60))}, FerryDistance: new(50 * units.Meter)}, job)
	require.True(t, plan.Feasible)
	assert.InDelta(t, 5000, plan.Passes.SI(), 1, "5500 m on the map, 1.1 m each")
	requireSound(t, "5000 lines", plan, job)
}
