package tract

import (
	"math"

	"tractcheck/feasibility/units"
)

// Reach is how far a tract reaches along a direction: Along, on the line on which it reaches farthest,
// from where that enters the tract to where it leaves it last, gaps and keep-outs between counted in; and
// Across, from its first corner to its last square to the direction. Longest is no less than it reaches in
// any direction, and no more than the half beyond: the diagonal of the box about it.
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
	if !g.mapped {
		return Reach{}, false
	}
	sin, cos := math.Sincos(along.SI())
	longest, first, last, from, to := 0.0, math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	whole := func(inside, _, out []interval) []interval { return append(out, inside...) }
	slabs(newFrame(math.Atan2(cos, sin)), g.tract, nil, whole, func(bottom, top []interval, low, high float64) {
		first, last = min(first, low), max(last, high)
		for _, line := range [2][]interval{bottom, top} {
			if n := len(line); n > 0 {
				longest = max(longest, line[n-1].to-line[0].from)
				from, to = min(from, line[0].from), max(to, line[n-1].to)
			}
		}
	})
	if !(longest > 0) {
		return Reach{}, false
	}
	return Reach{
		Along: units.Length(longest), Across: units.Length(last - first), Longest: units.Length(math.Hypot(last-first, to-from)),
	}, true
}
