package tract

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// A house 10 m east of a square must be 40 m from the last swath: 30 m of the square's east side stay
// unsprayed, and nothing else that a swath could reach.
func TestStripForANeighbor(t *testing.T) {
	t.Parallel()
	field := Field{Boundary: []Polygon{placed(box(-140, -140, 140, 140))}}
	job := tankJob(2)
	job.Course = new(units.Bearing(0))
	job.Clear = []Clear{{Neighbor: 3, Kind: "house", Bearing: 90 * units.BearingDegree, Distance: 10, Buffer: 40}}
	plan := Fly(field, job)
	require.True(t, plan.Feasible)
	assert.InEpsilon(t, 30*280, plan.Accounting.Strips.SI(), 1e-5)
	assert.InDelta(t, 35*280, plan.Accounting.Unsprayed.SI(), 1, "30 m are four swaths of 7 m and a bit; the fifth may not enter the strip")
	said := found(plan, CodeStripUnsprayed)
	assert.Equal(t, finding.Caution, said.Severity)
	assert.Equal(t, "/field/neighbors/3", said.Subject)
	assert.Contains(t, said.Message, "98.4 ft")
	m, ok := plan.Map()
	require.True(t, ok)
	_, area := onPlane(plan.drawn.ground.plane, m.Unsprayed)
	assert.InEpsilon(t, 30*280, area, 1e-4)

	job.Clear[0].Buffer = 10 // far enough as it is
	same := Fly(field, job)
	assert.Zero(t, same.Accounting.Strips)
	assert.Empty(t, same.Cleared)
	side := 100 * units.Meter
	job.Clear[0].Buffer = 40
	assert.Empty(t, Fly(Field{Length: &side, Width: &side}, job).Cleared, "a field without a place has no side to leave")
	job.Clear[0].Buffer = 1000
	all := Fly(field, job)
	assert.False(t, all.Feasible)
	assert.Equal(t, finding.Stop, found(all, CodeKeepOutsCoverField).Severity)
}

// No swath comes within the strip's width of a side that looks toward the neighbor.
func TestSwathsKeepOffFacingSides(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(90, 45))
	for range 200 {
		field, job := blotField(r), tankJob(4)
		bearing := units.Bearing(2 * math.Pi * r.Float64())
		width := 5 + 40*r.Float64()
		job.Clear = []Clear{{Bearing: bearing, Distance: 3, Buffer: units.Length(3 + width)}}
		plan := Fly(field, job)
		if plan.drawn == nil {
			continue
		}
		g := plan.drawn.ground
		sin, cos := math.Sincos(bearing.SI())
		outers, _ := g.tract.sorted()
		for _, leg := range plan.drawn.path.stretches() {
			for _, ring := range outers {
				for i := 1; i < len(ring); i++ {
					a, b := ring[i-1], ring[i]
					length := planar.Distance(a, b)
					if ((b[1]-a[1])*sin-(b[0]-a[0])*cos)/length < math.Cos(facingWithin.SI())+1e-9 {
						continue
					}
					for _, p := range []orb.Point{leg.from, leg.to, leg.middle()} {
						require.GreaterOrEqual(t, planar.DistanceFromSegment(a, b, p), width-0.02*job.Swath.SI(),
							"%v is too near to the side %v to %v", p, a, b)
					}
				}
			}
		}
	}
}

// A boundary of thousands of corners gets a bounded number of strips, and they still cover what lies
// near a side that faces.
func TestStripsOfARaggedBoundaryAreBounded(t *testing.T) {
	t.Parallel()
	for _, corners := range []int{1000, 9900} {
		job := tankJob(4)
		job.Clear = []Clear{{Bearing: 4.1, Distance: 5, Buffer: 40}}
		plan := Fly(Field{Boundary: []Polygon{placed(ragged(corners, 0, 0, 1000))}}, job)
		g := plan.drawn.ground
		require.NotEmpty(t, g.kept)
		require.LessOrEqual(t, len(g.kept), mostStrips)
		sin, cos := math.Sincos(4.1)
		for i := 1; i < len(g.tract[0]); i++ {
			a, b := g.tract[0][i-1], g.tract[0][i]
			if !faces(a, b, orb.Point{sin, cos}) {
				continue
			}
			length := planar.Distance(a, b)
			inward := orb.Point{(a[0]+b[0])/2 - 34.9*(b[1]-a[1])/length, (a[1]+b[1])/2 + 34.9*(b[0]-a[0])/length}
			require.True(t, ofAny(g.kept, inward), "%d corners: ground 34.9 m inside of side %d is not kept", corners, i)
		}
	}
}
