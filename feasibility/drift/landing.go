package drift

import "tractcheck/feasibility/units"

// resolution is how finely a landing is computed.
type resolution struct {
	stride int     // classes joined
	below  int     // cells from the crop to the release height
	above  int     // cells over it
	growth float64 // of the steps along the wind
}

// fine serves the answer, coarse the what-ifs behind the drivers.
var (
	fine   = resolution{stride: 1, below: 12, above: 9, growth: 1.25}
	coarse = resolution{stride: 3, below: 8, above: 6, growth: 1.5}
)

const (
	mostSteps = 72
	firstStep = 0.25 // m along the wind
	mostSub   = 12   // most parts of a step, for drops that fall fast
	perHeight = 12   // least parts in which a drop falls the release height
	nothing   = 1e-6 // share of the spray below which a class counts as landed
)

// flightPlan is all that decides where the spray of one line lands.
type flightPlan struct {
	classes [mostClasses]dropClass
	count   int
	height  float64 // of release above the crop, m
	rotor   rotor
	medium  medium
	speeds  *fall // terminal speeds of the spray in the medium
}

// landing is the share of a line's spray that has landed within a distance down the wind of where
// it was let go, class by class summed. It never falls with distance and never passes 1.
type landing struct {
	steps    int
	distance [mostSteps]float64
	landed   [mostSteps]float64
}

// land flies every class of a plan to a distance.
func (f flightPlan) land(farthest float64, r resolution) *landing {
	l := &landing{}
	for x := 0.0; l.steps < mostSteps; l.steps++ {
		l.distance[l.steps] = x
		if x >= farthest {
			l.steps++
			break
		}
		x = max(firstStep, x*r.growth)
	}
	w := f.rotor.below(f.height, f.medium)
	g := newGrid(f.height, f.medium, r)
	s := flight{
		plan: &f, wake: w, grid: g, left: g.layer(w.layer(f.height)),
		dry: newDrying(f.medium),
	}
	for _, c := range f.classes[:f.count] {
		s.fly(c, l)
	}
	return l
}

// flight is what all classes of a plan share on their way.
type flight struct {
	plan *flightPlan
	wake wake
	grid *grid
	left spread // of the layer that the wake leaves
	dry  drying
}

// fly flies one class and adds what lands of it. Drops in the wake come down at its speed and their
// own, drifting with the wind meanwhile, and are thrown out by its spread both ways; then the layer
// it leaves flies on like any plume.
func (s *flight) fly(c dropClass, l *landing) {
	p := plume{grid: s.grid}
	d := c.diameter
	v := s.plan.speeds.speed(d)
	p.release(c.share*(1-s.wake.help), s.plan.height)
	caught := c.share * s.wake.help
	from, to := s.wake.touchdown(v, s.plan.height, s.grid)
	pressed := s.wake.pressed(v)
	landedByWake, before, lag := 0.0, 0.0, 0.0
	for i := 1; i < l.steps; i++ {
		step := l.distance[i] - l.distance[i-1]
		// The wake lays its catch down evenly over from..to; this is the part of it within the step.
		part := caught * overlap(l.distance[i-1], l.distance[i], from, to)
		landedByWake += part * pressed
		// What the wake leaves within a step is let go half at its start, half at its end.
		laid := part * (1 - pressed) / 2
		p.fill(laid, &s.left)
		time := step / p.meanWind() // s, that the drops still aloft take for the step
		// Drops that fall fast take the step in parts, so that none falls more than a twelfth of the
		// release height at once.
		parts := float64(max(1, units.Ceil(min(mostSub, v*time*perHeight/s.plan.height))))
		if p.airborne <= nothing && l.distance[i] > to {
			p.land()
			parts = mostSub
		} else {
			for range int(parts) {
				p.advance(step/parts, time/parts, v)
				if next := s.dry.after(d, c.diameter, v, time/parts); next != d {
					d, v = next, s.plan.speeds.speed(next)
				}
			}
		}
		p.fill(laid, &s.left)
		// An implicit step lands its drops half a part late: what it books at the end of the step stands
		// for a place that much before it (lead; lag is the lead of the step before). The landing at the
		// edge between the two steps is read off the straight line between those places.
		lead := step / parts / 2
		l.landed[i-1] += before + (p.landed-before)*lag/(step-lead+lag)
		l.landed[i] += landedByWake
		before, lag = p.landed, lead
	}
	l.landed[l.steps-1] += before
}

// touchdown is the span down the wind over which the wake lays a class down.
func (w wake) touchdown(fallSpeed, height float64, g *grid) (from, to float64) {
	if w.help <= 0 {
		return 0, 0
	}
	// Mean speed down: that of the wake, depth over time, plus the drop's own.
	time := w.depth / (w.depth/w.time + fallSpeed)
	// Drift meanwhile by the wind half way down, m.
	middle := g.windAt(height-w.depth/2) * time
	return max(0, middle-w.spread), middle + w.spread
}

// overlap is the part of the span from..to that lies in low..high.
func overlap(low, high, from, to float64) float64 {
	if to-from < 1e-9 {
		if from >= low && from < high {
			return 1
		}
		return 0
	}
	return max(0, min(high, to)-max(low, from)) / (to - from)
}

// within reports the share landed within a distance; beyond the last step it stays.
func (l *landing) within(x float64) float64 {
	if x <= 0 {
		return 0
	}
	low, high := 0, l.steps-1
	if x >= l.distance[high] {
		return l.landed[high]
	}
	for high-low > 1 {
		middle := (low + high) / 2
		if l.distance[middle] <= x {
			low = middle
		} else {
			high = middle
		}
	}
	part := (x - l.distance[low]) / (l.distance[high] - l.distance[low])
	return l.landed[low] + part*(l.landed[high]-l.landed[low])
}

// deposit reports the deposit at a distance down the wind of a field of a length along the wind,
// as a share of the rate. Lines side by side with an even cover let the sum over swaths close:
// each swath from a to b upwind adds within(x+b) - within(x+a), and the inner terms cancel.
func (l *landing) deposit(x, length float64) float64 {
	return max(0, l.within(x+length)-l.within(x))
}

// beyond reports the share of the spray of a field of a length along the wind that does not land
// in the field: the mean over the field of what is still aloft at the downwind edge.
func (l *landing) beyond(length float64) float64 {
	var sum float64
	for i := 1; i < l.steps; i++ {
		low := min(length, l.distance[i-1])
		high := min(length, l.distance[i])
		if high <= low {
			break
		}
		// Trapezoid: the line at a distance x upwind of the edge keeps aloft 1 - within(x).
		sum += (high - low) * (1 - (l.within(low)+l.within(high))/2)
	}
	rest := length - l.distance[l.steps-1]
	if rest > 0 {
		sum += rest * (1 - l.landed[l.steps-1])
	}
	return max(0, min(1, sum/length))
}
