package tract

import (
	"math"

	"github.com/paulmach/orb"
)

// hedge is sides of rings in their order, with boxes round runs of them, halves of halves, so that those
// near a place are found without looking at each.
type hedge struct {
	sides  []strut
	clumps []clump
}

// clump is a box round the sides from first to before last.
type clump struct {
	middle      orb.Point
	half        [2]float64 // half its extent along x and y
	first, last int
	past        int // the box to go on with where none of these sides matters
}

// inClump is how many sides are looked at one by one. Own choice.
const inClump = 4

// plant makes a hedge of rings of sides; a run of sides in one box is of one ring.
func plant(rings ...[]strut) hedge {
	var h hedge
	for _, ring := range rings {
		first := len(h.sides)
		h.sides = append(h.sides, ring...)
		h.grow(first, len(h.sides))
	}
	return h
}

// plantRegion makes a hedge of the rings of a region.
func plantRegion(rings region) hedge {
	var list [][]strut
	for _, ring := range rings {
		sides := make([]strut, 0, len(ring))
		for i := 1; i < len(ring); i++ {
			sides = append(sides, strut{ring[i-1], ring[i]})
		}
		list = append(list, sides)
	}
	return plant(list...)
}

// grow adds the box round a run of sides, then those round its halves.
func (h *hedge) grow(first, last int) {
	if first >= last {
		return
	}
	low, high := h.sides[first].a, h.sides[first].a
	for _, s := range h.sides[first:last] {
		for _, p := range [2]orb.Point{s.a, s.b} {
			low = orb.Point{min(low[0], p[0]), min(low[1], p[1])}
			high = orb.Point{max(high[0], p[0]), max(high[1], p[1])}
		}
	}
	at := len(h.clumps)
	h.clumps = append(h.clumps, clump{
		middle: orb.Point{(low[0] + high[0]) / 2, (low[1] + high[1]) / 2},
		half:   [2]float64{(high[0] - low[0]) / 2, (high[1] - low[1]) / 2},
		first:  first, last: last,
	})
	if last-first > inClump {
		middle := (first + last) / 2
		h.grow(first, middle)
		h.grow(middle, last)
	}
	h.clumps[at].past = len(h.clumps)
}

// extent reports a box in a frame, a hair wider: rounding takes nothing off it.
func (b *clump) extent(f frame) (u, n interval) {
	const hair = 1e-6 // m
	cu, cn := f.turn(b.middle)
	sin, cos := math.Abs(f.sin), math.Abs(f.cos)
	hu, hn := b.half[0]*cos+b.half[1]*sin+hair, b.half[0]*sin+b.half[1]*cos+hair
	return interval{cu - hu, cu + hu}, interval{cn - hn, cn + hn}
}

// near visits the sides that may lie within a distance of a stretch at n; the stretch may shrink on the
// way, and where nothing is left of it the search ends. It reports how many sides and boxes it looked at.
func (h *hedge) near(f frame, stretch *interval, n, distance float64, visit func(side int)) (steps int) {
	for i := 0; i < len(h.clumps) && stretch.from < stretch.to; {
		b := &h.clumps[i]
		steps++
		u, across := b.extent(f)
		if across.from > n+distance || across.to < n-distance || u.from > stretch.to+distance || u.to < stretch.from-distance {
			i = b.past
			continue
		}
		if i++; i == b.past {
			for k := b.first; k < b.last && stretch.from < stretch.to; k++ {
				steps++
				visit(k)
			}
		}
	}
	return steps
}

// shadow adds the stretches along a swath, between two n, under which the hedge's region has ground, as
// far as they lie within one stretch; see bar.shadow. Of sides wholly before the stretch it matters only
// whether a line is inside of the region when it gets there: whether they cross it an odd number of times.
func (h *hedge) shadow(f frame, along interval, low, high float64, s *shade, out []interval) []interval {
	slack := (high - low) * closeEnough
	low, high = low+slack, high-slack
	s.sides, s.atLow.us, s.atHigh.us = s.sides[:0], s.atLow.us[:0], s.atHigh.us[:0]
	var oddLow, oddHigh bool
	for i := 0; i < len(h.clumps); {
		b := &h.clumps[i]
		s.steps++
		u, across := b.extent(f)
		switch {
		case across.from > high || across.to < low || u.from > along.to:
			i = b.past
		case u.to < along.from:
			_, begins := f.turn(h.sides[b.first].a)
			_, ends := f.turn(h.sides[b.last-1].b)
			oddLow = oddLow != ((begins <= low) != (ends <= low))
			oddHigh = oddHigh != ((begins <= high) != (ends <= high))
			i = b.past
		default:
			if i++; i == b.past {
				s.add(f, h.sides[b.first:b.last], low, high)
			}
		}
	}
	for i := range s.sides {
		out = append(out, s.sides[i].within(low, high))
	}
	out = s.atLow.stretches(s.sides, low, oddLow, along, out)
	return s.atHigh.stretches(s.sides, high, oddHigh, along, out)
}

// shade is what shadow works with, kept for its room.
type shade struct {
	sides         []edge
	atLow, atHigh scan
	steps         int
}

// add adds the sides that reach between two n.
func (s *shade) add(f frame, sides []strut, low, high float64) {
	s.steps += len(sides)
	for _, side := range sides {
		if e := barSide(f, side.a, side.b); e.low <= high && e.high >= low {
			s.sides = append(s.sides, e)
		}
	}
}

// stretches reports the stretches of the line at n that lie inside, as far as they lie along another, where
// sides wholly before that one cross the line an odd number of times or not. Those wholly past it are not
// among the sides.
func (s *scan) stretches(sides []edge, n float64, odd bool, along interval, out []interval) []interval {
	if odd {
		s.us = append(s.us, along.from-1)
	}
	for i := range sides {
		if e := &sides[i]; e.low <= n && n < e.high {
			s.us = append(s.us, e.u(n))
		}
	}
	if len(s.us)%2 == 1 {
		s.us = append(s.us, along.to+1)
	}
	sortFew(s.us)
	for i := 1; i < len(s.us); i += 2 {
		out = append(out, interval{s.us[i-1], s.us[i]})
	}
	return out
}
