package tract

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
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
	var open []cell
	var done []orb.Ring
	slabs(f, tract, others, rule, func(bottom, top []interval, low, high float64) {
		open, done = carry(f, open, done, bottom, top, low, high)
	})
	for _, c := range open {
		done = c.close(f, done)
	}
	return done
}

// slabs visits the ground made by a rule slab by slab, with n rising: the stretches just above the
// bottom of each and just below its top.
func slabs(f frame, tract region, others []region, rule func(inside, taken, out []interval) []interval, visit func(bottom, top []interval, low, high float64)) {
	walks := make([]scan, len(others))
	var every []edge
	for i, rings := range others {
		walks[i] = scan{edges: f.edges(rings)}
		every = append(every, walks[i].edges...)
	}
	walk := scan{edges: f.edges(tract)}
	heights := rims(walk.edges)
	if len(others) > 0 {
		heights = (*tally)(nil).events(every, walk.edges)
	}
	var inside, taken []interval
	var made [2][]interval
	for i := 1; i < len(heights); i++ {
		low, high := heights[i-1], heights[i]
		if high-low < closed {
			continue
		}
		active := walk.between(low, high)
		inset := (high - low) * 1e-6
		for k, n := range [2]float64{low + inset, high - inset} {
			taken = taken[:0]
			for j := range walks {
				taken = walks[j].inside(walks[j].between(low, high), n, taken)
			}
			inside = union(walk.inside(active, n, inside[:0]))
			made[k] = rule(inside, union(taken), made[k][:0])
		}
		visit(made[0], made[1], low, high)
	}
}

// rims lists the heights where the edges of one region begin and end, rising, each once. Its edges meet
// nowhere else.
func rims(edges []edge) []float64 {
	out := make([]float64, 0, 2*len(edges))
	for _, e := range edges {
		out = append(out, e.low, e.high)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// closed is the distance under which two corners of traced ground are one, m. Own choice: a
// millimeter is far below what a map of seven decimals shows.
const closed = 1e-3

// carry takes the cells across one slab. Cells and stretches stand in order from left to right.
func carry(f frame, open []cell, done []orb.Ring, bottom, top []interval, low, high float64) ([]cell, []orb.Ring) {
	if len(bottom) != len(top) { // dust of rounding; the slab is left out
		bottom, top = nil, nil
	}
	var next []cell
	used := make([]bool, len(open))
	first := 0 // the first cell that may meet this stretch or a later one
	for i, b := range bottom {
		t := top[i]
		for first < len(open) && open[first].from() <= b.from-closed {
			first++
		}
		k := first
		for k < len(open) && open[k].from() < b.from+closed && !open[k].meets(b, low) {
			k++
		}
		var c cell
		if k < len(open) && open[k].from() < b.from+closed && !used[k] {
			c, used[k] = open[k], true
		} else {
			c = cell{left: []orb.Point{{b.from, low}}, right: []orb.Point{{b.to, low}}}
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

// from is how far left a cell has come.
func (c cell) from() float64 { return c.left[len(c.left)-1][0] }

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

// strips draws the ground of the tract that is kept clear for neighbors.
func (g ground) strips() []Polygon {
	if len(g.kept) == 0 {
		return nil
	}
	return g.each(trace(newFrame(0), g.tract, g.kept, func(inside, taken, out []interval) []interval {
		return subtract(inside, subtract(inside, taken, nil), out)
	}))
}

// each makes a polygon of every ring, or more where it lies across the 180th meridian.
func (g ground) each(rings []orb.Ring) []Polygon {
	var out []Polygon
	for _, ring := range rings {
		out = append(out, Polygon{g.ring(ring)})
	}
	return cut(out)
}
