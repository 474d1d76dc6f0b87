package drift

import "tractcheck/feasibility/units"

// Driver is the share of one factor in the result.
type Driver struct {
	Factor string // wind, fines, height, speed, evaporation, stability
	Share  units.Proportion
}

// whatIf is one change of one factor, everything else kept.
type whatIf struct {
	factor string
	change func(*flightPlan)
}

// whatIfs are the changes behind the drivers, in the order of the answer.
var whatIfs = [...]whatIf{
	{"wind", func(f *flightPlan) { f.medium.gain /= 2 }},
	{"fines", func(f *flightPlan) { without(f.classes[:f.count], 150e-6) }},
	{"height", func(f *flightPlan) { f.height = max(lowest, f.height/2) }},
	{"speed", func(f *flightPlan) { f.rotor.speed /= 2 }},
	{"evaporation", func(f *flightPlan) { f.medium.depression = 0 }},
	{"stability", func(f *flightPlan) { f.medium.obukhov = 0 }},
}

// drivers flies the job again with one factor eased at a time: wind, height and speed halved, drops
// under 150 um raised to that, no evaporation, neutral mixing. Each one's share is how much of the
// deposit at a distance goes away, made to sum to one; a change that brings more counts as nothing.
// Joint effects are not told apart.
func drivers(in Input, base flightPlan, distance, length float64) []Driver {
	base.count = split(in.Spray.Droplet.Spectrum, coarse.stride, &base.classes)
	farthest := distance + length
	before := base.land(farthest, coarse).deposit(distance, length)
	out := make([]Driver, len(whatIfs))
	var gained [len(whatIfs)]float64
	var sum float64
	for i, w := range whatIfs {
		changed := base
		w.change(&changed)
		gained[i] = max(0, before-changed.land(farthest, coarse).deposit(distance, length))
		if before < negligible {
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
