package tract

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/units"
)

// onPlane brings polygons back onto a plane.
func onPlane(p plane, polygons []Polygon) (rings []orb.Ring, area float64) {
	for _, polygon := range polygons {
		for _, ring := range polygon {
			var out orb.Ring
			for _, at := range ring {
				out = append(out, p.point(at.Longitude.SI(), at.Latitude.SI()))
			}
			rings = append(rings, out)
			area += planar.Area(out)
		}
	}
	return rings, area
}

func TestPositionsGoThereAndBack(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(7, 7946))
	for range 1000 {
		p := newPlane((2*r.Float64()-1)*math.Pi, (2*r.Float64()-1)*1.4)
		at := orb.Point{50e3 * (r.Float64() - 0.5), 50e3 * (r.Float64() - 0.5)}
		back := p.position(at)
		require.Less(t, planar.Distance(at, p.point(back.Longitude.SI(), back.Latitude.SI())), 1e-3, "a millimeter, at %v of %+v", at, p)
	}
}

// The map shows what the plan counts: the lines' lengths, the sorties' stretches, the tract's ground.
func TestMapAgreesWithThePlan(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(7946, 1))
	for i := range 200 {
		field, job := blotField(r), tankJob(4)
		plan := Fly(field, job)
		m, ok := plan.Map()
		require.True(t, ok)
		g, _ := survey(field, &report{})
		rings, area := onPlane(g.plane, m.Boundary)
		require.InEpsilon(t, plan.Area.SI(), area, 1e-6, "tract %d: outer rings count up and holes down", i)
		require.Len(t, rings, len(g.tract))
		total, bySortie := 0.0, map[units.Count]float64{}
		for _, line := range m.Lines {
			from, to := g.plane.point(line.From.Longitude.SI(), line.From.Latitude.SI()), g.plane.point(line.To.Longitude.SI(), line.To.Latitude.SI())
			require.InDelta(t, line.Length.SI(), planar.Distance(from, to), 1e-3)
			total += line.Length.SI()
			bySortie[line.Sortie] += line.Length.SI()
		}
		require.InEpsilon(t, plan.SprayLength.SI(), total, 1e-6)
		require.Len(t, m.Breaks, 2*len(plan.List), "each sortie starts and stops")
		for k, s := range plan.List {
			require.InEpsilon(t, s.Area.SI(), bySortie[s.Number]*job.Swath.SI(), 1e-6)
			if k > 0 {
				require.Equal(t, plan.List[k-1].ResumeLine, m.Breaks[2*k].Line, "a sortie starts where the one before says to resume")
				require.InDelta(t, plan.List[k-1].ResumeAlong.SI(), m.Breaks[2*k].Along.SI(), 1e-6)
			}
		}
	}
}

// The strip downwind of a square is as long as the square is wide, across the wind, and as deep as
// asked; straight to a corner it is the square's diagonal times the depth.
func TestDownwindOfASquare(t *testing.T) {
	t.Parallel()
	plan := Fly(Field{Boundary: []Polygon{placed(box(-100, -100, 100, 100))}}, tankJob(1))
	for name, tc := range map[string]struct{ from, want float64 }{
		"from the west":      {270, 200 * 30},
		"from the south":     {180, 200 * 30},
		"from the northeast": {45, 200 * math.Sqrt2 * 30},
	} {
		t.Run(name, func(t *testing.T) {
			got := plan.Downwind(30*units.Meter, units.Bearing(tc.from)*units.BearingDegree)
			rings, area := onPlane(plan.drawn.ground.plane, got)
			require.NotEmpty(t, rings)
			assert.InDelta(t, tc.want, area, 0.01*tc.want/30, "a centimeter of depth")
		})
	}
	assert.Empty(t, plan.Downwind(0, 0))
	assert.Empty(t, plan.Downwind(units.Length(math.Inf(1)), 0))
	assert.Empty(t, Plan{}.Downwind(30, 0))
}

// Spray that leaves one arm of a U comes down between the arms; a point is in the zone exactly
// where the tract lies within the distance up the wind and the point is not in the tract.
func TestDownwindZoneAgainstWalkingUpwind(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(12, 6))
	for i := range 60 {
		field, job := blotField(r), tankJob(4)
		if i%2 == 0 {
			job.Clear = []Clear{{Bearing: units.Bearing(2 * math.Pi * r.Float64()), Buffer: 25}}
		}
		plan := Fly(field, job)
		if plan.drawn == nil {
			continue
		}
		g := *plan.drawn.ground
		const depth = 40.0
		from := units.Bearing(2 * math.Pi * r.Float64())
		rings, _ := onPlane(g.plane, plan.Downwind(depth*units.Meter, from))
		sin, cos := math.Sincos(from.SI())
		wrong, asked := 0, 0
		for range 400 {
			p := orb.Point{800*r.Float64() - 400, 800*r.Float64() - 400}
			want := false
			for step := 0.0; step <= depth; step += 0.5 {
				want = want || sprayedAt(g, orb.Point{p[0] + step*sin, p[1] + step*cos})
			}
			want = want && !sprayedAt(g, p)
			in := 0
			for _, ring := range rings {
				if planar.RingContains(ring, p) {
					in++
				}
			}
			require.LessOrEqual(t, in, 1, "parts of the zone do not lap over each other")
			asked++
			if want != (in == 1) {
				wrong++
			}
		}
		// The walk takes half-meter steps, so points that close to a rim may differ.
		require.LessOrEqual(t, wrong, asked/50, "tract %d, wind from %v", i, from.In(units.BearingDegree))
	}
}

// sprayedAt reports whether a point lies in the tract and clear of keep-outs and strips.
func sprayedAt(g ground, p orb.Point) bool {
	return ofRegion(g.tract, p) && !slices.ContainsFunc(slices.Concat(g.keepOuts, g.kept), func(r region) bool { return ofRegion(r, p) })
}

func TestNoMapWithoutAPlace(t *testing.T) {
	t.Parallel()
	area := 40 * units.Acre
	_, ok := Fly(Field{Area: &area}, tankJob(1)).Map()
	assert.False(t, ok)
	_, ok = Plan{}.Map()
	assert.False(t, ok)
}

// A map is drawn of a plan that no battery can fly too: the lines are there, without a sortie.
func TestMapOfAPlanThatCannotBeFlown(t *testing.T) {
	t.Parallel()
	plan := Fly(Field{Boundary: []Polygon{placed(box(-100, -100, 100, 100))}, FerryDistance: new(units.Length(50_000))}, tankJob(0.1))
	require.False(t, plan.Feasible)
	m, ok := plan.Map()
	require.True(t, ok)
	require.NotEmpty(t, m.Lines)
	for _, line := range m.Lines {
		assert.Zero(t, line.Sortie)
	}
	assert.Empty(t, m.Breaks)
}

// A tract on the 180th meridian is cut there, like everything drawn for it, and loses nothing.
func TestMapAcrossThe180thMeridian(t *testing.T) {
	t.Parallel()
	p := newPlane(math.Pi-1e-6, -16.8*math.Pi/180) // the meridian is 6 m east of the origin
	ring := func(points ...orb.Point) (out Ring) {
		for _, at := range append(points, points[0]) {
			out = append(out, wrapped(inverse(p, at)))
		}
		return out
	}
	launch := wrapped(inverse(p, orb.Point{150, 0}))
	field := Field{
		Boundary:    []Polygon{{ring(box(-200, -100, 200, 100)...)}},
		KeepOuts:    []Polygon{{ring(box(-20, -20, 20, 20)...)}, {ring(box(80, 80, 90, 90)...)}},
		LaunchPoint: &launch,
	}
	for _, course := range []units.Bearing{0, 90, 270} {
		job := tankJob(4)
		job.Course = new(course * units.BearingDegree)
		job.Clear = []Clear{{Bearing: 0, Buffer: 20}}
		job.WindFrom, job.WindSpeed = 180*units.BearingDegree, 2
		plan := Fly(field, job)
		require.InEpsilon(t, 400*200, plan.Area.SI(), 1e-6)
		m, ok := plan.Map()
		require.True(t, ok)
		zone := plan.Downwind(50*units.Meter, 180*units.BearingDegree)
		for name, polygons := range map[string][]Polygon{"boundary": m.Boundary, "keep-outs": m.KeepOuts, "strips": m.Unsprayed, "zone": zone} {
			west, east := 0.0, 0.0
			for _, polygon := range polygons {
				for _, r := range polygon {
					for _, at := range r {
						require.LessOrEqual(t, math.Abs(at.Longitude.SI()), math.Pi)
					}
				}
				if polygon[0][0].Longitude > 0 { // west of the meridian longitudes are positive
					west++
				} else {
					east++
				}
			}
			assert.Positive(t, west, name)
			assert.Positive(t, east, name)
		}
		_, area := onPlane(plan.drawn.ground.plane, m.Boundary)
		assert.InEpsilon(t, plan.Area.SI(), area, 1e-6)
		length := 0.0
		for _, line := range m.Lines {
			from, to := p.point(line.From.Longitude.SI(), line.From.Latitude.SI()), p.point(line.To.Longitude.SI(), line.To.Latitude.SI())
			require.InDelta(t, line.Length.SI(), planar.Distance(from, to), 1e-2)
			require.Less(t, math.Abs((line.To.Longitude - line.From.Longitude).SI()), 1e-3, "no line goes round the earth")
			length += line.Length.SI()
		}
		assert.InEpsilon(t, plan.SprayLength.SI(), length, 1e-6)
	}
}
