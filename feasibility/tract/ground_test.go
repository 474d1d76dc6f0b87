package tract

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tractcheck/feasibility/units"
)

// star draws a ring that may be very ragged but never crosses itself: corners at rising angles
// around a middle.
func star(t *rapid.T, label string, x, y, least, most float64) []orb.Point {
	n := rapid.IntRange(3, 14).Draw(t, label+" corners")
	var out []orb.Point
	for i := range n {
		r := rapid.Float64Range(least, most).Draw(t, label+" radius")
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		out = append(out, orb.Point{x + r*cos, y + r*sin})
	}
	return out
}

// raggedField draws a tract with a hole and up to three keep-outs, which may overlap each other
// and the edge.
func raggedField(t *rapid.T) Field {
	rings := [][]orb.Point{star(t, "tract", 0, 0, 100, 300)}
	if rapid.Bool().Draw(t, "hole") {
		rings = append(rings, star(t, "hole", 0, 0, 5, 45))
	}
	field := Field{Boundary: []Polygon{placed(rings...)}}
	for range rapid.IntRange(0, 3).Draw(t, "keep-outs") {
		x, y := rapid.Float64Range(-250, 250).Draw(t, "x"), rapid.Float64Range(-250, 250).Draw(t, "y")
		field.KeepOuts = append(field.KeepOuts, placed(star(t, "keep-out", x, y, 3, 90)))
	}
	return field
}

// ofRegion reports whether a point lies in a region, by counting rings.
func ofRegion(rings region, p orb.Point) bool {
	in := false
	for _, ring := range rings {
		if planar.RingContains(ring, p) {
			in = !in
		}
	}
	return in
}

func ofAny(regions []region, p orb.Point) bool {
	for _, r := range regions {
		if ofRegion(r, p) {
			return true
		}
	}
	return false
}

// TestAccountingAgreesWithSampling compares the closed integrals with a plain count of points on
// a grid, which knows nothing of edges, slabs or scan lines.
func TestAccountingAgreesWithSampling(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		g, ok := survey(raggedField(t), &report{})
		if !ok {
			t.Skip("no ground")
		}
		swath := rapid.Float64Range(4, 30).Draw(t, "swath")
		l := lay(&g, rapid.Float64Range(0, 2*math.Pi).Draw(t, "angle"), swath)
		on := laid{ground: &g, layout: l}
		on.account(g.keptOut(), 0)
		got := on.accounting

		const step = 5.0
		var tract, kept, sprayed float64
		for x := -300 + step/2; x < 300; x += step {
			for y := -300 + step/2; y < 300; y += step {
				p := orb.Point{x, y}
				if !ofRegion(g.tract, p) {
					continue
				}
				tract += step * step
				switch {
				case ofAny(g.keepOuts, p):
					kept += step * step
				case underSwath(l, p):
					sprayed += step * step
				}
			}
		}
		// A grid of step s misjudges at most the points within s of an edge; the mean error over
		// an edge is far smaller. Allowed: 3 percent of the tract and 150 m2.
		slack := 0.03*tract + 150
		within := func(name string, want float64, got units.Area) {
			if math.Abs(want-got.SI()) > slack {
				t.Fatalf("%s: sampled %.0f m2, got %.0f m2", name, want, got.SI())
			}
		}
		within("tract", tract, got.Tract)
		within("keep-outs", kept, got.KeepOuts)
		within("sprayed", sprayed, got.Sprayed)
		closes := got.Sprayed + got.Unsprayed + got.KeepOuts
		if math.Abs((closes-got.Tract).SI()) > 0.001*got.Tract.SI() || got.Unsprayed < 0 {
			t.Fatalf("%v does not close: %v", got.Tract, got)
		}
	})
}

// underSwath reports whether a point lies under any swath.
func underSwath(l layout, p orb.Point) bool {
	u, n := l.frame.turn(p)
	for _, r := range l.runs {
		if math.Abs(n-l.offset(r.line-1)) <= l.swath/2 && u >= r.from && u <= r.to {
			return true
		}
	}
	return false
}

func TestNoSwathTouchesForbiddenGround(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		g, ok := survey(raggedField(t), &report{})
		if !ok {
			t.Skip("no ground")
		}
		l := lay(&g, rapid.Float64Range(0, 2*math.Pi).Draw(t, "angle"), rapid.Float64Range(3, 40).Draw(t, "swath"))
		for _, r := range l.runs {
			for _, along := range []float64{0.001, 0.3, 0.5, 0.7, 0.999} {
				for _, across := range []float64{-0.499, -0.25, 0, 0.25, 0.499} {
					p := l.frame.back(r.from+along*(r.to-r.from), l.offset(r.line-1)+across*l.swath)
					if ofAny(g.forbidden, p) {
						t.Fatalf("line %d sprays %v, which is forbidden", r.line, p)
					}
				}
			}
		}
	})
}

func TestSmallKeepOutBetweenTwoLinesIsCleared(t *testing.T) {
	t.Parallel()
	// A pond 1 m across that no line's middle meets: lines at 3.5, 10.5, ...; pond at 12 to 13.
	field := Field{
		Boundary: []Polygon{placed(box(0, 0, 200, 70))},
		KeepOuts: []Polygon{placed(box(100, 12, 101, 13))},
	}
	job := tankJob(1)
	east := 90 * units.BearingDegree
	job.Course = &east
	plan := Fly(field, job)
	require.True(t, plan.Feasible)
	assert.Equal(t, units.Count(10), plan.Passes)
	assert.Equal(t, units.Count(11), plan.Segments, "the line beside the pond is broken")
	assert.Contains(t, codes(plan), CodeGapsCrossed)
	assert.InDelta(t, 1, plan.Accounting.KeepOuts.SI(), 1e-3)
	assert.InDelta(t, 6, plan.Accounting.Unsprayed.SI(), 0.5, "the rest of the swath beside the pond")
}

func TestHoleAndIsland(t *testing.T) {
	t.Parallel()
	field := Field{Boundary: []Polygon{
		placed(box(0, 0, 400, 400), box(100, 100, 300, 300)),
		placed(box(160, 160, 240, 240)), // an island of field in the hole
	}}
	g, ok := survey(field, &report{})
	require.True(t, ok)
	assert.InEpsilon(t, 400*400-200*200+80*80, g.area, 1e-6)
	l := lay(&g, 0, 10)
	u, n := l.frame.turn(orb.Point{0, 0}) // the middle of the field is the origin
	hit := false
	for _, r := range l.runs {
		hit = hit || (math.Abs(l.offset(r.line-1)-n) < 10 && r.from < u && r.to > u)
	}
	assert.True(t, hit, "the island is sprayed")
	sprayed, _ := covered(&g, &l)
	assert.InEpsilon(t, g.area, sprayed, 0.001)
}

func TestOverlappingKeepOutsCountOnce(t *testing.T) {
	t.Parallel()
	field := Field{
		Boundary: []Polygon{placed(box(0, 0, 100, 100))},
		// Two that overlap by 10 x 20 and one half outside of the tract.
		KeepOuts: []Polygon{placed(box(20, 20, 50, 40)), placed(box(40, 20, 60, 40)), placed(box(90, 0, 110, 10))},
	}
	g, ok := survey(field, &report{})
	require.True(t, ok)
	assert.InEpsilon(t, 40*20+10*10, (*tally)(nil).overlapArea(newFrame(0), g.tract, g.keepOuts, nil), 1e-6)
}

func TestSubtractStretches(t *testing.T) {
	t.Parallel()
	for name, tc := range map[string]struct{ from, away, want []interval }{
		"nothing away": {[]interval{{0, 1}}, nil, []interval{{0, 1}}},
		"middle":       {[]interval{{0, 10}}, []interval{{2, 3}, {5, 6}}, []interval{{0, 2}, {3, 5}, {6, 10}}},
		"all":          {[]interval{{2, 3}, {4, 5}}, []interval{{0, 9}}, nil},
		"ends":         {[]interval{{0, 10}}, []interval{{-1, 1}, {9, 11}}, []interval{{1, 9}}},
		"across two":   {[]interval{{0, 4}, {6, 10}}, []interval{{3, 7}}, []interval{{0, 3}, {7, 10}}},
		"before":       {[]interval{{5, 6}}, []interval{{0, 1}, {2, 5}}, []interval{{5, 6}}},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			assert.Equal(t, tc.want, subtract(tc.from, tc.away, nil))
		})
	}
}

func TestAntimeridianKeepsTheTractWhole(t *testing.T) {
	t.Parallel()
	across := []Polygon{{onMap(orb.Point{179.995, 42}, orb.Point{-179.995, 42}, orb.Point{-179.995, 42.01}, orb.Point{179.995, 42.01})}}
	inland := []Polygon{{onMap(orb.Point{-93.60, 42}, orb.Point{-93.59, 42}, orb.Point{-93.59, 42.01}, orb.Point{-93.60, 42.01})}}
	a, ok := survey(Field{Boundary: across}, &report{})
	require.True(t, ok)
	b, ok := survey(Field{Boundary: inland}, &report{})
	require.True(t, ok)
	assert.InEpsilon(t, b.area, a.area, 1e-9)
}

func TestBadBoundaries(t *testing.T) {
	t.Parallel()
	nan := Ring{{Longitude: units.Angle(math.NaN())}, {}, {}, {}}
	for name, tc := range map[string]struct {
		boundary []Polygon
		want     string
	}{
		"no rings":      {[]Polygon{{}}, "field_empty"},
		"one point":     {[]Polygon{{onMap(orb.Point{-93, 42})}}, "field_empty"},
		"a line":        {[]Polygon{{onMap(orb.Point{-93, 42}, orb.Point{-93, 42.01})}}, "field_empty"},
		"not a number":  {[]Polygon{{nan}}, "field_empty"},
		"half a planet": {[]Polygon{{onMap(orb.Point{-93, -42}, orb.Point{42, -42}, orb.Point{42, 42}, orb.Point{-93, 42})}}, "boundary_too_large"},
		"a county":      {[]Polygon{{onMap(orb.Point{-93, 42}, orb.Point{-92, 42}, orb.Point{-92, 42.5}, orb.Point{-93, 42.5})}}, "boundary_large"},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			plan := Fly(Field{Boundary: tc.boundary}, tankJob(1))
			assert.False(t, plan.Feasible)
			require.NotEmpty(t, plan.Findings)
			assert.Equal(t, tc.want, string(plan.Findings[0].Code))
		})
	}
}

func TestClosingAndDirectionOfRingsDoNotMatter(t *testing.T) {
	t.Parallel()
	plain := placed(box(0, 0, 300, 200), box(50, 50, 100, 100))
	turned := Polygon{}
	for _, ring := range plain {
		back := make(Ring, 0, len(ring))
		for i := len(ring) - 1; i > 0; i-- { // turned round and left open
			back = append(back, ring[i])
		}
		turned = append(turned, back)
	}
	a := Fly(Field{Boundary: []Polygon{plain}}, tankJob(1))
	b := Fly(Field{Boundary: []Polygon{turned}}, tankJob(1))
	assert.InEpsilon(t, a.Area.SI(), b.Area.SI(), 1e-12)
	assert.Equal(t, a.Sorties, b.Sorties)
	assert.Equal(t, a.Segments, b.Segments)
}
