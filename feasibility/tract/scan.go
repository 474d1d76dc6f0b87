package tract

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// frame turns the plane so that swath lines run along u; n counts across them.
type frame struct{ cos, sin float64 }

// newFrame makes a frame for lines at an angle, in radians counter-clockwise from east.
func newFrame(angle float64) frame {
	sin, cos := math.Sincos(angle)
	return frame{cos: cos, sin: sin}
}

// turn brings a point of the plane into the frame.
func (f frame) turn(p orb.Point) (u, n float64) {
	return p[0]*f.cos + p[1]*f.sin, p[1]*f.cos - p[0]*f.sin
}

// back brings a point of the frame onto the plane.
func (f frame) back(u, n float64) orb.Point {
	return orb.Point{u*f.cos - n*f.sin, u*f.sin + n*f.cos}
}

// interval is a stretch along a line.
type interval struct{ from, to float64 }

// edge is one side of a ring in a frame: u = at + slope (n - low) for low <= n < high. Edges
// along the lines have no height and are left out.
type edge struct {
	low, high float64
	at, slope float64
	upward    bool
}

// u reports where the edge stands at n.
func (e *edge) u(n float64) float64 { return e.at + e.slope*(n-e.low) }

// edges lists the edges of a region by rising low end.
func (f frame) edges(rings region) []edge {
	return byLow(f.between(rings, math.Inf(-1), math.Inf(1), make([]edge, 0, rings.corners())))
}

// between lists the edges of a region that have a part strictly between two n, in no order.
func (f frame) between(rings region, low, high float64, out []edge) []edge {
	for _, ring := range rings {
		if len(ring) == 0 {
			continue
		}
		u0, n0 := f.turn(ring[0])
		for _, p := range ring[1:] {
			u1, n1 := f.turn(p)
			e := edge{low: n0, high: n1, at: u0, slope: (u1 - u0) / (n1 - n0), upward: n1 > n0}
			if !e.upward {
				e.low, e.high, e.at = n1, n0, u1
			}
			if e.low < e.high && e.high > low && e.low < high && !math.IsInf(e.slope, 0) {
				out = append(out, e)
			}
			u0, n0 = u1, n1
		}
	}
	return out
}

// byLow sorts edges by rising low end.
func byLow(edges []edge) []edge {
	slices.SortFunc(edges, func(a, b edge) int { return rising(a.low, b.low) })
	return edges
}

// rising compares what is known to be numbers, in half the time of cmp.Compare.
func rising(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	default:
		return 0
	}
}

// scan walks over edges with n rising, keeping those that can still matter.
type scan struct {
	edges  []edge // by low
	active []edge
	ends   float64 // where the first of the active ones ends
	us     []float64
	marks  []passing
	order  order
}

// usual is how many edges a line seldom meets more of.
const usual = 8

// newScan readies a walk over edges by low, with room for the usual line.
func newScan(edges []edge) scan {
	return scan{edges: edges, active: make([]edge, 0, min(len(edges), usual))}
}

// passing is where a line crosses an edge.
type passing struct {
	u      float64
	upward bool
}

// wound reports the stretches of the line at n that lie inside of at least one of many rings that run
// counter-clockwise, from the left: into one across a downward edge, out of it across an upward one.
func (s *scan) wound(active []edge, n float64, out []interval) []interval {
	s.marks = s.marks[:0]
	for i := range active {
		if e := &active[i]; e.low <= n && n < e.high {
			s.marks = append(s.marks, passing{e.u(n), e.upward})
		}
	}
	slices.SortFunc(s.marks, func(a, b passing) int { return rising(a.u, b.u) })
	deep, from := 0, 0.0
	for _, m := range s.marks {
		if m.upward {
			if deep--; deep == 0 {
				out = append(out, interval{from, m.u})
			}
			continue
		}
		if deep++; deep == 1 {
			from = m.u
		}
	}
	return out
}

// between reports the edges that have a part strictly between two n. From one call to the next
// neither bound may fall.
func (s *scan) between(low, high float64) []edge {
	if len(s.active) == 0 && (len(s.edges) == 0 || s.edges[0].low >= high) {
		return nil
	}
	if len(s.active) > 0 && s.ends <= low {
		done := s.active
		s.active = s.active[:0]
		for _, e := range done {
			s.keep(e, low)
		}
	}
	for len(s.edges) > 0 && s.edges[0].low < high {
		s.keep(s.edges[0], low)
		s.edges = s.edges[1:]
	}
	return s.active
}

// steady reports whether the edges of the last swath, from a low on, all stand upright and are those of the
// next one up to a high, across the whole of both: the same then lies inside.
func (s *scan) steady(low, high float64) bool {
	if len(s.active) == 0 || len(s.edges) > 0 && s.edges[0].low < high {
		return false
	}
	for i := range s.active {
		if e := &s.active[i]; e.slope != 0 || e.low > low || e.high < high {
			return false
		}
	}
	return true
}

// keep makes an edge active where it reaches past n.
func (s *scan) keep(e edge, n float64) {
	if e.high <= n {
		return
	}
	if len(s.active) == 0 || e.high < s.ends {
		s.ends = e.high
	}
	s.active = append(s.active, e)
}

// inside reports the stretches of the line at n that lie inside, by the even-odd rule: a point is
// inside where the line has crossed an odd number of edges before it. Many edges are put in the order in
// which the line crosses them, which is nearly that of the next line.
func (s *scan) inside(active []edge, n float64, out []interval) []interval {
	if len(active) == 0 {
		return out
	}
	s.us = s.us[:0]
	for i := range active {
		if e := &active[i]; e.low <= n && n < e.high {
			s.us = append(s.us, e.u(n))
		}
	}
	if len(s.us) > few {
		s.sortMany(active, n)
	} else {
		sortFew(s.us)
	}
	for i := 1; i < len(s.us); i += 2 {
		out = append(out, interval{s.us[i-1], s.us[i]})
	}
	return out
}

// sortMany sorts the places where a line crosses edges. Where they are far from sorted the edges are put in
// order for the next line, unless that was in vain before.
func (s *scan) sortMany(active []edge, n float64) {
	if s.order == inVain {
		slices.Sort(s.us)
		return
	}
	left := len(s.us) // places moved, at most
	for i := 1; i < len(s.us) && left > 0; i++ {
		x, k := s.us[i], i
		for ; k > 0 && s.us[k-1] > x && left > 0; left-- {
			s.us[k] = s.us[k-1]
			k--
		}
		s.us[k] = x
	}
	switch {
	case left > 0:
		s.order = unknown
	case s.order == ordered:
		s.order = inVain
		slices.Sort(s.us)
	default:
		s.order = ordered
		slices.Sort(s.us)
		slices.SortFunc(active, func(a, b edge) int { return rising(a.at+a.slope*(n-a.low), b.at+b.slope*(n-b.low)) })
	}
}

// order is what is known of the order of a scan's edges.
type order int8

const (
	unknown order = iota
	ordered       // just put in the order of the line before
	inVain        // that did not help
)

// few is how many things are sorted by putting each in its place. On a line there are seldom more.
const few = 24

// sortFew sorts numbers.
func sortFew(list []float64) {
	if len(list) > few {
		slices.Sort(list)
		return
	}
	for i := 1; i < len(list); i++ {
		x, k := list[i], i
		for k > 0 && list[k-1] > x {
			list[k], k = list[k-1], k-1
		}
		list[k] = x
	}
}

// sortIntervals sorts stretches by where they begin.
func sortIntervals(list []interval) {
	if len(list) > few {
		slices.SortFunc(list, func(a, b interval) int { return rising(a.from, b.from) })
		return
	}
	for i := 1; i < len(list); i++ {
		x, k := list[i], i
		for k > 0 && list[k-1].from > x.from {
			list[k], k = list[k-1], k-1
		}
		list[k] = x
	}
}

// union sorts stretches and joins those that touch.
func union(list []interval) []interval {
	if len(list) < 2 {
		return list
	}
	sortIntervals(list)
	out := list[:0]
	for _, next := range list {
		if last := len(out) - 1; last >= 0 && next.from <= out[last].to {
			out[last].to = max(out[last].to, next.to)
			continue
		}
		out = append(out, next)
	}
	return out
}

// subtract takes stretches away from others; both are sorted and do not overlap among themselves.
func subtract(from, away, out []interval) []interval {
	k := 0
	for _, rest := range from {
		for k > 0 && away[k-1].to > rest.from {
			k--
		}
		for ; k < len(away) && away[k].from < rest.to; k++ {
			if away[k].to <= rest.from {
				continue
			}
			if away[k].from > rest.from {
				out = append(out, interval{rest.from, away[k].from})
			}
			rest.from = away[k].to
		}
		if rest.from < rest.to {
			out = append(out, rest)
		}
	}
	return out
}

// common reports the length that two sorted lists of stretches share.
func common(a, b []interval) float64 {
	shared := 0.0
	for i, k := 0, 0; i < len(a) && k < len(b); {
		shared += max(0, min(a[i].to, b[k].to)-max(a[i].from, b[k].from))
		if a[i].to < b[k].to {
			i++
		} else {
			k++
		}
	}
	return shared
}
