package drift

import (
	"math"

	"tractcheck/feasibility/units"
)

// Estimate is a best value and the range it lies in.
type Estimate struct{ Low, Best, High units.Proportion }

// uncertainty is the factor either way within which the true deposit is taken to lie. Own design. It
// rests on two things, added in squares. What nobody measures at the job of the rotor wake (the share
// of the spray it catches, its growth, the ratio of speeds that sweeps it back, its outwash and the
// layer it leaves, each moved to its plausible ends) is worth a factor of 2.4 at 10 m and 2.0 at 20 m.
// The model's 90th percentile over winds of 1 to 5 m/s stands within a factor of 2 of the orchard
// airblast curve from 7.5 to 30 m, which multirotor fields are reported to resemble. Distance tables of
// multirotor trials could not be read; one of them would narrow it.
const uncertainty = 3

// sweptUncertainty is the further factor, added in squares, where the wake is swept back, or lost on its
// way down: it may still press some spray down, or roll up into vortices that keep small drops aloft, and
// neither is computed.
// Own design. It rests on manned aircraft, all of whose wakes are swept back: their published curve
// (Rautmann et al. 2001) stands from 3.1 times below (at 5 m) to 1.9 times above (at 50 m) the model
// flown without a wake, from 5 to 100 m.
const sweptUncertainty = 3.1

// uncertainty is the factor for the deposits of spray let go over a wake.
func (w wake) uncertainty() float64 {
	own, swept := math.Log(uncertainty), max(w.swept, w.lost)*math.Log(sweptUncertainty)
	return math.Exp(math.Hypot(own, swept))
}

// negligible is the share of the rate reported as nothing, far below any field trial's detection.
const negligible = 1e-8

// estimated puts the range around the deposit at a distance, m, of a field of a length along the wind,
// m, and rounds to the digits it is worth.
func (l *landing) estimated(x, length float64) Estimate {
	deposit := l.deposit(x, length)
	if deposit < negligible {
		return Estimate{}
	}
	return Estimate{
		Low:  units.Significant(units.Proportion(deposit/l.factor), 3),
		Best: units.Significant(units.Proportion(deposit), 3),
		High: units.Significant(units.Proportion(min(1, deposit*l.factor)), 3),
	}
}

// distances are where the deposit is reported, from the downwind field edge.
var distances = [...]units.Length{
	1 * units.Meter, 2 * units.Meter, 3 * units.Meter, 5 * units.Meter, 7.5 * units.Meter,
	10 * units.Meter, 15 * units.Meter, 20 * units.Meter, 30 * units.Meter, 50 * units.Meter,
	75 * units.Meter, 100 * units.Meter,
}

// deposits lays the deposit out at the distances of the answer.
func deposits(l *landing, length float64) []Deposit {
	out := make([]Deposit, len(distances))
	for i, x := range distances {
		out[i] = Deposit{Distance: x, PercentOfRate: l.estimated(x.SI(), length)}
	}
	return out
}
