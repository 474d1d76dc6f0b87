package drift

import (
	"math"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// judgeModel says where the mission lies outside what the room computes, and how the rotor wake
// stands: unknown, swept back, or helping.
func judgeModel(in Input, plan flightPlan, book *ledger) {
	if height := in.Release.Height; height.SI() < lowest || height.SI() > highest {
		book.report(finding.Finding{Code: CodeOutsideModel, Severity: finding.Caution, Subject: atHeight, Source: sourceDesign,
			Message: "Drift is computed for release heights of 0.7 to 164 ft above the crop; " + inFeet(units.Length(plan.height)) + " was used. Check the height you sent.", Measured: height})
	}
	if in.WindSpeed.SI() > mostWind {
		book.report(finding.Finding{Code: CodeOutsideModel, Severity: finding.Caution, Subject: atWind, Source: sourceDesign,
			Message: "Drift is computed for winds up to 134 mph. Check the wind you sent.", Measured: in.WindSpeed})
	}
	if in.Release.Mass == nil || in.Release.DiscArea == nil {
		book.report(finding.Finding{Code: CodeWakeNotStated, Severity: finding.Caution, Subject: atRotors, Source: sourceDesign,
			Message: "Without the aircraft's weight and rotor size no help from the rotor wake was counted, so the drift shown is likely too high. Send the rotors' number and diameter and the takeoff weight."})
		return
	}
	hover := hoverInduced(in.Release.Mass.Weight(), *in.Release.DiscArea, units.Density(plan.medium.airDensity))
	// The wind across the flight sweeps the wake back too, see below.
	wind, most := plan.medium.at(plan.height), noHelp*hover.SI()
	limit := units.Speed(math.Sqrt(max(0, most*most-wind*wind)))
	if units.StrictlyBelow(in.Release.Speed, limit) {
		return
	}
	speed, slower := mphApart(in.Release.Speed, limit)
	f := finding.Finding{Code: CodeWakeSweptBack, Severity: finding.Caution, Subject: atSpeed, Source: sourceMomentum,
		Message: "At " + speed + " mph in this wind the rotor wake is swept back and no longer presses the spray down, and what it does instead is less sure. Fly slower than " + slower + " mph with this machine and weight, or lower."}
	if limit < 1*units.MeterPerSecond {
		f.Subject = atWind
		f.Message = "This wind alone sweeps the rotor wake back, so that it no longer presses the spray down, and what it does instead is less sure. Wait for less wind, or fly lower."
		f.Measured = in.WindSpeed
		book.report(f)
		return
	}
	f.Measured, f.Limit, f.Margin = upTo(in.Release.Speed, limit)
	book.report(f)
}
