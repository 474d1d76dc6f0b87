package spray

import (
	"fmt"
	"math"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// isOff reports whether the rate really applied is more than 5 % off the rate wanted.
func isOff(delivered, wanted units.ApplicationRate) bool {
	return !units.AtMost(math.Abs(float64(delivered/wanted)-1), rateTolerance.SI())
}

// judge finds what is wrong with pressure, pump and rate. bound names the limit that holds the
// pressure, "none" inside the range.
//
// Three questions are kept apart, because different remedies answer them: does the nozzle spray
// well at this pressure, can the pump do it, and is the rate on the ground still the rate wanted.
// Only the last is a fault of the result itself; it is judged by the caller's own limits or by
// what was read in print, never by a range from memory alone.
func (n nozzles) judge(r Result, bound string, log *ledger) {
	off := isOff(r.RateDelivered, n.job.Rate)
	n.judgePressure(r, off, log)
	if n.limits.pump == nil {
		pumpNotStated(log)
	} else {
		n.judgePump(r, log)
	}
	if off {
		severity, source := n.gravity(*r.Pressure, bound)
		log.find(rateNotHeld(r, n.job, severity, source, n.sizeAdvice(r.FlowEach, log)))
	}
	if r.SpeedRange.Empty() {
		log.find(n.noSpeed(r.SpeedRange))
	}
}

// judgePressure holds the pressure against the nozzle's own range.
func (n nozzles) judgePressure(r Result, off bool, log *ledger) {
	p, low, high := *r.Pressure, n.limits.low, n.limits.high
	if !units.AtLeast(p, low.pressure) {
		log.find(compared(finding.Finding{
			Code: CodePressureBelowRange, Severity: low.severity(p, true, off), Subject: atSpeed,
			Message: fmt.Sprintf("Holding the rate at %s needs only %s, under the nozzles' least %s%s. The spray pattern would collapse and leave strips. Fly faster or fit smaller nozzles%s.",
				inMPH(n.job.Speed), inPSI(p), inPSI(low.pressure), low.origin(), low.ask("min_pressure")),
			Source: low.source,
		}, p, low.pressure, false))
	}
	if !units.AtMost(p, high.pressure) {
		log.find(compared(finding.Finding{
			Code: CodePressureAboveRange, Severity: high.severity(p, false, off), Subject: atSpeed,
			Message: fmt.Sprintf("Holding the rate at %s needs %s, over the nozzles' most %s%s. More pressure also means more fine drops. Fly slower or fit larger nozzles%s.",
				inMPH(n.job.Speed), inPSI(p), inPSI(high.pressure), high.origin(), high.ask("max_pressure")),
			Source: high.source,
		}, p, high.pressure, true))
	}
}

// origin says where an end of the range comes from.
func (e end) origin() string {
	if e.stated {
		return ""
	}
	return " (taken for this kind of nozzle, not stated)"
}

// ask adds what to send when the end was not stated.
func (e end) ask(member string) string {
	if e.stated {
		return ""
	}
	return ", or send " + member + " from the nozzle's own chart"
}

// judgePump holds flow and pressure against the pump's two figures, and against the straight line
// between them, which stands in for the curve that nobody stated.
func (n nozzles) judgePump(r Result, log *ledger) {
	pump, p := *n.limits.pump, *r.Pressure
	pumpFlow(r, n.job, n.limits.usableFlow, pump, log)
	if !units.AtMost(p, pump.MaxPressure) {
		log.find(compared(finding.Finding{
			Code: CodePumpPressureExceeded, Severity: finding.Stop, Subject: atPumpPress,
			Message: fmt.Sprintf("Holding the rate at %s needs %s, but the pump makes %s at most. Fly slower or fit larger nozzles.",
				inMPH(n.job.Speed), inPSI(p), inPSI(pump.MaxPressure)),
			Source: sourceMission,
		}, p, pump.MaxPressure, true))
		return
	}
	// Straight line from the stated flow without pressure to no flow at the stated pressure.
	left := n.limits.usableFlow * units.Flow(1-float64(p/pump.MaxPressure))
	if units.AtMost(r.FlowTotal, n.limits.usableFlow) && !units.AtMost(r.FlowTotal, left) {
		log.find(finding.Finding{
			Code: CodePumpCurveUnknown, Severity: finding.Caution, Subject: atPump,
			Message: fmt.Sprintf("A pump gives less the harder it pushes. Going straight from its most flow to its most pressure, 90 %% of what is left at %s is %s, and the job needs %s. Ask the maker for the pump's flow at %s, or catch the flow on the ground first.",
				inPSI(p), inGPM(left), inGPM(r.FlowTotal), inPSI(p)),
			Measured: r.FlowTotal, Limit: left, Margin: left - r.FlowTotal,
			Source: sourcePump,
		})
	}
}

// pumpFlow holds the total flow against 90 % of the pump's stated flow. The reserve is our own choice, so
// by itself it stops nothing; but the speeds that hold the rate end there, so a job past it is not settled.
func pumpFlow(r Result, job Job, usable units.Flow, pump Pump, log *ledger) {
	if units.AtMost(r.FlowTotal, usable) {
		return
	}
	severity, source := finding.Needed, sourcePumpReserve
	if isOff(r.RateDelivered, job.Rate) {
		severity = finding.Stop
	}
	if !units.AtMost(r.FlowTotal, pump.MaxFlow) {
		severity, source = finding.Stop, sourceMission
	}
	log.find(compared(finding.Finding{
		Code: CodePumpFlowExceeded, Severity: severity, Subject: atPumpFlow,
		Message: fmt.Sprintf("The job needs %s in all. The pump is good for %s, that is 90 %% of its stated %s. Fly slower, narrow the swath, or use a lower rate if the label allows.",
			inGPM(r.FlowTotal), inGPM(usable), inGPM(pump.MaxFlow)),
		Source: source,
	}, r.FlowTotal, usable, true))
}

// pumpNotStated warns that nobody said what the pump can do.
func pumpNotStated(log *ledger) {
	log.cite(sourcePump)
	log.assume(atPump, "the pump gives the flow and the pressure the job needs", "send max_flow and max_pressure of the pump", sourcePump)
	log.find(finding.Finding{
		Code: CodePumpNotStated, Severity: finding.Caution, Subject: atPump,
		Message: "The pump is not described, so nothing here shows that it can give this flow. Send max_flow and max_pressure, or catch the flow on the ground before the job.",
		Source:  sourcePump,
	})
}

// gravity says how grave it is that the rate is not held, from the limit that holds the pressure.
// The pump and a stated range are the caller's own facts; a default range stops the job only as
// far as its source reaches.
func (n nozzles) gravity(p units.Pressure, bound string) (finding.Severity, finding.Source) {
	if bound != BoundNozzlePressure {
		return finding.Stop, sourcePurdue
	}
	e, isLow := n.limits.high, false
	if p < n.limits.low.pressure {
		e, isLow = n.limits.low, true
	}
	if e.stated {
		return finding.Stop, sourcePurdue
	}
	return e.severity(p, isLow, true), e.source
}

// rateNotHeld says what is really applied.
func rateNotHeld(r Result, job Job, severity finding.Severity, source finding.Source, advice string) finding.Finding {
	side := "less"
	if r.RateDelivered > job.Rate {
		side = "more"
	}
	speeds := fmt.Sprintf("Fly between %s and %s", inMPH(roundedUp(r.SpeedRange.Lowest)), inMPH(roundedDown(r.SpeedRange.Highest)))
	switch {
	case r.SpeedRange.Empty():
		speeds = "No speed holds the rate with these limits"
	case r.SpeedRange.LowestBound == BoundNone:
		speeds = fmt.Sprintf("Fly at %s or slower", inMPH(roundedDown(r.SpeedRange.Highest)))
	}
	return finding.Finding{
		Code: CodeRateNotHeld, Severity: severity, Subject: atSpeed,
		Message: fmt.Sprintf("At %s the system cannot put on %s. It would really put on %s, %s %s than wanted. %s%s.",
			inMPH(job.Speed), inGPA(job.Rate), inGPA(r.RateDelivered),
			inPercent(units.Proportion(math.Abs(float64(r.RateDelivered/job.Rate)-1))), side, speeds, advice),
		Measured: r.RateDelivered, Limit: job.Rate,
		Margin: -units.ApplicationRate(math.Abs(float64(r.RateDelivered - job.Rate))),
		Source: source,
	}
}

// noSpeed says which two limits contradict each other.
func (n nozzles) noSpeed(r SpeedRange) finding.Finding {
	severity, source := finding.Needed, n.limits.low.source
	if n.limits.low.stated {
		severity, source = finding.Stop, sourceMission
	}
	limit := "its most pressure"
	if r.HighestBound == BoundPumpFlow {
		limit = "the flow it is good for"
	}
	top, _ := n.limits.ceiling()
	return compared(finding.Finding{
		Code: CodeNoSpeedHoldsRate, Severity: severity, Subject: atPump,
		Message: fmt.Sprintf("No speed works: the nozzles need %s to spray well%s, but the pump reaches only %s at %s. Fit smaller or fewer nozzles, or a stronger pump.",
			inPSI(n.limits.low.pressure), n.limits.low.origin(), inPSI(top), limit),
		Source: source,
	}, top, n.limits.low.pressure, false)
}

// sizeAdvice names the ISO 10625 size that would hold the rate nearest to its 40 psi rating
// inside the nozzles' range, as the end of a sentence.
func (n nozzles) sizeAdvice(each units.Flow, log *ledger) string {
	best, away := "", math.Inf(1)
	for _, size := range nozzleSizes {
		other := Hydraulic{RatedFlow: size.RatedFlow, RatedPressure: size.RatedPressure}
		p := other.PressureFor(each, n.job.Density)
		if !n.limits.within(p) {
			continue
		}
		if off := math.Abs(math.Log(float64(p / size.RatedPressure))); off < away {
			best, away = fmt.Sprintf(", or fit nozzles of ISO size %s, which would run at %s", size.Code, inPSI(p)), off
		}
	}
	if best != "" {
		log.cite(sourceISO10625)
	}
	return best
}
