package tract

import (
	"math"

	"github.com/paulmach/orb"

	"tractcheck/feasibility/units"
)

// Own choices: more lines or pieces than these are not laid one by one.
const (
	mostLines = 20_000
	mostRuns  = 50_000
	shortest  = 1e-6 // m; shorter pieces are rounding dust

	// A thousandth of a swath, under a centimeter, is far below what positioning holds: a tract
	// wider than whole swaths by less takes no further pass, and a swath that reaches into a
	// keep-out by less is clear of it. It keeps the rounding of map coordinates out of the count.
	closeEnough = 1e-3
)

// run is one piece of a swath line with the spray on, from the lower to the higher u.
type run struct {
	line     int     // 1-based
	from, to float64 // u
}

// lane is where lines lie across their course.
type lane struct {
	swath float64
	low   float64 // least n of the tract
	width float64 // extent of the tract across the lines
}

// layout is the swath lines over the ground at one angle.
type layout struct {
	frame frame
	lane
	passes units.Count
	edges  []edge  // of the tract, by low end; none where there are too many lines
	runs   []run   // by line, then along it; empty where coarse
	laps   []lap   // of the headland, in flying order; they count in pieces and length
	pieces float64 // number of runs
	length float64 // of all runs, m
	coarse bool    // too many lines: pieces and length are averages
}

// lay puts swath lines over the ground at an angle.
//
// Passes = ceil(width/swath), short of a thousandth of a swath. The first line runs half a swath inside the lower edge, the next
// ones a swath apart, and the last is pulled in to half a swath inside the far edge, so that the
// excess overlaps the lane before it instead of spilling over the edge. A tract narrower than the
// swath takes one line in its middle. Lines are clipped at the tract's edge by the even-odd rule
// over all its rings, or where the whole swath has reached the headland; holes and keep-outs are
// cleared by the whole swath.
func lay(g *ground, angle, swath float64) layout {
	l := layout{frame: newFrame(angle), lane: lane{swath: swath}}
	l.low, l.width = l.frame.across(g.tract)
	// The lines fill what the headland leaves.
	l.low, l.width = l.low+g.band.width, max(0, l.width-2*g.band.width)
	passes := l.width / swath
	least := units.Count(1)
	if g.band.width > 0 {
		least = 0 // the headland may be all there is
	}
	l.passes = max(least, capped(math.Ceil(passes)))
	if passes < mostLines {
		l.passes = max(least, units.Count(units.Ceil(passes-closeEnough)))
	}
	if l.passes > mostLines || !l.clip(g) {
		l.average(g)
	}
	return l
}

// across reports the least n of the rings and their extent.
func (f frame) across(rings region) (low, width float64) {
	low, high := math.Inf(1), math.Inf(-1)
	for _, ring := range rings {
		for _, p := range ring {
			_, n := f.turn(p)
			low, high = min(low, n), max(high, n)
		}
	}
	return low, high - low
}

// offset reports the n of the middle of a line, counted from 0.
func (l lane) offset(i int) float64 {
	if l.width <= l.swath {
		return l.low + l.width/2
	}
	return l.low + min((float64(i)+0.5)*l.swath, l.width-l.swath/2)
}

// clip fills in the runs; it reports false where there are too many.
func (l *layout) clip(g *ground) bool {
	l.edges = l.frame.edges(g.tract)
	c := clipping{tract: newScan(l.edges), bars: make([]bar, len(g.forbidden)), headland: g.band.in(l.frame)}
	c.tract.us = make([]float64, 0, usual)
	room := make([]interval, usual)
	c.inside, c.kept = room[:0:usual/2], room[usual/2:usual/2]
	for i, rings := range g.forbidden {
		c.bars[i] = newBar(l.frame, rings)
	}
	l.runs = make([]run, 0, int(l.passes)+min(int(l.passes), 16*len(c.bars))+g.tract.corners()/8)
	low := l.low // of the line before
	for i := range int(l.passes) {
		n := l.offset(i)
		high := n + l.swath/2
		if !c.plain() || !c.tract.steady(low, high) {
			c.line(n, l.swath)
		}
		low = n - l.swath/2
		g.work.add(c.steps)
		for _, piece := range c.kept {
			if piece.to-piece.from < shortest {
				continue
			}
			l.runs = append(l.runs, run{line: i + 1, from: piece.from, to: piece.to})
			l.length += piece.to - piece.from
		}
		if len(l.runs) > mostRuns || g.work.over() {
			l.runs, l.length = nil, 0
			return false
		}
	}
	l.laps = g.band.laps
	l.length += g.band.length
	l.pieces = float64(len(l.runs) + len(l.laps))
	return true
}

// clipping is lines clipped one after another, with n rising.
type clipping struct {
	tract           scan
	bars            []bar
	headland        shore
	inside, blocked []interval
	kept            []interval // of the line at hand
	steps           int        // that it took
}

// plain reports whether the edges of the tract alone clip lines.
func (c *clipping) plain() bool { return len(c.bars) == 0 && !(c.headland.middle.width > 0) }

// line clips the line at n.
func (c *clipping) line(n, swath float64) {
	low, high := n-swath/2, n+swath/2
	active := c.tract.between(low, high)
	c.steps = len(active) + len(c.bars) + len(c.headland.middle.active)
	c.inside = c.tract.inside(active, n, c.inside[:0])
	c.blocked = c.headland.across(low, n, high, c.blocked[:0])
	for k := range c.bars {
		if b := &c.bars[k]; b.low < high && b.high > low {
			c.blocked = b.shadow(low, high, c.blocked)
			c.steps += len(b.active)
		}
	}
	c.kept = subtract(union(c.inside), union(c.blocked), c.kept[:0])
}

// average fills in the length and the number of runs where the lines are not laid: the ground
// that is left over the swath, and half the extent of every edge across the lines over the swath
// (each line crosses two edges for every run).
func (l *layout) average(g *ground) {
	l.coarse, l.length = true, 0
	if left := g.area - g.work.overlapArea(l.frame, g.tract, g.forbidden, nil); left > 0 {
		l.length = left / l.swath
	}
	extent := 0.0
	for _, ring := range g.tract {
		for i := 1; i < len(ring); i++ {
			_, n0 := l.frame.turn(ring[i-1])
			_, n1 := l.frame.turn(ring[i])
			extent += math.Abs(n1-n0) / 2
		}
	}
	l.pieces = math.Ceil(extent / l.swath)
}

// bar is a region that no swath may touch, in a frame, met by swaths of rising n.
type bar struct {
	sides         []edge // of barSide, by low end
	low, high     float64
	active        []edge
	atLow, atHigh scan // of the swath at hand, kept for their room
}

// newBar brings a region into a frame.
func newBar(f frame, rings region) bar {
	b := bar{low: math.Inf(1), high: math.Inf(-1), sides: make([]edge, 0, rings.corners())}
	for _, ring := range rings {
		for i := 1; i < len(ring); i++ {
			side := barSide(f, ring[i-1], ring[i])
			b.sides = append(b.sides, side)
			b.low, b.high = min(b.low, side.low), max(b.high, side.high)
		}
	}
	byLow(b.sides)
	return b
}

// barSide brings a side of a bar into a frame. One along the swaths has high = low, and its far end in slope.
func barSide(f frame, a, b orb.Point) edge {
	u0, n0 := f.turn(a)
	u1, n1 := f.turn(b)
	if n0 > n1 {
		u0, n0, u1, n1 = u1, n1, u0, n0
	}
	side := edge{low: n0, high: n1, at: u0, slope: (u1 - u0) / (n1 - n0)}
	if n1 == n0 || math.IsInf(side.slope, 0) {
		side.high, side.slope = n0, u1
	}
	return side
}

// within reports the stretch of a bar's side between two n, between which it has a part.
func (e *edge) within(low, high float64) interval {
	ua, ub := e.at, e.slope
	if e.high > e.low {
		ua, ub = e.u(max(e.low, low)), e.u(min(e.high, high))
	}
	return interval{min(ua, ub), max(ua, ub)}
}

// shadow adds the stretches along a swath, between two n, under which the region has ground. The
// shadow is exact: above any point of it, going across the swath, one leaves the region either
// through a side, whose own stretch is added, or through the edge of the swath, where the
// even-odd stretches are added. From one call to the next neither n may fall.
func (b *bar) shadow(low, high float64, out []interval) []interval {
	// Touching is not entering: a region that ends at the swath's edge is clear of it.
	slack := (high - low) * closeEnough
	low, high = low+slack, high-slack
	if b.high <= low || b.low >= high {
		return out
	}
	for len(b.sides) > 0 && b.sides[0].low <= high {
		b.active, b.sides = append(b.active, b.sides[0]), b.sides[1:]
	}
	still := b.active[:0]
	for _, e := range b.active {
		if e.high < low {
			continue
		}
		still = append(still, e)
		out = append(out, e.within(low, high))
	}
	b.active = still
	out = b.atLow.inside(still, low, out)
	return b.atHigh.inside(still, high, out)
}
