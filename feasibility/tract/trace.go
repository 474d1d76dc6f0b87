package tract

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"tractcheck/feasibility/units"
)

// sorted parts rings into outer ones, counter-clockwise, and holes.
func (r region) sorted() (outers, holes region) {
	for _, ring := range r {
		if ring.Orientation() == orb.CCW {
			outers = append(outers, ring)
		} else {
			holes = append(holes, ring)
		}
	}
	return outers, holes
}

// around reports which outer ring is the smallest one around a hole; -1 where none is.
func around(outers region, hole orb.Ring) int {
	best, least := -1, math.Inf(1)
	for i, ring := range outers {
		if area := planar.Area(ring); area < least && within(ring, hole) {
			best, least = i, area
		}
	}
	return best
}

// cell is a stretch of ground between two chains of sides, both rising in n.
type cell struct{ left, right []orb.Point } // in the frame: u, n

// trace reports the ground made of the tract and other regions by a rule on the stretches of one
// line, as polygons that may touch but do not lap over each other. Between two heights where sides
// begin, end or meet, every stretch is a trapezoid; those that continue each other become one.
func trace(f frame, tract region, others []region, rule func(inside, taken, out []interval) []interval) []orb.Ring {
	walks := make([]scan, len(others))
	var every []edge
	for i, rings := range others {
		walks[i] = scan{edges: f.edges(rings)}
		every = append(every, walks[i].edges...)
	}
	walk := scan{edges: f.edges(tract)}
	heights := events(every, walk.edges)
	var open []cell
	var done []orb.Ring
	for i := 1; i < len(heights); i++ {
		low, high := heights[i-1], heights[i]
		if high-low < closed {
			continue
		}
		active := walk.between(low, high)
		at := func(n float64) []interval {
			var taken []interval
			for k := range walks {
				taken = walks[k].inside(walks[k].between(low, high), n, taken)
			}
			return rule(union(walk.inside(active, n, nil)), union(taken), nil)
		}
		inset := (high - low) * 1e-6
		open, done = carry(f, open, done, at(low+inset), at(high-inset), low, high)
	}
	for _, c := range open {
		done = c.close(f, done)
	}
	return done
}

// closed is the distance under which two corners of traced ground are one, m. Own choice: a
// millimeter is far below what a map of seven decimals shows.
const closed = 1e-3

// carry takes the cells across one slab.
func carry(f frame, open []cell, done []orb.Ring, bottom, top []interval, low, high float64) ([]cell, []orb.Ring) {
	if len(bottom) != len(top) { // dust of rounding; the slab is left out
		bottom, top = nil, nil
	}
	var next []cell
	used := make([]bool, len(open))
	for i, b := range bottom {
		t := top[i]
		c := cell{left: []orb.Point{{b.from, low}}, right: []orb.Point{{b.to, low}}}
		k := slices.IndexFunc(open, func(c cell) bool { return c.meets(b, low) })
		if k >= 0 && !used[k] {
			c, used[k] = open[k], true
		}
		c.left, c.right = extend(c.left, orb.Point{t.from, high}), extend(c.right, orb.Point{t.to, high})
		next = append(next, c)
	}
	for k, c := range open {
		if !used[k] {
			done = c.close(f, done)
		}
	}
	return next, done
}

// meets reports whether a cell ends where a stretch begins.
func (c cell) meets(b interval, n float64) bool {
	left, right := c.left[len(c.left)-1], c.right[len(c.right)-1]
	return math.Abs(left[1]-n) < 2*closed && math.Abs(left[0]-b.from) < closed && math.Abs(right[0]-b.to) < closed
}

// extend adds a corner to a chain; a corner on the straight way between its neighbors is left out.
func extend(chain []orb.Point, p orb.Point) []orb.Point {
	if n := len(chain); n >= 2 {
		a, b := chain[n-2], chain[n-1]
		if rise := p[1] - a[1]; rise > 0 && math.Abs(a[0]+(p[0]-a[0])*(b[1]-a[1])/rise-b[0]) < closed {
			chain[n-1] = p
			return chain
		}
	}
	return append(chain, p)
}

// close makes a ring of a cell, counter-clockwise; one without area is left out.
func (c cell) close(f frame, done []orb.Ring) []orb.Ring {
	var ring orb.Ring
	add := func(p orb.Point) {
		at := f.back(p[0], p[1])
		if len(ring) == 0 || planar.Distance(ring[len(ring)-1], at) > closed {
			ring = append(ring, at)
		}
	}
	for _, p := range c.right {
		add(p)
	}
	for i := range c.left {
		add(c.left[len(c.left)-1-i])
	}
	if len(ring) > 1 && planar.Distance(ring[0], ring[len(ring)-1]) <= closed {
		ring = ring[:len(ring)-1]
	}
	if len(ring) < 3 {
		return done
	}
	ring = append(ring, ring[0])
	if planar.Area(ring) < closed {
		return done
	}
	return append(done, ring)
}

// Downwind draws the ground that lies within a distance of the tract on the wind's way out of it,
// without the tract: where spray that leaves the tract comes down first. It is empty where the
// field has no place on the map.
func (p Plan) Downwind(distance units.Length, from units.Bearing) []Polygon {
	d := p.drawn
	if d == nil || !d.ground.mapped || !(distance > closed) || !units.Finite(distance) {
		return nil
	}
	sin, cos := math.Sincos(from.Opposite().SI())
	by := orb.Point{sin * distance.SI(), cos * distance.SI()}
	var swept []region
	for _, ring := range d.ground.tract {
		for i := 1; i < len(ring); i++ {
			a, b := ring[i-1], ring[i]
			// A side is left by the wind where it blows to its right: rings keep the tract to their left.
			if (b[0]-a[0])*by[1]-(b[1]-a[1])*by[0] < 0 {
				c, e := orb.Point{b[0] + by[0], b[1] + by[1]}, orb.Point{a[0] + by[0], a[1] + by[1]}
				swept = append(swept, region{{a, b, c, e, a}})
			}
		}
	}
	rings := trace(newFrame(math.Atan2(by[1], by[0])), d.ground.tract, swept, func(inside, taken, out []interval) []interval {
		return subtract(taken, inside, out)
	})
	return d.ground.each(rings)
}

// strips draws the ground of the tract that is kept clear for neighbors.
func (g ground) strips() []Polygon {
	if len(g.kept) == 0 {
		return nil
	}
	return g.each(trace(newFrame(0), g.tract, g.kept, func(inside, taken, out []interval) []interval {
		return subtract(inside, subtract(inside, taken, nil), out)
	}))
}

// each makes a polygon of every ring.
func (g ground) each(rings []orb.Ring) []Polygon {
	var out []Polygon
	for _, ring := range rings {
		out = append(out, Polygon{g.ring(ring)})
	}
	return out
}
