package crew

import "tractcheck/feasibility/units"

// rotation is the round of the battery sets of some aircraft: flown, cooled, charged. Times are in
// seconds; cycle is the time between two battery swaps of one aircraft and is positive.
type rotation struct {
	aircraft            float64
	cycle, cool, charge float64
}

// batteries reports the sets with which no aircraft waits, the aircraft working out of phase:
// n = k + ceil(k (cooling + charging)/cycle). For one aircraft and (cooling + charging) up to two
// cycles that is the published rule of three batteries a machine (Ozkan 2023).
func (r rotation) batteries() units.Count {
	return capped(r.aircraft + whole(r.aircraft*(r.cool+r.charge)/r.cycle))
}

// chargers reports the chargers that keep up: ceil(k charging/cycle).
func (r rotation) chargers() units.Count {
	return capped(whole(r.aircraft * r.charge / r.cycle))
}

// stretched reports the cycle that fewer batteries or chargers allow in the long run: the k
// aircraft get n - k sets back each cooling + charging, and the chargers give one set each every
// charging time. Batteries must be more than the aircraft, chargers at least one.
func (r rotation) stretched(batteries, chargers units.Count) float64 {
	return max(r.cycle,
		r.aircraft*(r.cool+r.charge)/(batteries.SI()-r.aircraft),
		r.aircraft*r.charge/chargers.SI())
}

// whole is units.Ceil for numbers of any size.
func whole(x float64) float64 {
	if x < 1e9 {
		return float64(units.Ceil(x))
	}
	return 1e9
}
