package tract

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// band is the headland: the ground within some swaths of the outer sides, sprayed by passes that run
// along them. Swath lines end where it begins. The zero band is none.
type band struct {
	width  float64 // m
	sides  []strut // of the outer rings
	laps   []lap
	length float64 // of the laps, m
}

// lap is one straight piece of a headland pass, in flying order.
type lap struct {
	ring, pass int // which outer ring and which pass round it, from 0
	from, to   orb.Point
}

// strut is a straight line between two points.
type strut struct{ a, b orb.Point }

// Own choices: a headland pass follows the edge to a twentieth of a swath, and has at most mostSides
// sides, which bounds the work; a more ragged edge is followed less closely. Where laying the passes takes
// more than mostMown steps, some tenths of a second, there are none.
const (
	followsWithin = 0.05
	mostSides     = 1_000
	mostMown      = 20_000_000 // steps of a mower: sides, boxes round sides, and laps looked at
)

// headlands lays passes round the edge of the ground: half a swath inside, then a swath further in each.
// Every side is moved inward; what then lies nearer to any other side is cut off, so that corners
// and narrow necks come out right, and so is what would spray holes, keep-outs and strips. Round a
// corner that points inward a pass is drawn on, to where the next one begins. Round an edge so ragged that
// this takes too many steps no passes are laid.
func (g *ground) headlands(passes int, swath float64) {
	rings := g.followed(followsWithin * swath)
	b := band{width: float64(passes) * swath}
	for _, ring := range rings {
		for i := 1; i < len(ring); i++ {
			b.sides = append(b.sides, strut{ring[i-1], ring[i]})
		}
	}
	m := newMower(g, &b, swath)
	first := 0
	var shut []int
	for k, ring := range rings {
		barred := make([]int, len(ring)-1)
		for pass := range passes {
			if m.round(k, pass, first, barred); m.steps > mostMown {
				g.work.add(m.steps)
				return
			}
		}
		for i, times := range barred {
			if times == passes {
				shut = append(shut, first+i)
			}
		}
		first += len(ring) - 1
	}
	g.work.add(m.steps)
	// Along a side where a strip or a keep-out takes the place of every pass there is no headland, and the
	// lines go up to what lies there.
	for i := len(shut) - 1; i >= 0; i-- {
		b.sides = slices.Delete(b.sides, shut[i], shut[i]+1)
	}
	for _, l := range b.laps {
		b.length += planar.Distance(l.from, l.to)
	}
	if b.length > 0 {
		g.band = b
	}
}

// reach reports how far a pass is drawn on past a corner that points inward, to where it meets the
// next one: d tan(turn/2), or d at most. Past other corners it is not.
func reach(from, to strut, inward float64) float64 {
	x0, y0, x1, y1 := from.b[0]-from.a[0], from.b[1]-from.a[1], to.b[0]-to.a[0], to.b[1]-to.a[1]
	turn := math.Atan2(x0*y1-y0*x1, x0*x1+y0*y1)
	if turn >= 0 {
		return 0
	}
	return inward * min(1, math.Tan(-turn/2))
}

// in brings a strut into a frame: its points are u, n.
func (s strut) in(f frame) strut {
	var out strut
	out.a[0], out.a[1] = f.turn(s.a)
	out.b[0], out.b[1] = f.turn(s.b)
	return out
}

// near adds the stretch of the line at n that lies nearer to a strut of the frame than a distance. The
// ground near a strut is bounded by two lines beside it and two half circles, so the stretch is between the
// least and the most of where those cross the line.
func (s strut) near(n, distance float64, out []interval) []interval {
	low, high := min(s.a[1], s.b[1]), max(s.a[1], s.b[1])
	if n <= low-distance || n >= high+distance {
		return out
	}
	from, to := math.Inf(1), math.Inf(-1)
	for _, p := range [2]orb.Point{s.a, s.b} {
		if off := math.Abs(n - p[1]); off < distance {
			half := math.Sqrt((distance - off) * (distance + off))
			from, to = min(from, p[0]-half), max(to, p[0]+half)
		}
	}
	du, dn := s.b[0]-s.a[0], s.b[1]-s.a[1]
	if length := math.Hypot(du, dn); length > 0 {
		for _, hand := range [2]float64{distance / length, -distance / length} {
			// The line beside the strut starts at a + hand (-dn, du).
			if share := (n - s.a[1] - hand*du) / dn; share >= 0 && share <= 1 {
				u := s.a[0] - hand*dn + share*du
				from, to = min(from, u), max(to, u)
			}
		}
	}
	if from < to {
		out = append(out, interval{from, to})
	}
	return out
}

// shore is a band in a frame, met by swaths of rising n.
type shore struct{ low, middle, high margin }

// in brings a band into a frame.
func (b band) in(f frame) shore {
	m := margin{width: b.width}
	if !(b.width > 0) {
		return shore{m, m, m}
	}
	m.waits = make([]strut, 0, len(b.sides))
	for _, s := range b.sides {
		s = s.in(f)
		if s.a[1] > s.b[1] {
			s.a, s.b = s.b, s.a
		}
		m.waits = append(m.waits, s)
	}
	slices.SortFunc(m.waits, func(a, b strut) int { return cmp.Compare(a.a[1], b.a[1]) })
	return shore{m, m, m}
}

// across adds the stretches of a swath's line that lie in the band. Where a swath meets the headland at a
// slant, its line goes on until both edges of the swath have reached it, so that nothing is left between
// them and a little is sprayed twice; it goes on by one swath at most.
func (s *shore) across(low, middle, high float64, out []interval) []interval {
	if !(s.middle.width > 0) {
		return out
	}
	edges := both(union(s.low.near(low)), union(s.high.near(high)), nil)
	for _, in := range union(s.middle.near(middle)) {
		if shared := both([]interval{in}, edges, nil); len(shared) > 0 {
			in.from = min(shared[0].from, in.from+high-low)
			in.to = max(shared[len(shared)-1].to, in.to-(high-low))
		}
		out = append(out, in)
	}
	return out
}

// both adds the stretches that two sorted lists share.
func both(a, b, out []interval) []interval {
	for i, k := 0, 0; i < len(a) && k < len(b); {
		if from, to := max(a[i].from, b[k].from), min(a[i].to, b[k].to); from < to {
			out = append(out, interval{from, to})
		}
		if a[i].to < b[k].to {
			i++
		} else {
			k++
		}
	}
	return out
}

// margin is one line's view of a band.
type margin struct {
	width  float64
	waits  []strut // by low end
	active []strut
	found  []interval // of the line at hand, kept for its room
}

// near reports the stretches of the line at n that lie in the band. From one call to the next n may not fall.
func (m *margin) near(n float64) []interval {
	for len(m.waits) > 0 && m.waits[0].a[1]-m.width < n {
		m.active, m.waits = append(m.active, m.waits[0]), m.waits[1:]
	}
	left := m.active[:0]
	m.found = m.found[:0]
	for _, s := range m.active {
		if s.b[1]+m.width > n {
			left, m.found = append(left, s), s.near(n, m.width, m.found)
		}
	}
	m.active = left
	return m.found
}
