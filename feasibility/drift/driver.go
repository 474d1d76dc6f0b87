package drift

import "tractcheck/feasibility/units"

// Driver is the share of one factor in the result.
type Driver struct {
	Factor string // wind, fines, height, speed, evaporation, stability
	Share  units.Proportion
}

const (
	// fineDrop is the size under which drops count as fines, m: US extension usage, 150 um.
	fineDrop = 150e-6
	// leastGain is the part of a deposit below which a change counts as none, about the error of the
	// coarse flights behind the drivers.
	leastGain = 0.02
	// leastPart is the part of a deposit below which a class of drops is not flown again.
	leastPart = 0.01
)

// whatIf is one change of one factor, everything else kept.
type whatIf struct {
	factor string
	idle   func(*flightPlan) bool // nothing to ease
	change func(*flightPlan)
	coarse bool // leaves the drops that are no fines as they are, so that they need not fly again
}

// whatIfs are the changes behind the drivers, in the order of the answer.
var whatIfs = [...]whatIf{
	{factor: "wind", change: func(f *flightPlan) { f.medium.gain /= 2 }},
	{factor: "fines", change: func(f *flightPlan) { f.count = raisedFines(&f.classes, f.count, fineDrop) }, coarse: true},
	{factor: "height", change: func(f *flightPlan) { f.height = max(lowest, f.height/2) }},
	{factor: "speed", idle: func(f *flightPlan) bool { return f.rotor.thrust == 0 }, change: func(f *flightPlan) { f.rotor.speed /= 2 }},
	{factor: "evaporation", idle: func(f *flightPlan) bool { return f.medium.depression == 0 }, change: func(f *flightPlan) { f.medium.depression = 0 }},
	{factor: "stability", idle: func(f *flightPlan) bool { return f.medium.obukhov == 0 }, change: func(f *flightPlan) { f.medium.obukhov = 0 }},
}

// drivers flies the job again with one factor eased at a time: wind, height and speed halved, drops
// under 150 um raised to that, no evaporation, neutral mixing. Each one's share is how much of the
// deposit at a distance goes away, made to sum to one; a change that brings more counts as nothing.
// Joint effects are not told apart.
func drivers(in Input, base flightPlan, distance, length float64, r resolution) []Driver {
	var s flight
	base.count = splitAt(in.Spray.Droplet.Spectrum, fineDrop*units.Meter, r.classes, &base.classes)
	var changed flightPlan // in one place for all factors
	l := across(distance, length)
	s.land(&base, &l, r)
	fines, rest := base.keep(&l)
	before := fines + rest
	out := make([]Driver, len(whatIfs))
	var gained [len(whatIfs)]float64
	var sum float64
	for i, w := range whatIfs {
		if before < negligible || (w.idle != nil && w.idle(&base)) {
			continue
		}
		changed, l = base, across(distance, length)
		w.change(&changed)
		s.land(&changed, &l, r)
		after := l.crossing()
		if w.coarse {
			after += rest
		}
		if gained[i] = before - after; gained[i] < leastGain*before {
			gained[i] = 0
		}
		sum += gained[i]
	}
	for i, w := range whatIfs {
		out[i] = Driver{Factor: w.factor}
		if sum > 0 {
			out[i].Share = units.Significant(units.Proportion(gained[i]/sum), 2)
		}
	}
	return out
}

// across is a landing booked before and after one distance upwind of which a field of a length lies.
func across(distance, length float64) landing {
	return landing{steps: 3, distance: [mostPlaces]float64{0, distance, distance + length}}
}

// crossing is what lands between the last two distances.
func (l *landing) crossing() float64 { return max(0, l.landed[l.steps-1]-l.landed[l.steps-2]) }

// keep drops from a plan the classes that add next to nothing between the last two distances of its
// landing: easing any factor brings them down earlier still. It reports what those kept add, the fines
// and the rest.
func (f *flightPlan) keep(l *landing) (fines, rest float64) {
	kept := 0
	for i, c := range f.classes[:f.count] {
		if l.between[i] <= leastPart*l.crossing() {
			continue
		}
		f.classes[kept] = c
		kept++
		if c.diameter < fineDrop {
			fines += l.between[i]
		} else {
			rest += l.between[i]
		}
	}
	f.count = kept
	return fines, rest
}
