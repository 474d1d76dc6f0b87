package feasibility

import (
	"math"

	"tractcheck/feasibility/units"
)

// dial is a knob that is a figure. All its figures are in the SI unit of its dimension.
type dial struct {
	knob     Knob
	pointer  string
	moves    room
	sensible float64                         // the step a crew can set
	scale    func(Scales) float64            // one unit of what the caller writes it in
	now      func(*rooms) (float64, bool)    // the figure as it stands, and whether it was stated; 0: no such figure
	ends     func(*rooms, float64) []float64 // how far it may be turned, either way
	turn     func(Mission, float64) Mission  // a mission with another figure
	quantity func(float64) units.Quantity    // the figure as a quantity
}

// dials lists the knobs that are figures, in the order they are tried.
func dials() []dial {
	return []dial{fillDial(), speedDial(), heightDial(), swathDial(), rateDial(), discDial()}
}

// mostDigits is how many significant digits the answer carries on the wire: a remedy's figure has no
// more, so that it can be sent just as it was verified.
const mostDigits = 6

// figure is a decimal figure n x 10^power, in the caller's unit.
type figure struct {
	n     float64
	power int
}

// value is the double nearest to the figure: the same that reading its decimal text gives.
func (f figure) value() float64 {
	if f.power < 0 {
		return f.n / math.Pow10(-f.power)
	}
	return f.n * math.Pow10(f.power)
}

// powers are the decimal steps to look for a figure in, from the one a crew can set down to the last
// digit that the wire carries. most is the largest magnitude, in the caller's unit.
func powers(sensible, scale, most float64) (coarsest, finest int) {
	finest = int(math.Floor(math.Log10(most))) - (mostDigits - 1)
	coarsest = int(math.Round(math.Log10(sensible / scale)))
	return max(coarsest, finest), finest
}

// onWire is a figure as the wire carries it in a unit: six significant digits.
func onWire(si, scale float64) float64 {
	const settled = 13 // digits that survive a conversion there and back
	value := units.Significant(units.Length(si/scale), settled)
	return float64(units.Significant(value, mostDigits)) * scale
}

// least finds the smallest turn of the dial toward an end at which lifts holds. It looks on decimal
// figures that a crew can set; on finer ones only where the change is less than two such steps, so
// that half of the change never does. Between the figure that stands and the end, lifts is taken to
// hold from some point on; the search halves the span down to neighboring figures, one of which was
// seen not to lift and the other to lift. It asks about 25 times at most, and once where the end itself
// does not lift.
func least(from, end, scale, sensible float64, lifts func(float64) bool) (float64, bool) {
	a, b := from/scale, end/scale
	if !(a > 0) || !(b > 0) || math.Abs(b-a) < a*1e-6 || !lifts(end) {
		return 0, false
	}
	best, found := 0.0, false
	coarsest, finest := powers(sensible, scale, max(a, b))
	for power := coarsest; power >= finest; power-- {
		bad, good := between(a, b, power)
		if (b > a) != (good > bad) || good == bad {
			continue // no figure of so few digits lies between
		}
		at := func(n float64) bool { return lifts(figure{n, power}.value() * scale) }
		if !at(good) {
			continue
		}
		for math.Abs(good-bad) > 1 {
			if middle := math.Floor((good + bad) / 2); at(middle) {
				good = middle
			} else {
				bad = middle
			}
		}
		best, found = figure{good, power}.value()*scale, true
		if math.Abs(figure{good, power}.value()-a) >= 2*math.Pow10(power) {
			break
		}
		b = figure{good, power}.value()
	}
	return best, found
}

// between lists the figures next to the two ends of a span, at a decimal step: the last one on the
// near side of a (or a itself), and the last one not beyond b.
func between(a, b float64, power int) (near, far float64) {
	const trace = 1e-7 // what a conversion leaves
	step := math.Pow10(power)
	if b > a {
		return math.Floor(a/step + trace), math.Floor(b/step + trace)
	}
	return math.Ceil(a/step - trace), math.Ceil(b/step - trace)
}

// window holds ends inside the span in which the nozzles hold the rate: flow, and with it pressure,
// goes with speed, swath and rate alike, so the span of speeds is that of all three. Without a span
// the ends stand.
func window(r *rooms, now float64, ends ...float64) []float64 {
	span, speed := r.rate().SpeedRange, r.m.Flight.Speed
	if span.Empty() || !(span.Highest > 0) || !(speed > 0) {
		return ends
	}
	low, high := now*float64(span.Lowest/speed), now*float64(span.Highest/speed)
	for i, e := range ends {
		ends[i] = min(max(e, low), high)
	}
	return ends
}

// unitOr is a scale that was not stated replaced by the US customary unit.
func unitOr[Q ~float64](stated, customary Q) float64 {
	if stated > 0 {
		return float64(stated)
	}
	return float64(customary)
}
