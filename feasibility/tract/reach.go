package tract

import (
	"math"

	"github.com/paulmach/orb"

	"tractcheck/feasibility/units"
)

// Reach is how far the outline of a tract, a string drawn around all of it, reaches along a direction: Along,
// on the line on which it reaches farthest; and Across, square to the direction. Longest is no less than it
// reaches in any direction: the diagonal of the box about it that lies so.
type Reach struct{ Along, Across, Longest units.Length }

// Reach reports how far the tract reaches along a bearing; false where it has no place on the map.
func (p Plan) Reach(along units.Bearing) (Reach, bool) {
	if p.drawn == nil {
		return Reach{}, false
	}
	return p.drawn.ground.reach(along)
}

// Reach reports how far the field's boundary reaches along a bearing; false where there is no boundary
// that encloses ground.
func (f Field) Reach(along units.Bearing) (Reach, bool) {
	var unread report
	g, ok := survey(f, &unread)
	if !ok {
		return Reach{}, false
	}
	return g.reach(along)
}

func (g *ground) reach(along units.Bearing) (Reach, bool) {
	if len(g.outline) < 3 {
		return Reach{}, false
	}
	sin, cos := math.Sincos(along.SI())
	f := newFrame(math.Atan2(cos, sin))
	turned := make([]orb.Point, len(g.outline))
	least, most := orb.Point{math.Inf(1), math.Inf(1)}, orb.Point{math.Inf(-1), math.Inf(-1)}
	for i, corner := range g.outline {
		u, n := f.turn(corner)
		turned[i] = orb.Point{u, n}
		least, most = orb.Point{min(least[0], u), min(least[1], n)}, orb.Point{max(most[0], u), max(most[1], n)}
	}
	long, wide := most[0]-least[0], most[1]-least[1]
	return Reach{
		Along: units.Length(longestChord(turned)), Across: units.Length(wide), Longest: units.Length(math.Hypot(long, wide)),
	}, true
}
