package tract

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb/planar"

	"tractcheck/feasibility/units"
)

// covered reports how much of the tract lies under the swaths of a layout, counted once, and how
// much swath lies outside of the tract, both in m2.
//
// Both are exact for straight edges: the ground of the tract under a strip of swath is a sum over
// the tract's edges of a closed integral, with no sampling.
func covered(g *ground, l *layout) (sprayed, outside float64) {
	if l.coarse {
		return min(l.length*l.swath, g.area), 0
	}
	if len(l.laps) > 0 {
		return g.work.overlapArea(l.frame, g.tract, nil, l.swaths()), g.outside(l)
	}
	walk := newScan(l.edges)
	for runs := l.runs; len(runs) > 0; {
		line := firstLine(runs)
		runs = runs[len(line):]
		n := l.offset(line[0].line - 1)
		low, high := n-l.swath/2, n+l.swath/2
		active := walk.between(low, high)
		if g.work.add(len(line) * len(active)); g.work.over() {
			break
		}
		for _, r := range line {
			beneath := under(active, low, high, r.from, r.to)
			sprayed += beneath
			outside += max(0, (r.to-r.from)*l.swath-beneath)
		}
	}
	return sprayed - lapped(l), outside
}

// swaths lists the sides of all swaths of a layout, each swath a rectangle, counter-clockwise.
func (l *layout) swaths() []edge {
	out := make([]edge, 0, 2*len(l.runs)+4*len(l.laps))
	half := l.swath / 2
	for _, r := range l.runs {
		n := l.offset(r.line - 1)
		low, high := n-half, n+half
		out = append(out, edge{low: low, high: high, at: r.from}, edge{low: low, high: high, at: r.to, upward: true})
	}
	for _, piece := range l.laps {
		out = append(out, l.frame.edges(region{beside(piece.from, piece.to, 0, half)})...)
	}
	return out
}

// outside reports how much swath of a layout with a headland lies outside of the tract, m2.
func (g *ground) outside(l *layout) float64 {
	sum := 0.0
	add := func(spill float64) {
		if spill > closed*l.swath { // less is rounding
			sum += spill
		}
	}
	walk := newScan(l.edges)
	for _, r := range l.runs {
		n := l.offset(r.line - 1)
		low, high := n-l.swath/2, n+l.swath/2
		active := walk.between(low, high)
		if g.work.add(len(active)); g.work.over() {
			break
		}
		add((r.to-r.from)*l.swath - under(active, low, high, r.from, r.to))
	}
	var beside []edge
	corners := g.tract.corners()
	for _, p := range l.laps {
		if g.work.add(corners); g.work.over() {
			break
		}
		f := newFrame(math.Atan2(p.to[1]-p.from[1], p.to[0]-p.from[0]))
		u, n := f.turn(p.from)
		low, high, length := n-l.swath/2, n+l.swath/2, planar.Distance(p.from, p.to)
		beside = f.between(g.tract, low, high, beside[:0])
		add(length*l.swath - under(beside, low, high, u, u+length))
	}
	return sum
}

// lapped reports the ground that lies under both of the last two lines; only they can overlap.
func lapped(l *layout) float64 {
	last := int(l.passes) - 1
	if last < 1 {
		return 0
	}
	low, high := l.offset(last)-l.swath/2, l.offset(last-1)+l.swath/2
	if !units.StrictlyBelow(low, high) {
		return 0
	}
	walk := newScan(l.edges)
	active := walk.between(low, high)
	twice := 0.0
	for _, b := range ofLine(l.runs, last+1) {
		for _, a := range ofLine(l.runs, last) {
			if from, to := max(a.from, b.from), min(a.to, b.to); from < to {
				twice += under(active, low, high, from, to)
			}
		}
	}
	return twice
}

// ofLine reports the runs of one of the last lines; runs are sorted by line.
func ofLine(runs []run, line int) []run {
	start, _ := slices.BinarySearchFunc(runs, line, func(r run, line int) int { return cmp.Compare(r.line, line) })
	end, _ := slices.BinarySearchFunc(runs, line+1, func(r run, line int) int { return cmp.Compare(r.line, line) })
	return runs[start:end]
}

// firstLine reports the runs of the first line of a list.
func firstLine(runs []run) []run {
	end := 1
	for end < len(runs) && runs[end].line == runs[0].line {
		end++
	}
	return runs[:end]
}

// under reports the area of the tract inside the rectangle low <= n <= high, from <= u <= to.
// Outer rings run counter-clockwise and holes clockwise, so the tract's stretch within the
// rectangle at n is the sum of clamp(u - from, 0, to - from) over upward edges less the same over
// downward ones (Green's theorem), and each edge's share is integrated in closed form.
func under(active []edge, low, high, from, to float64) float64 {
	sum := 0.0
	for i := range active {
		e := &active[i]
		n0, n1 := max(e.low, low), min(e.high, high)
		if n0 >= n1 {
			continue
		}
		share := meanClamp(e.u(n0)-from, e.u(n1)-from, to-from) * (n1 - n0)
		if e.upward {
			sum += share
		} else {
			sum -= share
		}
	}
	return max(0, min(sum, (high-low)*(to-from)))
}

// meanClamp reports the mean of clamp(x, 0, most) while x goes evenly from a to b.
func meanClamp(a, b, most float64) float64 {
	if math.Abs(b-a) <= most*1e-9 {
		return max(0, min(most, (a+b)/2))
	}
	whole := func(x float64) float64 { // integral of clamp from 0 to x
		switch {
		case x <= 0:
			return 0
		case x >= most:
			return most * (x - most/2)
		default:
			return x * x / 2
		}
	}
	return (whole(b) - whole(a)) / (b - a)
}

// overlapArea reports the area that regions and rectangles, taken together, share with the tract, in
// m2; ground under several of them counts once. Rectangles come as their edges in the frame, run
// counter-clockwise. Between two heights where an edge starts, ends or crosses another, every stretch
// changes evenly, so the middle one times the height is exact.
func (t *tally) overlapArea(f frame, tract region, regions []region, rectangles []edge) float64 {
	if len(regions) == 0 && len(rectangles) == 0 {
		return 0
	}
	walks := make([]scan, len(regions))
	every := slices.Clone(rectangles)
	for i, rings := range regions {
		walks[i] = scan{edges: f.edges(rings)}
		every = append(every, walks[i].edges...)
	}
	walk, heap := scan{edges: f.edges(tract)}, scan{edges: byLow(rectangles)}
	heights := t.events(every, walk.edges)
	sum := 0.0
	var inside, taken []interval
	for i := 1; i < len(heights); i++ {
		low, high := heights[i-1], heights[i]
		middle := (low + high) / 2
		beneath := heap.between(low, high)
		taken = heap.wound(beneath, middle, taken[:0])
		steps := len(beneath) + len(walks)
		for k := range walks {
			active := walks[k].between(low, high)
			taken = walks[k].inside(active, middle, taken)
			steps += len(active)
		}
		active := walk.between(low, high)
		if len(taken) > 0 {
			steps += len(active)
			inside = walk.inside(active, middle, inside[:0])
		} else {
			inside = inside[:0]
		}
		if t.add(steps); t.over() {
			break
		}
		sum += common(union(inside), union(taken)) * (high - low)
	}
	return sum
}

// Own choice: steps of overlapArea, heights times the edges at one height, that are always
// affordable. Ground more tangled than that is measured at even heights.
const mostSteps = 15_000_000

// events lists the heights where an edge of the other regions or of the tract starts, ends or
// meets another edge, rising, each once.
func (t *tally) events(others, tract []edge) []float64 {
	all := slices.Concat(others, tract)
	all = byLow(all)
	heights, deepest := t.meetings(all)
	if most := max(1_000, mostSteps/max(1, deepest)); len(heights) > most {
		return even(all, most)
	}
	slices.Sort(heights)
	return slices.Compact(heights)
}

// meetings reports the heights where edges start, end or meet, in no order, and the most edges
// that overlap one edge. It stops short once there are more heights than could be used.
func (t *tally) meetings(all []edge) (heights []float64, deepest int) {
	for i, a := range all {
		heights = append(heights, a.low, a.high)
		beside := 0
		for _, b := range all[i+1:] {
			if b.low >= a.high {
				break
			}
			beside++
			if a.slope == b.slope {
				continue
			}
			// a and b meet where a.at + a.slope (n - a.low) = b.at + b.slope (n - b.low).
			n := (b.at - a.at + a.slope*a.low - b.slope*b.low) / (a.slope - b.slope)
			if n > b.low && n < min(a.high, b.high) {
				heights = append(heights, n)
			}
		}
		t.add(1 + beside)
		deepest = max(deepest, beside)
		if len(heights) > mostSteps/100 || t.over() {
			break
		}
	}
	return heights, deepest
}

// even lists heights at even steps over the extent of edges.
func even(edges []edge, steps int) []float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for _, e := range edges {
		low, high = min(low, e.low), max(high, e.high)
	}
	out := make([]float64, steps+1)
	for i := range out {
		out[i] = low + (high-low)*float64(i)/float64(steps)
	}
	return out
}
