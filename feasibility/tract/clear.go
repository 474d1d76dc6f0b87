package tract

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// Clear asks for a strip of the tract to be left unsprayed, so that a neighbor downwind keeps its
// buffer: the buffer less the distance there is.
type Clear struct {
	Neighbor units.Count   // its place in the mission's list, from 0
	Kind     string        // in plain words
	Bearing  units.Bearing // from the field
	Distance units.Length  // from the field's edge
	Buffer   units.Length  // between the neighbor and the last swath
}

// Width reports how wide the strip is.
func (c Clear) Width() units.Length { return max(0, c.Buffer-c.Distance) }

// facing is how far off a side's outward direction may lie from the neighbor's bearing for the side
// to face it. Own choice: only its bearing from the field is known, not its place, so every side that
// looks toward it at all is taken, short of those that run past it.
const facing = 75 * units.Degree

// keepClear lays the strips: a rectangle along every outer side that faces the neighbor, as wide as
// asked to both hands and as far beyond both corners, so that no ground within the width of the side
// is left out. They are forbidden to swaths as keep-outs are, but are counted as unsprayed.
func (g *ground) keepClear(strips []Clear, r *report) []Clear {
	if !g.mapped {
		return nil
	}
	var laid []Clear
	for _, c := range strips {
		width := c.Width().SI()
		if !(width > shortest) || math.IsInf(width, 0) {
			continue
		}
		before := len(g.kept)
		sin, cos := math.Sincos(c.Bearing.SI())
		outers, _ := g.tract.sorted()
		for _, ring := range outers {
			for i := 1; i < len(ring); i++ {
				if side, ok := beside(ring[i-1], ring[i], orb.Point{sin, cos}, width); ok {
					g.kept = append(g.kept, side)
				}
			}
		}
		if len(g.kept) > before {
			laid = append(laid, c)
		}
	}
	if len(laid) > 0 {
		g.forbidden = append(g.forbidden, g.kept...)
		g.convex = false
		r.Assume("/field/neighbors", "the strip for a neighbor lies along every side of the tract that looks toward its bearing", "draw the strip as a keep-out, if it should lie elsewhere", sourceOwn)
	}
	return laid
}

// beside reports the rectangle along a side of an outer ring, and whether the side faces a direction.
func beside(a, b, toward orb.Point, width float64) (region, bool) {
	x, y := b[0]-a[0], b[1]-a[1]
	length := math.Hypot(x, y)
	if length == 0 {
		return nil, false
	}
	x, y = x/length, y/length
	// Rings run counter-clockwise, so outward is to the right of the way.
	if y*toward[0]-x*toward[1] < math.Cos(facing.SI()) {
		return nil, false
	}
	corner := func(p orb.Point, along, out float64) orb.Point {
		return orb.Point{p[0] + along*x + out*y, p[1] + along*y - out*x}
	}
	first := corner(a, -width, -width)
	return region{{first, corner(b, width, -width), corner(b, width, width), corner(a, -width, width), first}}, true
}

// cleared says what is left unsprayed for neighbors.
func (r *report) cleared(p Plan) {
	for _, c := range p.Cleared {
		r.Find(finding.Finding{
			Code: CodeStripUnsprayed, Severity: finding.Caution, Subject: fmt.Sprintf("/field/neighbors/%d", c.Neighbor),
			Message: fmt.Sprintf("The plan leaves a strip of %s unsprayed along the sides that face the %s downwind, so that the label's buffer of %s is kept: %s in all. Check on the ground that the last swath ends that far from it, and spray the strip another day, when the wind blows the other way.",
				feet(c.Width()), c.Kind, feet(c.Buffer), acres(p.Accounting.Strips)),
			Measured: p.Accounting.Strips, Source: sourceOwn,
		})
	}
}
