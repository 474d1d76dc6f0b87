package tract

import (
	"math"

	"tractcheck/feasibility/units"
)

// Reach reports how far the tract reaches along a bearing, from its first corner to its last, gaps and
// keep-outs between counted in. It is false where the tract has no place on the map.
func (p Plan) Reach(along units.Bearing) (units.Length, bool) {
	if p.drawn == nil {
		return 0, false
	}
	return p.drawn.ground.reach(along)
}

// Reach reports how far the field's boundary reaches along a bearing, as that of a Plan; false where
// there is no boundary that encloses ground.
func (f Field) Reach(along units.Bearing) (units.Length, bool) {
	var unread report
	g, ok := survey(f, &unread)
	if !ok {
		return 0, false
	}
	return g.reach(along)
}

func (g *ground) reach(along units.Bearing) (units.Length, bool) {
	if !g.mapped {
		return 0, false
	}
	sin, cos := math.Sincos(along.SI())
	first, last := math.Inf(1), math.Inf(-1)
	for _, ring := range g.tract {
		for _, corner := range ring {
			at := corner[0]*sin + corner[1]*cos
			first, last = min(first, at), max(last, at)
		}
	}
	return units.Length(max(0, last-first)), last > first
}
