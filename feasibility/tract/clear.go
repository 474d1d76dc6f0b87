package tract

import (
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

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

// laid reports the width that is laid, in m; nothing where it is dust or endless.
func (c Clear) laid() float64 {
	width := c.Width().SI()
	if !(width > shortest) || math.IsInf(width, 0) {
		return 0
	}
	return width
}

// facingWithin is how far off a side's outward direction may lie from the neighbor's bearing for the side
// to face it. Own choice: only its bearing from the field is known, not its place, so every side that
// looks toward it at all is taken, short of those that run past it.
const facingWithin = 75 * units.Degree

// Own choices: sides that bend by less than this share of the strip's width are cleared together, and
// there are at most mostStrips of such groups; a boundary more ragged than that gets wider strips.
const (
	bendTogether = 0.02
	mostStrips   = 40
	mostTogether = 512 // corners in one group, which bounds the work
	stepsOfStrip = 100 // that a group is counted as, since every line minds its rectangle
)

// keepClear lays the strips: along every outer side that faces the neighbor a rectangle, as wide as
// asked to both hands and as far beyond both ends, so that no ground within the width of the side is
// left out. They are forbidden to swaths as keep-outs are, but are counted as unsprayed.
func (g *ground) keepClear(strips []Clear, r *report) []Clear {
	if !g.mapped {
		return nil
	}
	var laid []Clear
	for _, c := range strips {
		if g.work.over() {
			break
		}
		if along := g.facing(c.Bearing, c.laid()); len(along) > 0 {
			g.kept, laid = append(slices.Clip(g.kept), along...), append(laid, c)
		}
	}
	if len(laid) > 0 {
		g.forbidden = append(slices.Clip(g.forbidden), g.kept...) // the ground of other strips keeps its own list
		g.convex = false
		r.Assume("/field/neighbors", "the strip for a neighbor lies along every side of the tract that looks toward its bearing", "draw the strip as a keep-out, if it should lie elsewhere", sourceOwn)
	}
	return laid
}

// facing lays rectangles along the outer sides that face a bearing.
func (g *ground) facing(bearing units.Bearing, width float64) []region {
	if !(width > 0) {
		return nil
	}
	sin, cos := math.Sincos(bearing.SI())
	outers, _ := g.tract.sorted()
	most := max(mostStrips, len(outers))
	for bend := bendTogether * width; ; bend *= 2 {
		var out []region
		if bend > farthest {
			most = math.MaxInt
		}
		for _, ring := range outers {
			if len(out) <= most {
				out = g.work.along(ring, orb.Point{sin, cos}, width, bend, most, out)
			}
		}
		if len(out) <= most || g.work.over() {
			g.work.add(stepsOfStrip * len(out))
			return out
		}
	}
}

// along adds the rectangles along one ring: from a side that faces on, as far as the corners stay
// within a bend of the straight way, to the last side of those that faces. It stops where there are more
// than most.
func (t *tally) along(ring orb.Ring, toward orb.Point, width, bend float64, most int, out []region) []region {
	t.add(len(ring))
	for first := 0; first < len(ring)-1 && len(out) <= most && !t.over(); {
		if !faces(ring[first], ring[first+1], toward) {
			first++
			continue
		}
		last, off := first+1, 0.0
		for next := last + 1; next < len(ring) && next-first <= mostTogether; next++ {
			t.add(next - first)
			away := strays(ring[first:next+1], bend)
			if away > bend {
				break
			}
			if faces(ring[next-1], ring[next], toward) {
				last, off = next, away
			}
		}
		out = append(out, region{beside(ring[first], ring[last], width+off, width+off)})
		first = last
	}
	return out
}

// strays reports how far the corners of a chain lie from the straight way between its ends, at most;
// past a bound it stops.
func strays(chain []orb.Point, bound float64) float64 {
	most := 0.0
	for _, p := range chain[1 : len(chain)-1] {
		if most = max(most, planar.DistanceFromSegment(chain[0], chain[len(chain)-1], p)); most > bound {
			break
		}
	}
	return most
}

// faces reports whether a side of a ring looks toward a direction. Rings run counter-clockwise, so
// outward is to the right of the way.
func faces(a, b, toward orb.Point) bool {
	x, y := b[0]-a[0], b[1]-a[1]
	return y*toward[0]-x*toward[1] >= math.Cos(facingWithin.SI())*math.Hypot(x, y)
}

// beside reports the rectangle along a straight way, counter-clockwise: so far beyond both ends and to
// both hands.
func beside(a, b orb.Point, beyond, aside float64) orb.Ring {
	x, y := b[0]-a[0], b[1]-a[1]
	if length := math.Hypot(x, y); length > 0 {
		x, y = x/length, y/length
	} else {
		x, y = 1, 0
	}
	corner := func(p orb.Point, along, left float64) orb.Point {
		return orb.Point{p[0] + along*x - left*y, p[1] + along*y + left*x}
	}
	first := corner(a, -beyond, -aside)
	return orb.Ring{first, corner(b, beyond, -aside), corner(b, beyond, aside), corner(a, -beyond, aside), first}
}

// cleared says what is left unsprayed for neighbors.
func (r *report) cleared(p *Plan) {
	for _, c := range p.Cleared {
		r.Find(finding.Finding{
			Code: CodeStripUnsprayed, Severity: finding.Caution, Subject: fmt.Sprintf("/field/neighbors/%d", c.Neighbor),
			Message: fmt.Sprintf("The plan leaves a strip of %s unsprayed along the sides that face the %s downwind, so that the label's buffer of %s is kept: %s in all. Check on the ground that the last swath ends that far from it, and spray the strip another day, when the wind blows the other way.",
				feet(c.Width()), c.Kind, feet(c.Buffer), acres(p.Accounting.Strips)),
			Measured: p.Accounting.Strips, Source: sourceOwn,
		})
	}
}
