package crew

import "math"

// mostFlown is the sorties flown through one by one; a longer job is taken to go on like that.
// Own choice.
const mostFlown = 4_000

// shift is the job flown through on the clock, sortie by sortie. Times are in seconds.
type shift struct {
	sorties    int
	aircraft   int
	perBattery int // sorties on one battery set, at least 1
	flight     float64
	refill     float64 // loading without a battery swap
	reload     float64 // loading with one
	cool       float64
	charge     float64
	batteries  int   // 0: never short
	chargers   int   // 0: none in the field
	yard       *yard // room to work in; nil: made for every run
}

// run reports when the last aircraft lands, counted from the first loading, with as many of the
// aircraft flown as makes it soonest: on a short job a further one may cost more in battery swaps
// than it saves. A job that runs out of batteries with no charger reports false.
func (s shift) run() (end float64, ok bool) {
	most := min(s.aircraft, s.sorties)
	if s.batteries > 0 {
		most = min(most, s.batteries)
	}
	const tried = 8 // own bound on the aircraft counts tried
	end = math.Inf(1)
	y := s.yard
	if y == nil {
		y = &yard{}
	}
	for n := 1; n <= most; n++ {
		if n == tried {
			n = most
		}
		if at, can := s.with(y, n); can {
			end, ok = min(end, at), true
		}
	}
	if !ok {
		return 0, false
	}
	return end, true
}

// with reports when the last of a number of aircraft lands.
//
// A battery comes off when a charged one goes on, as the rotation's formula has it. Where there
// are no more sets than aircraft, or where that is quicker, each aircraft keeps its own set, which
// comes off at landing and goes back on once charged; sets beyond the aircraft then stand idle.
// Every step depends on earlier times by sums and maxima only, so more batteries or chargers never
// make the end later.
func (s shift) with(y *yard, aircraft int) (end float64, ok bool) {
	if s.batteries <= 0 || s.batteries >= s.loads(aircraft) {
		return s.fly(y, aircraft, 0, false), true
	}
	if s.chargers <= 0 {
		return 0, false
	}
	end = s.fly(y, aircraft, aircraft, true)
	if s.batteries > aircraft {
		end = min(end, s.fly(y, aircraft, s.batteries, false))
	}
	return end, true
}

// fly flies the sorties, dealt to the aircraft in turn. Sets of 0 never run short; early says that
// a battery comes off at landing.
func (s shift) fly(y *yard, aircraft, sets int, early bool) (end float64) {
	flown := min(s.sorties, mostFlown)
	packs, plugs, landed := y.ready(sets, min(max(1, s.chargers), max(1, sets)), aircraft)
	place := 0.0 // when the loading place is free
	a, onSet := -1, 0
	for j := range flown {
		if a++; a == aircraft { // the next round, on the same battery sets or on fresh ones
			a = 0
			if onSet++; onSet == s.perBattery {
				onSet = 0
			}
		}
		start, busy := max(place, landed[a]), s.refill
		if onSet == 0 {
			busy = s.reload
			switch {
			case sets == 0:
			case j < aircraft: // all start with a charged set
				packs.take()
			case early:
				packs.put(plugs.charge(landed[a]+s.cool, s.charge))
				start = max(start, packs.take())
			default:
				start = max(start, packs.take())
				packs.put(plugs.charge(start+s.cool, s.charge))
			}
		}
		place = start + busy
		landed[a] = place + s.flight
		end = max(end, landed[a])
	}
	// A longer job goes on at the same pace.
	return end * float64(s.sorties) / float64(flown)
}

// loads reports the battery sets that the job drains on a number of aircraft.
func (s shift) loads(n int) int {
	each, more := s.sorties/n, s.sorties%n
	up := func(sorties int) int { return (sorties + s.perBattery - 1) / s.perBattery }
	return more*up(each+1) + (n-more)*up(each)
}

// yard is what is in use on the ground and in the air, kept for its room.
type yard struct {
	packs, plugs queue     // when each battery set and each charger is free
	landed       []float64 // when each aircraft last landed
}

// ready clears the yard: everything is free at the start.
func (y *yard) ready(sets, chargers, aircraft int) (packs, plugs *queue, landed []float64) {
	y.packs.full(sets)
	y.plugs.full(chargers)
	if cap(y.landed) < aircraft {
		y.landed = make([]float64, aircraft)
	}
	y.landed = y.landed[:aircraft]
	clear(y.landed)
	return &y.packs, &y.plugs, y.landed
}

// queue is times, of which the earliest comes out first: a binary heap.
type queue []float64

// full makes a queue of a number of times that all are zero, with room for a few more.
func (q *queue) full(n int) {
	if cap(*q) < n+1 {
		*q = make(queue, 0, n+8)
	}
	*q = (*q)[:n]
	clear(*q)
}

// charge takes the earliest free charger for a battery that has cooled and reports when it is full.
func (q *queue) charge(cooled, time float64) float64 {
	full := max(cooled, q.take()) + time
	q.put(full)
	return full
}

// take removes and reports the earliest time. The shift never takes from an empty queue: there
// are more sets than aircraft, or one comes back before it is taken, and a charger is put back as
// soon as it is taken.
func (q *queue) take() float64 {
	h := *q
	first, last := h[0], len(h)-1
	t := h[last]
	h = h[:last]
	*q = h
	i := 0
	for 2*i+1 < last { // the last time sinks from the top to its place
		child := 2*i + 1
		if child+1 < last && h[child+1] < h[child] {
			child++
		}
		if t <= h[child] {
			break
		}
		h[i], i = h[child], child
	}
	if last > 0 {
		h[i] = t
	}
	return first
}

// put adds a time.
func (q *queue) put(t float64) {
	h := append(*q, t)
	i := len(h) - 1
	for i > 0 && t < h[(i-1)/2] { // it rises from the bottom to its place
		h[i], i = h[(i-1)/2], (i-1)/2
	}
	h[i] = t
	*q = h
}
