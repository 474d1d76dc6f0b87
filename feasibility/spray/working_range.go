package spray

import (
	"fmt"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// rateTolerance is how far the rate really applied may be off the rate wanted: 5 %.
// Purdue Extension PPP-154, chapter 6.
const rateTolerance units.Proportion = 0.05

// pumpReserve is the share of the pump's stated flow that is counted on: 90 %. Own choice,
// because some drone pumps miss their stated rating (evaluation of drone injection systems).
const pumpReserve = 0.90

// end is one end of the nozzle's working range.
type end struct {
	pressure units.Pressure
	stated   bool           // by the caller
	surely   units.Pressure // the widest published for the family; zero: none read
	source   finding.Source
}

// workingRange is everything that limits the pressure and the flow.
//
// The nozzle's ends are limits of the spray pattern: under the least pressure the fan collapses,
// over the most the fines grow (Ohio State University Extension, ten tips for pesticide spraying).
// The pump's are limits of the machine. Either way the pressure is taken to stop there, so that
// the rate really applied can be told; a controller that runs on past a nozzle's end holds the
// rate but not the pattern, which is no better.
type workingRange struct {
	low, high    end
	pump         *Pump
	usableFlow   units.Flow     // total; zero where no pump is stated
	flowPressure units.Pressure // at which the nozzles take the usable flow; zero likewise
}

// newWorkingRange takes the caller's limits first and the family's where they are missing.
func newWorkingRange(system System, density units.Density, log *ledger) workingRange {
	h := *system.Hydraulic
	row := rangeOf(h.Type)
	r := workingRange{
		low:  end{row.Min, false, row.SurelyBelow, row.Source},
		high: end{row.Max, false, row.SurelyAbove, row.Source},
		pump: system.Pump,
	}
	r.takeStated(h, log)
	if !r.low.stated {
		log.assume(atMinPressure, fmt.Sprintf("the nozzles work from %s up, as is usual %s%s", inPSI(r.low.pressure), row.Kind, row.LowRemark),
			"send min_pressure from the nozzle's own chart", row.Source)
	}
	if !r.high.stated {
		log.assume(atMaxPressure, fmt.Sprintf("the nozzles work up to %s, as is usual %s", inPSI(r.high.pressure), row.Kind),
			"send max_pressure from the nozzle's own chart", row.Source)
	}
	if r.pump != nil {
		log.cite(sourcePumpReserve)
		r.usableFlow = pumpReserve * r.pump.MaxFlow
		r.flowPressure = h.PressureFor(r.usableFlow/units.Flow(system.Count), density)
	}
	return r
}

// takeStated puts the caller's ends in place. A default end never contradicts a stated one: it
// gives way to it.
func (r *workingRange) takeStated(h Hydraulic, log *ledger) {
	if h.MinPressure != nil {
		r.low = end{pressure: *h.MinPressure, stated: true, source: sourceMission}
	}
	if h.MaxPressure != nil {
		r.high = end{pressure: *h.MaxPressure, stated: true, source: sourceMission}
	}
	if r.low.pressure <= r.high.pressure {
		return
	}
	if r.low.stated && r.high.stated {
		log.find(finding.Finding{
			Code: CodeRangeReversed, Severity: finding.Needed, Subject: atMinPressure,
			Message: fmt.Sprintf("The least pressure stated for the nozzles, %s, is above the most, %s. They were taken the other way round. Check the nozzle chart and send both again.",
				inPSI(r.low.pressure), inPSI(r.high.pressure)),
			Measured: r.low.pressure, Limit: r.high.pressure, Margin: r.high.pressure - r.low.pressure,
			Source: sourceMission,
		})
		r.low.pressure, r.high.pressure = r.high.pressure, r.low.pressure
		return
	}
	if r.low.stated {
		r.high.pressure = r.low.pressure
		r.high.surely = 0
		return
	}
	r.low.pressure = r.high.pressure
	r.low.surely = 0
}

// ceiling reports the highest pressure that nozzle and pump allow, and what bounds it.
func (r workingRange) ceiling() (units.Pressure, string) {
	p, bound := r.high.pressure, BoundNozzlePressure
	if r.pump == nil {
		return p, bound
	}
	if r.pump.MaxPressure < p {
		p, bound = r.pump.MaxPressure, BoundPumpPressure
	}
	if r.flowPressure < p {
		p, bound = r.flowPressure, BoundPumpFlow
	}
	return p, bound
}

// within reports whether a pressure lies inside every limit, the ends counted in.
func (r workingRange) within(p units.Pressure) bool {
	top, _ := r.ceiling()
	return units.AtLeast(p, r.low.pressure) && units.AtMost(p, top)
}

// hold reports the pressure that really stands at the nozzle when the controller asks for p, and
// the limit that binds ("none" where the pressure is inside). The pump's limits go before the
// nozzle's: a nozzle's least pressure that the pump cannot make is not reached.
func (r workingRange) hold(p units.Pressure) (units.Pressure, string) {
	if r.within(p) {
		return p, BoundNone
	}
	top, bound := r.ceiling()
	if p > top {
		return top, bound
	}
	if r.low.pressure > top {
		return top, bound
	}
	return r.low.pressure, BoundNozzlePressure
}

// severity says how grave it is that a pressure lies beyond one end of the range, when the rate
// really applied is off by more than the tolerance (off) or not. A stated end is the caller's own
// fact. A default end forbids only beyond what was read in print for the whole family; short of
// that the nozzle's own range must be supplied, also where the rate is as good as held: what the
// pattern does beyond an end is not known, and the speeds that hold the rate end there.
func (e end) severity(p units.Pressure, isLow, off bool) finding.Severity {
	beyond := e.surely > 0 && (isLow && units.StrictlyBelow(p, e.surely) || !isLow && units.StrictlyBelow(e.surely, p))
	if e.stated || off && beyond && e.source.Standing == finding.Read {
		return finding.Stop
	}
	return finding.Needed
}
