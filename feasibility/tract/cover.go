package tract

import (
	"cmp"
	"math"
	"slices"

	"tractcheck/feasibility/units"
)

// covered reports how much of the tract lies under the swaths of a layout, counted once, and how
// much swath lies outside of the tract, both in m2.
//
// Both are exact for straight edges: the ground of the tract under a strip of swath is a sum over
// the tract's edges of a closed integral, with no sampling.
func covered(g ground, l layout) (sprayed, outside float64) {
	if l.coarse {
		return min(l.length*l.swath, g.area), 0
	}
	edges := l.frame.edges(g.tract)
	walk := scan{edges: edges}
	for _, line := range byLine(l.runs) {
		low, high := line[0].offset-l.swath/2, line[0].offset+l.swath/2
		active := walk.between(low, high)
		for _, r := range line {
			beneath := under(active, low, high, r.from, r.to)
			sprayed += beneath
			outside += max(0, (r.to-r.from)*l.swath-beneath)
		}
	}
	return sprayed - lapped(edges, l), outside
}

// lapped reports the ground that lies under both of the last two lines; only they can overlap.
func lapped(edges []edge, l layout) float64 {
	last := int(l.passes) - 1
	if last < 1 {
		return 0
	}
	low, high := l.offset(last)-l.swath/2, l.offset(last-1)+l.swath/2
	if !units.StrictlyBelow(low, high) {
		return 0
	}
	walk := scan{edges: edges}
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

// byLine splits runs into those of one line each.
func byLine(runs []run) [][]run {
	out := make([][]run, 0, len(runs))
	for start := 0; start < len(runs); {
		end := start + 1
		for end < len(runs) && runs[end].line == runs[start].line {
			end++
		}
		out = append(out, runs[start:end])
		start = end
	}
	return out
}

// under reports the area of the tract inside the rectangle low <= n <= high, from <= u <= to.
// Outer rings run counter-clockwise and holes clockwise, so the tract's stretch within the
// rectangle at n is the sum of clamp(u - from, 0, to - from) over upward edges less the same over
// downward ones (Green's theorem), and each edge's share is integrated in closed form.
func under(active []edge, low, high, from, to float64) float64 {
	sum := 0.0
	for _, e := range active {
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

// overlapArea reports the area that regions, taken together, share with the tract, in m2; ground
// under several of them counts once. Between two heights where an edge starts, ends or crosses
// another, every stretch changes evenly, so the middle one times the height is exact.
func overlapArea(tract region, others []region) float64 {
	if len(others) == 0 {
		return 0
	}
	f := newFrame(0)
	walks := make([]scan, len(others))
	var every []edge
	for i, rings := range others {
		walks[i] = scan{edges: f.edges(rings)}
		every = append(every, walks[i].edges...)
	}
	walk := scan{edges: f.edges(tract)}
	heights := events(every, walk.edges)
	sum := 0.0
	var inside, taken []interval
	for i := 1; i < len(heights); i++ {
		low, high := heights[i-1], heights[i]
		middle := (low + high) / 2
		inside = walk.inside(walk.between(low, high), middle, inside[:0])
		taken = taken[:0]
		for k := range walks {
			taken = walks[k].inside(walks[k].between(low, high), middle, taken)
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
func events(others, tract []edge) []float64 {
	all := slices.Concat(others, tract)
	slices.SortFunc(all, func(a, b edge) int { return cmp.Compare(a.low, b.low) })
	heights, deepest := meetings(all)
	if most := max(1_000, mostSteps/max(1, deepest)); len(heights) > most {
		return even(all, most)
	}
	slices.Sort(heights)
	return slices.Compact(heights)
}

// meetings reports the heights where edges start, end or meet, in no order, and the most edges
// that overlap one edge. It stops short once there are more heights than could be used.
func meetings(all []edge) (heights []float64, deepest int) {
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
		deepest = max(deepest, beside)
		if len(heights) > mostSteps/100 {
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
