package crew

import (
	"fmt"

	"tractcheck/feasibility/units"
)

// Times taken where they are not stated (from memory).
const (
	defaultRefill = 90 * units.Second
	defaultSwap   = 60 * units.Second
	defaultCharge = 15 * units.Minute // of 9 to 15 for fast chargers: the slow end
	coolingTime   = 5 * units.Minute  // before a warm battery may be charged
)

// times are the crew's times, stated or assumed.
type times struct {
	refill, reload units.Duration // loading without and with a battery swap
	cool, charge   units.Duration
	people         units.Count
}

// times settles the crew's times. Two people or more refill and swap side by side, so loading
// takes the longer of the two; one person takes their sum.
func (c Crew) times(r *report) times {
	refill := stated(c.RefillTime, defaultRefill, "/crew/refill_time", "to refill the tank", r)
	swap := stated(c.BatterySwapTime, defaultSwap, "/crew/battery_swap_time", "to swap the battery", r)
	t := times{refill: refill, cool: coolingTime, people: 1}
	t.charge = stated(c.ChargeTime, defaultCharge, "/crew/charge_time", "to charge one battery", r)
	r.Assume("/crew/charge_time", minutes(coolingTime)+" for a battery to cool before it is charged", "add the cooling to the charge time you send, if it takes longer", sourceHandling)
	if c.People != nil && *c.People > 0 {
		t.people = *c.People
	} else {
		r.Assume("/crew/people", "one person, who refills and swaps batteries one after the other", "send the number of people", sourceOwn)
	}
	r.Cite(sourceCycle)
	t.reload = refill + swap
	if t.people >= 2 {
		t.reload = max(refill, swap)
	}
	return t
}

// stated reports a time as stated, or its default with an assumption.
func stated(time *units.Duration, otherwise units.Duration, pointer, what string, r *report) units.Duration {
	if time != nil && *time >= 0 && units.Finite(*time) {
		return *time
	}
	r.Assume(pointer, fmt.Sprintf("%s seconds %s", figure(otherwise.SI()), what), "time it a few times and send the mean", sourceHandling)
	return otherwise
}
