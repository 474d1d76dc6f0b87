package tract

import (
	"math"

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
	p.legs = make([]leg, 0, len(l.runs)+len(l.laps))
	backward := false
	if launch != nil && len(l.runs) > 0 {
		first := firstLine(l.runs)
		near := l.frame.back(first[0].from, first[0].offset)
		far := l.frame.back(first[len(first)-1].to, first[0].offset)
		backward = planar.Distance(*launch, far) < planar.Distance(*launch, near)
	}
	at := 0.0
	for left := l.runs; len(left) > 0; {
		runs := firstLine(left)
		left = left[len(runs):]
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
	p.round(l, t)
	return p
}

// round adds the passes of the headland after the lines, each started where it is nearest. They count
// as lines of their own, and a corner costs a turn where it is sharp.
func (p *path) round(l layout, t turning) {
	line := int(l.passes)
	for start := 0; start < len(l.laps); {
		end := start + 1
		for end < len(l.laps) && l.laps[end].ring == l.laps[start].ring && l.laps[end].pass == l.laps[start].pass {
			end++
		}
		line++
		laps := l.laps[start:end]
		first := p.nearest(laps)
		for i := range laps {
			piece := laps[(first+i)%len(laps)]
			next := leg{line: line, start: p.length, from: piece.from, to: piece.to, length: planar.Distance(piece.from, piece.to)}
			if n := len(p.legs); n > 0 {
				next.hopTime = t.corner(p.legs[n-1], next)
				if p.legs[n-1].line == line && planar.Distance(p.legs[n-1].to, next.from) > t.swath {
					p.gaps++
				}
			}
			p.legs = append(p.legs, next)
			p.length += next.length
		}
		start = end
	}
}

// nearest reports the lap that begins nearest to where the path ends.
func (p *path) nearest(laps []lap) int {
	if len(p.legs) == 0 {
		return 0
	}
	at, best, least := p.legs[len(p.legs)-1].to, 0, math.Inf(1)
	for i, l := range laps {
		if d := planar.Distance(at, l.from); d < least {
			best, least = i, d
		}
	}
	return best
}

// corner reports the seconds between two pieces of a headland pass; from a line, or across a gap, it is
// the time of any hop.
func (t turning) corner(a, b leg) float64 {
	apart := planar.Distance(a.to, b.from)
	if a.line != b.line || apart > t.swath {
		return t.time(a, b)
	}
	x0, y0, x1, y1 := a.to[0]-a.from[0], a.to[1]-a.from[1], b.to[0]-b.from[0], b.to[1]-b.from[1]
	if math.Abs(math.Atan2(x0*y1-y0*x1, x0*x1+y0*y1)) >= sharp.SI() {
		return t.turn + apart/t.speed
	}
	return apart / t.speed
}

// tiny is the length that counts as nothing on this path, m.
func (p *path) tiny() float64 { return max(shortest, p.length*1e-12) }

// leg reports the index of the leg that a sortie starting at s begins with; at a joint that is
// the later one.
func (p *path) leg(s float64) int {
	past := s + p.tiny()
	low, high := 0, len(p.legs) // legs before low start at or before, from high on past it
	for low < high {
		if middle := (low + high) / 2; p.legs[middle].start > past {
			high = middle
		} else {
			low = middle + 1
		}
	}
	return max(0, low-1)
}

// lastLeg reports the index of the leg that a sortie ending at s ends with; at a joint that is
// the earlier one.
func (p *path) lastLeg(s float64) int {
	return p.leg(s - 2*p.tiny())
}

// ferries reports the distances out to where a sortie starts and back from where it ends, m.
func (p *path) ferries(from, to float64) (out, back float64) {
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
func (p *path) hops(from, to float64, visit func(at, seconds float64)) {
	if len(p.legs) == 0 {
		if n := math.Floor((to - from) / p.meanLeg); p.meanLeg > 0 && n > 0 {
			visit((from+to)/2, n*p.meanHop)
		}
		return
	}
	before := to - p.tiny()
	for i := p.leg(from) + 1; i < len(p.legs) && p.legs[i].start < before; i++ {
		visit(p.legs[i].start, p.legs[i].hopTime)
	}
}

// touched reports how many lines a stretch touches.
func (p *path) touched(from, to float64) float64 {
	if len(p.legs) == 0 {
		return max(1, math.Ceil((to-from)/max(p.meanLeg, shortest)))
	}
	return float64(p.legs[p.lastLeg(to)].line - p.legs[p.leg(from)].line + 1)
}

// farthest reports the place of the path farthest from the launch point, among the ends of legs.
func (p *path) farthest() float64 {
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
