package tract

import (
	"math"
	"slices"

	"github.com/paulmach/orb/planar"
)

// leastMuddle is the share of the ground, all rings added up, that rings may overlap by before they
// count as muddled: two parcels drawn along one fence seldom meet to the inch. Own choice.
const leastMuddle = 0.001

// Nested reports whether the rings of polygons lie as those of a map must: every hole inside of its
// polygon and apart from the other holes, and the polygons apart from each other, save for one in a
// hole of another (RFC 7946, section 3.1.6; OGC 06-103r4, section 6.1.11). Rings that touch are
// nested.
//
// The ground inside an odd number of rings is then the sum of the outer rings less the holes, and
// seldom else, so the two are compared; they may differ by 0.1 percent. Outlines so tangled that their
// sides meet at more heights than can be worked through are taken as nested.
func Nested(polygons []Polygon) bool {
	origin, _, ok := middle(polygons)
	if !ok {
		return true
	}
	g := ground{plane: newPlane(origin.Longitude.SI(), origin.Latitude.SI())}
	for _, polygon := range polygons {
		g.addPolygon(polygon)
	}
	gross := 0.0
	for _, ring := range g.tract {
		gross += math.Abs(planar.Area(ring))
	}
	odd, ok := oddArea(newFrame(0).edges(g.tract))
	return !ok || math.Abs(odd-g.area) <= leastMuddle*gross
}

// oddArea reports the area inside an odd number of rings, m2, and false where there are too many
// heights between which nothing meets.
func oddArea(edges []edge) (float64, bool) {
	heights, deepest := (*tally)(nil).meetings(edges)
	if len(heights) > max(1_000, mostSteps/max(1, deepest)) {
		return 0, false
	}
	slices.Sort(heights)
	heights = slices.Compact(heights)
	walk, sum := scan{edges: edges}, 0.0
	var inside []interval
	for i := 1; i < len(heights); i++ {
		low, high := heights[i-1], heights[i]
		inside = walk.inside(walk.between(low, high), (low+high)/2, inside[:0])
		for _, stretch := range inside {
			sum += (stretch.to - stretch.from) * (high - low)
		}
	}
	return sum, true
}
