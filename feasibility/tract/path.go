package tract

import (
	"math"
	"sort"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// leg is one run in flying order. Between two legs the aircraft hops: it turns onto the next
// line, or crosses a gap in the same one, with the spray off.
type leg struct {
	line     int
	start    float64 // of the path's sprayed length, m
	length   float64 // m
	from, to orb.Point
	hopTime  float64 // s, before this leg; 0 for the first
}

// path is the whole job's runs joined in flying order. A place on it is a sprayed length in
// meters from its beginning, so a sortie is a stretch of the path and may start and end anywhere.
type path struct {
	legs   []leg // empty where the layout is coarse
	length float64
	gaps   int // hops within one line

	// For a coarse layout: the mean length of a leg and of a hop.
	meanLeg, meanHop float64

	launch *orb.Point // nil: ferry is the same everywhere
	ferry  float64    // m one way, where there is no launch point
}

// turning is what a hop costs.
type turning struct {
	turn  float64 // s, onto the next line
	speed float64 // m/s over the ground on the way
	swath float64 // m
}

// time reports the seconds between the end of one run and the start of the next. The turn time
// carries the aircraft one swath over; what is farther is flown at the spraying speed, and a gap
// within a line is gone round.
func (t turning) time(a, b leg) float64 {
	apart := planar.Distance(a.to, b.from)
	if a.line == b.line {
		// Own choice: a keep-out or a stranger's ground is gone round in a half circle.
		return apart * math.Pi / 2 / t.speed
	}
	return t.turn + max(0, apart-t.swath*(1+1e-9))/t.speed
}

// join makes the path of a layout: back and forth, every other line flown backward. The first
// line starts at the end nearer to the launch point.
func join(l layout, t turning, launch *orb.Point, ferry float64) path {
	p := path{length: l.length, launch: launch, ferry: ferry}
	if l.coarse {
		p.meanLeg, p.meanHop = l.length/max(1, l.pieces), t.turn
		return p
	}
	lines := byLine(l.runs)
	p.legs = make([]leg, 0, len(l.runs))
	backward := false
	if launch != nil && len(lines) > 0 {
		first := lines[0]
		near := l.frame.back(first[0].from, first[0].offset)
		far := l.frame.back(first[len(first)-1].to, first[0].offset)
		backward = planar.Distance(*launch, far) < planar.Distance(*launch, near)
	}
	at := 0.0
	for _, runs := range lines {
		for i := range runs {
			r := runs[i]
			if backward {
				r = runs[len(runs)-1-i]
			}
			next := leg{line: r.line, start: at, length: r.to - r.from}
			next.from, next.to = l.frame.back(r.from, r.offset), l.frame.back(r.to, r.offset)
			if backward {
				next.from, next.to = next.to, next.from
			}
			if n := len(p.legs); n > 0 {
				next.hopTime = t.time(p.legs[n-1], next)
				if p.legs[n-1].line == r.line {
					p.gaps++
				}
			}
			p.legs = append(p.legs, next)
			at += next.length
		}
		backward = !backward
	}
	p.length = at
	return p
}

// tiny is the length that counts as nothing on this path, m.
func (p path) tiny() float64 { return max(shortest, p.length*1e-12) }

// leg reports the index of the leg that a sortie starting at s begins with; at a joint that is
// the later one.
func (p path) leg(s float64) int {
	i := sort.Search(len(p.legs), func(i int) bool { return p.legs[i].start > s+p.tiny() })
	return max(0, i-1)
}

// lastLeg reports the index of the leg that a sortie ending at s ends with; at a joint that is
// the earlier one.
func (p path) lastLeg(s float64) int {
	i := sort.Search(len(p.legs), func(i int) bool { return p.legs[i].start >= s-p.tiny() })
	return max(0, i-1)
}

// ferries reports the distances out to where a sortie starts and back from where it ends, m.
func (p path) ferries(from, to float64) (out, back float64) {
	if p.launch == nil || len(p.legs) == 0 {
		return p.ferry, p.ferry
	}
	a, b := p.legs[p.leg(from)], p.legs[p.lastLeg(to)]
	return planar.Distance(*p.launch, a.point(from)), planar.Distance(*p.launch, b.point(to))
}

// point reports where on the ground a place of the leg lies.
func (l leg) point(s float64) orb.Point {
	share := 0.0
	if l.length > 0 {
		share = max(0, min(1, (s-l.start)/l.length))
	}
	return orb.Point{l.from[0] + share*(l.to[0]-l.from[0]), l.from[1] + share*(l.to[1]-l.from[1])}
}

// hops calls visit for every hop strictly within a stretch, with the place and the seconds. Of a
// coarse path it makes one call, at the middle, for all of them.
func (p path) hops(from, to float64, visit func(at, seconds float64)) {
	if len(p.legs) == 0 {
		if n := math.Floor((to - from) / p.meanLeg); p.meanLeg > 0 && n > 0 {
			visit((from+to)/2, n*p.meanHop)
		}
		return
	}
	for i := p.leg(from) + 1; i < len(p.legs) && p.legs[i].start < to-p.tiny(); i++ {
		visit(p.legs[i].start, p.legs[i].hopTime)
	}
}

// touched reports how many lines a stretch touches.
func (p path) touched(from, to float64) float64 {
	if len(p.legs) == 0 {
		return max(1, math.Ceil((to-from)/max(p.meanLeg, shortest)))
	}
	return float64(p.legs[p.lastLeg(to)].line - p.legs[p.leg(from)].line + 1)
}

// farthest reports the place of the path farthest from the launch point, among the ends of legs.
func (p path) farthest() float64 {
	place, most := p.length, 0.0
	if p.launch == nil {
		return place
	}
	for _, l := range p.legs {
		if d := planar.Distance(*p.launch, l.from); d > most {
			place, most = l.start, d
		}
		if d := planar.Distance(*p.launch, l.to); d > most {
			place, most = l.start+l.length, d
		}
	}
	return place
}
