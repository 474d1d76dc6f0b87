package tract

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// leg is one run in flying order. Between two legs the aircraft hops: it turns onto the next
// line, or crosses a gap in the same one, with the spray off. A path has many, so a leg does not repeat what
// its piece of line holds.
type leg struct {
	start float64 // of the path's sprayed length, m
	hop   float64 // s, before this leg; 0 for the first
	line  int32
	piece int32 // which run, or which lap where it is past the runs; ^piece where it is flown backward
}

// path is the whole job's runs joined in flying order. A place on it is a sprayed length in
// meters from its beginning, so a sortie is a stretch of the path and may start and end anywhere.
type path struct {
	legs   []leg // empty where the layout is coarse
	frame  frame
	runs   []run // the pieces of the legs
	laps   []lap
	lane   lane
	length float64
	gaps   int // hops within one line

	// For a coarse layout: the mean length of a leg and of a hop.
	meanLeg, meanHop float64

	launch *orb.Point // nil: ferry is the same everywhere
	ferry  float64    // m one way, where there is no launch point
}

// spot is a place on a path and the leg that a sortie starting there begins with.
type spot struct {
	at  float64
	leg int
}

// spot finds the leg of a place.
func (p *path) spot(at float64) spot { return spot{at, p.leg(at)} }

// long reports the length of a leg, m.
func (p *path) long(l leg) float64 {
	i := max(int(l.piece), int(^l.piece))
	if i < len(p.runs) {
		return p.runs[i].to - p.runs[i].from
	}
	piece := &p.laps[i-len(p.runs)]
	return planar.Distance(piece.from, piece.to)
}

// ends reports where on the ground a leg begins and ends.
func (p *path) ends(l leg) (from, to orb.Point) {
	i := max(int(l.piece), int(^l.piece))
	if i >= len(p.runs) {
		return p.laps[i-len(p.runs)].from, p.laps[i-len(p.runs)].to
	}
	r := &p.runs[i]
	n := p.lane.offset(r.line - 1)
	from, to = p.frame.back(r.from, n), p.frame.back(r.to, n)
	if l.piece < 0 {
		from, to = to, from
	}
	return from, to
}

// turning is what a hop costs.
type turning struct {
	turn  float64 // s, onto the next line
	speed float64 // m/s over the ground on the way
	swath float64 // m
}

// time reports the seconds from the end of one run to the start of the next. The turn time
// carries the aircraft one swath over; what is farther is flown at the spraying speed, and a gap
// within a line is gone round.
func (t turning) time(end, start orb.Point, sameLine bool) float64 {
	apart := planar.Distance(end, start)
	if sameLine {
		// Own choice: a keep-out or a stranger's ground is gone round in a half circle.
		return apart * math.Pi / 2 / t.speed
	}
	return t.turn + max(0, apart-t.swath*(1+1e-9))/t.speed
}

// join makes the path of a layout: back and forth, every other line flown backward. The first
// line starts at the end nearer to the launch point. Ferries are left out where there is none.
func join(l *layout, t turning, launch *orb.Point) path {
	return joinIn(nil, l, t, launch, 0)
}

// joinIn is join in the room of a list of legs that is no longer needed.
func joinIn(legs []leg, l *layout, t turning, launch *orb.Point, ferry float64) path {
	p := path{legs: legs[:0], frame: l.frame, runs: l.runs, laps: l.laps, lane: l.lane, length: l.length, launch: launch, ferry: ferry}
	if l.coarse {
		p.meanLeg, p.meanHop = l.length/max(1, l.pieces), t.turn
		return p
	}
	if need := len(l.runs) + len(l.laps); cap(legs) < need {
		p.legs = make([]leg, 0, need)
	}
	at, end := p.lines(t, p.startsFar())
	p.length = at
	p.round(int32(l.passes), t, end)
	return p
}

// startsFar reports whether the far end of the first line is nearer to the launch point.
func (p *path) startsFar() bool {
	if p.launch == nil || len(p.runs) == 0 {
		return false
	}
	first := firstLine(p.runs)
	n := p.lane.offset(first[0].line - 1)
	near, far := p.frame.back(first[0].from, n), p.frame.back(first[len(first)-1].to, n)
	return planar.Distance(*p.launch, far) < planar.Distance(*p.launch, near)
}

// lines joins the runs. It reports how long they are and where the last one ends.
func (p *path) lines(t turning, backward bool) (at float64, end orb.Point) {
	for done := 0; done < len(p.runs); backward = !backward {
		runs := firstLine(p.runs[done:])
		for i := range runs {
			next := leg{line: int32(runs[i].line), start: at, piece: int32(done + i)}
			if backward {
				next.piece = ^int32(done + len(runs) - 1 - i)
			}
			from, to := p.ends(next)
			if len(p.legs) > 0 {
				next.hop = t.time(end, from, i > 0)
			}
			p.legs, end = append(p.legs, next), to
			at += p.long(next)
		}
		p.gaps += len(runs) - 1
		done += len(runs)
	}
	return at, end
}

// round adds the passes of the headland after the lines, each started where it is nearest. They count
// as lines of their own, and a corner costs a turn where it is sharp.
func (p *path) round(line int32, t turning, end orb.Point) {
	before := strut{end, end}
	for start := 0; start < len(p.laps); {
		past := start + 1
		for past < len(p.laps) && p.laps[past].ring == p.laps[start].ring && p.laps[past].pass == p.laps[start].pass {
			past++
		}
		line++
		laps := p.laps[start:past]
		first := 0
		if len(p.legs) > 0 {
			first = nearest(laps, before.b)
		}
		for i := range laps {
			k := (first + i) % len(laps)
			piece := strut{laps[k].from, laps[k].to}
			next := leg{line: line, start: p.length, piece: int32(len(p.runs) + start + k)}
			if len(p.legs) > 0 {
				next.hop = t.corner(before, piece, i > 0)
				if i > 0 && planar.Distance(before.b, piece.a) > t.swath {
					p.gaps++
				}
			}
			p.legs, before = append(p.legs, next), piece
			p.length += p.long(next)
		}
		start = past
	}
}

// nearest reports the lap that begins nearest to a point.
func nearest(laps []lap, at orb.Point) int {
	best, least := 0, math.Inf(1)
	for i, l := range laps {
		if d := planar.Distance(at, l.from); d < least {
			best, least = i, d
		}
	}
	return best
}

// corner reports the seconds between two pieces of a headland pass; from a line, or across a gap, it is
// the time of any hop.
func (t turning) corner(a, b strut, samePass bool) float64 {
	apart := planar.Distance(a.b, b.a)
	if !samePass || apart > t.swath {
		return t.time(a.b, b.a, samePass)
	}
	x0, y0, x1, y1 := a.b[0]-a.a[0], a.b[1]-a.a[1], b.b[0]-b.a[0], b.b[1]-b.a[1]
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
func (p *path) ferries(from spot, to float64) (out, back float64) {
	if p.launch == nil || len(p.legs) == 0 {
		return p.ferry, p.ferry
	}
	return planar.Distance(*p.launch, p.point(from.leg, from.at)), planar.Distance(*p.launch, p.point(p.lastLeg(to), to))
}

// point reports where on the ground a place of a leg lies.
func (p *path) point(leg int, s float64) orb.Point {
	l := p.legs[leg]
	from, to := p.ends(l)
	share := 0.0
	if length := p.long(l); length > 0 {
		share = max(0, min(1, (s-l.start)/length))
	}
	return orb.Point{from[0] + share*(to[0]-from[0]), from[1] + share*(to[1]-from[1])}
}

// hops calls visit for every hop strictly within a stretch, with the place and the seconds. Of a
// coarse path it makes one call, at the middle, for all of them.
func (p *path) hops(from spot, to float64, visit func(at, seconds float64)) {
	if len(p.legs) == 0 {
		if n := math.Floor((to - from.at) / p.meanLeg); p.meanLeg > 0 && n > 0 {
			visit((from.at+to)/2, n*p.meanHop)
		}
		return
	}
	before := to - p.tiny()
	for i := from.leg + 1; i < len(p.legs) && p.legs[i].start < before; i++ {
		visit(p.legs[i].start, p.legs[i].hop)
	}
}

// touched reports how many lines a stretch touches.
func (p *path) touched(from spot, to float64) float64 {
	if len(p.legs) == 0 {
		return max(1, math.Ceil((to-from.at)/max(p.meanLeg, shortest)))
	}
	return float64(p.legs[p.lastLeg(to)].line - p.legs[from.leg].line + 1)
}

// farthest reports the place of the path farthest from the launch point, among the ends of legs.
func (p *path) farthest() float64 {
	place, most := p.length, 0.0
	if p.launch == nil {
		return place
	}
	for _, l := range p.legs {
		from, to := p.ends(l)
		if d := planar.Distance(*p.launch, from); d > most {
			place, most = l.start, d
		}
		if d := planar.Distance(*p.launch, to); d > most {
			place, most = l.start+p.long(l), d
		}
	}
	return place
}
