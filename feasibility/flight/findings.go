package flight

import (
	"fmt"
	"math"
	"strconv"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// The kinds of finding this room reports.
const (
	// CodePowerNotComputable: a fact is missing without which no battery time can be given.
	CodePowerNotComputable finding.Code = "power_not_computable"
	// CodePowerNotMeasured: no believable hover time was stated, so battery time is an estimate.
	CodePowerNotMeasured finding.Code = "power_not_measured"
	// CodeRotorsNotStated: the disc area was assumed from the weight.
	CodeRotorsNotStated finding.Code = "rotors_not_stated"
	// CodeOddCoaxialRotors: a coaxial set with an odd number of rotors.
	CodeOddCoaxialRotors finding.Code = "odd_coaxial_rotors"
	// CodeEnduranceImpossible: a measured hover time is longer than ideal rotors could give.
	CodeEnduranceImpossible finding.Code = "endurance_impossible"
	// CodeEnduranceUnusual: a measured hover time implies an efficiency outside what parts reach.
	CodeEnduranceUnusual finding.Code = "endurance_unusual"
	// CodeEndurancePairUnusual: the two hover times grow with weight as rotors do not.
	CodeEndurancePairUnusual finding.Code = "endurance_pair_unusual"
	// CodeEndurancePairAlike: the two hover times were measured at nearly one weight.
	CodeEndurancePairAlike finding.Code = "endurance_pair_alike"
	// CodeEnduranceExtrapolated: one hover was measured, and battery time at another weight is worked
	// out from it.
	CodeEnduranceExtrapolated finding.Code = "endurance_extrapolated"
	// CodeThinReserve: the stated usable share leaves little in the battery.
	CodeThinReserve finding.Code = "thin_reserve"
)

// Parts of the request that the findings and assumptions speak of.
const (
	subjectEnergy         = "/aircraft/battery/energy"
	subjectUsable         = "/aircraft/battery/usable"
	subjectRotors         = "/aircraft/rotors"
	subjectRotorCount     = "/aircraft/rotors/count"
	subjectEndurance      = "/aircraft/hover_endurance"
	subjectEmptyEndurance = "/aircraft/hover_endurance/empty"
	subjectFullEndurance  = "/aircraft/hover_endurance/full"
	subjectDragArea       = "/aircraft/drag_area"
	subjectPump           = "/spray_system/pump"
	subjectSpeed          = "/flight/speed"
	subjectWeather        = "/weather"
)

// findings lists what is wrong or worth knowing: what stops the computation, then what weakens it.
func findings(machine Machine, m Model, d discs, got measurement) []finding.Finding {
	var list []finding.Finding
	if m.Usable <= 0 || m.law.power <= 0 {
		list = append(list, notComputable(m))
	}
	for _, p := range got.impossible {
		list = append(list, impossible(p))
	}
	if !m.Calibrated && m.law.power > 0 && m.Usable > 0 {
		list = append(list, notMeasured(machine, m))
	}
	if !d.stated && d.area > 0 {
		list = append(list, rotorsNotStated(m))
	}
	if machine.Rotors != nil && machine.Rotors.Coaxial && machine.Rotors.Count%2 != 0 {
		list = append(list, oddCoaxial(machine.Rotors.Count))
	}
	list = append(list, calibrationFindings(got)...)
	if len(got.used) == 1 && !got.alike {
		list = append(list, extrapolated(machine, got.used[0])...)
	}
	if machine.UsableShare != nil && units.StrictlyBelow(units.Proportion(mostUsableShare), *machine.UsableShare) {
		list = append(list, thinReserve(*machine.UsableShare))
	}
	return list
}

// calibrationFindings speak of measured hovers that were used but look odd.
func calibrationFindings(got measurement) []finding.Finding {
	var list []finding.Finding
	if got.alike {
		list = append(list, finding.Finding{
			Code: CodeEndurancePairAlike, Severity: finding.Caution, Subject: subjectEmptyEndurance,
			Message: "The empty and the full hover were at nearly the same weight, so they do not tell how power grows with weight. Only the full one is used. Send a time measured with the tank empty.",
			Source:  ownChoice,
		})
	}
	for _, p := range got.used {
		if !units.AtLeast(p.efficiency(), leastPartsEfficiency) || !units.AtMost(p.efficiency(), mostPartsEfficiency) {
			list = append(list, unusual(p))
		}
	}
	if n := got.exponent; len(got.used) == 2 && (!units.AtLeast(n, leastUsualExponent) || !units.AtMost(n, mostUsualExponent)) {
		list = append(list, pairUnusual(n))
	}
	return list
}

// pairUnusual speaks of two hovers that do not fit each other. Both are kept while any rotors could
// do that; beyond, the one that asks the more power.
func pairUnusual(exponent float64) finding.Finding {
	kept := "Both are used as sent, and battery time may be off."
	if exponent < leastExponent || exponent > mostExponent {
		kept = "No rotors do that, so only the hover that asks the more power is used as sent, and battery time is a careful guess."
	}
	return finding.Finding{
		Code: CodeEndurancePairUnusual, Severity: finding.Caution, Subject: subjectEndurance, Source: momentumTheory,
		Message: fmt.Sprintf("From empty to full, power grows with weight to the power %.2f; for rotors it is near 1.5. The two hovers were likely stopped at different charge. %s "+
			"Measure both again down to the same battery voltage.", exponent, kept),
	}
}

// extrapolated says how far the hover at the other end of the weights may be off, where only one was
// measured: t2 = t1 (m1/m2)^n over the exponents that declared pairs have. Measured is the time by
// theory, and Limit the shortest of them.
func extrapolated(machine Machine, known point) []finding.Finding {
	name, other, to := "an empty tank", machine.EmptyMass.SI(), machine.EmptyEndurance
	if known.subject == subjectEmptyEndurance {
		name, other, to = "a full load", machine.FullMass.SI(), machine.FullEndurance
	}
	ratio := known.mass / other
	if to != nil || !(other > 0) || !units.AtLeast(max(ratio, 1/ratio), leastMassRatio) {
		return nil
	}
	at := func(exponent float64) units.Duration {
		return units.Duration(machine.BatteryEnergy.SI() * machine.measuredShare() / known.power * math.Pow(ratio, exponent))
	}
	low, best, high := at(lowestDeclaredExponent), at(hoverExponent), at(highestDeclaredExponent)
	low, high = min(low, high), max(low, high)
	if !units.Finite(high) {
		return nil
	}
	return []finding.Finding{{
		Code: CodeEnduranceExtrapolated, Severity: finding.Caution, Subject: subjectEndurance, Source: declaredMachines,
		Message: fmt.Sprintf("One hover time was sent. From it we work out %s minutes of hover with %s; known aircraft would lie between %s and %s minutes. Battery time at other weights is less certain by that much. "+
			"Send the hover time with %s as well.", minutes(best), name, minutes(low), minutes(high), name),
		Measured: best,
	}}
}

// minutes prints a time with three digits, without an exponent.
func minutes(t units.Duration) string {
	return strconv.FormatFloat(units.Significant(t.In(units.Minute), 3), 'f', -1, 64)
}

// notComputable asks for the fact without which battery time is zero; zero is never an answer.
func notComputable(m Model) finding.Finding {
	f := finding.Finding{Code: CodePowerNotComputable, Severity: finding.Needed, Source: momentumTheory}
	if m.Usable <= 0 {
		f.Subject = subjectEnergy
		f.Message = "Without the battery's energy no flight time can be worked out. Send it in watt-hours, as printed on the battery."
		return f
	}
	f.Subject = subjectRotors
	f.Message = "Without the rotors or the aircraft's weight no flight power can be worked out. Send the number and diameter of the rotors and the maker's maximum takeoff weight."
	return f
}

// impossible speaks of a hover that beats ideal rotors: most often a time or an energy in the wrong
// unit. It is not used, since it would promise flights that cannot be flown.
func impossible(p point) finding.Finding {
	return finding.Finding{
		Code:     CodeEnduranceImpossible,
		Severity: finding.Needed,
		Subject:  p.subject,
		Message: fmt.Sprintf("The hover time sent means %.0f W at %.1f lb. Even perfect rotors of this size would need %.0f W, so the time is not used and battery time is an estimate. "+
			"Check the hover time, the battery's energy, the weights and the rotor diameter, and their units.",
			p.power, units.Mass(p.mass).In(units.Pound), p.ideal),
		Measured: units.Power(p.power),
		Limit:    units.Power(p.efficiency() * p.power),
		Margin:   units.Power(p.power - p.ideal),
		Source:   momentumTheory,
	}
}

// unusual speaks of a hover that is used although its efficiency lies outside what the ranges of
// figure of merit, motor and controller multiply to (from memory).
func unusual(p point) finding.Finding {
	f := finding.Finding{
		Code:     CodeEnduranceUnusual,
		Severity: finding.Caution,
		Subject:  p.subject,
		Measured: units.Proportion(p.efficiency()),
		Limit:    units.Proportion(mostPartsEfficiency),
		Margin:   units.Proportion(mostPartsEfficiency - p.efficiency()),
		Source:   momentumTheory,
	}
	f.Message = fmt.Sprintf("The hover time sent means that %.0f percent of battery power becomes lift in the ideal sense, more than good motors and rotors reach (%.0f). Battery time may be shorter than we say. "+
		"Check the hover time, the battery's energy and the weight.", 100*p.efficiency(), 100*mostPartsEfficiency)
	if !units.AtLeast(p.efficiency(), leastPartsEfficiency) {
		f.Limit, f.Margin = units.Proportion(leastPartsEfficiency), units.Proportion(p.efficiency()-leastPartsEfficiency)
		f.Message = fmt.Sprintf("The hover time sent means that only %.0f percent of battery power becomes lift in the ideal sense; %.0f is the least expected. "+
			"Check the hover time and the battery's energy; a worn or cold battery also shows like this.", 100*p.efficiency(), 100*leastPartsEfficiency)
	}
	return f
}

// messageNotMeasured says how far the default may be off: the ends of the efficiency range over it.
var messageNotMeasured = fmt.Sprintf("No usable measured hover time: battery time is an estimate that may turn out %.0f percent shorter or %.0f percent longer. "+
	"Time a hover with a full tank down to the low-battery warning, divide by the part of the battery used, and send that time.",
	100*(1-lowEfficiency/defaultEfficiency), 100*(highEfficiency/defaultEfficiency-1))

// notMeasured says that battery time is an estimate.
func notMeasured(machine Machine, m Model) finding.Finding {
	f := finding.Finding{Code: CodePowerNotMeasured, Severity: finding.Caution, Subject: subjectEndurance, Source: declaredMachines, Message: messageNotMeasured}
	if hover := m.Endurance(machine.reference()); hover > 0 {
		f.Measured = hover
	}
	return f
}

// rotorsNotStated weighs less once a hover was measured: then only forward flight rests on the guess.
func rotorsNotStated(m Model) finding.Finding {
	f := finding.Finding{
		Code: CodeRotorsNotStated, Severity: finding.Caution, Subject: subjectRotors, Source: declaredMachines,
		Message: "The rotors were not stated, so their size is guessed from the aircraft's weight. Send their number and diameter: flight power depends on them.",
	}
	if m.Calibrated {
		f.Severity = finding.Note
		f.Message = "The rotors were not stated, so their size is guessed from your hover time and the aircraft's weight. Hover power is as you measured; power in forward flight is less certain. Send the number and diameter of the rotors."
	}
	return f
}

func oddCoaxial(count units.Count) finding.Finding {
	return finding.Finding{
		Code: CodeOddCoaxialRotors, Severity: finding.Caution, Subject: subjectRotorCount, Source: momentumTheory,
		Message: fmt.Sprintf("Coaxial rotors come in pairs, but the count is %d. The odd rotor is left out. Send the count of all rotors, both of every pair.", int(count)),
	}
}

// thinReserve speaks of a stated share beyond the usual range, 0.70 to 0.85 (from memory).
func thinReserve(share units.Proportion) finding.Finding {
	return finding.Finding{
		Code: CodeThinReserve, Severity: finding.Caution, Subject: subjectUsable, Source: batteryPractice,
		Message: fmt.Sprintf("Using %.0f percent of the battery leaves little for a go-around, wind or cold. Plan to land with at least %.0f percent left.",
			share.In(units.Percent), 100*(1-mostUsableShare)),
		Measured: share,
		Limit:    units.Proportion(mostUsableShare),
		Margin:   units.Proportion(mostUsableShare) - share,
	}
}
