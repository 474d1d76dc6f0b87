package flight

import (
	"fmt"
	"math"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// given says which facts were stated and usable.
type given struct{ air, share, rotors, oneHover bool }

// What is assumed in the same words for every aircraft.
var (
	assumedShare      = fmt.Sprintf("%.0f percent of the battery may be used; the rest stays as reserve", 100*usableShare)
	assumedEfficiency = fmt.Sprintf("%.0f percent of battery power becomes lift in the ideal sense; known aircraft lie between %.0f and %.0f percent",
		100*defaultEfficiency, 100*lowEfficiency, 100*highEfficiency)
	assumedForward = fmt.Sprintf("in forward flight %.0f percent of hover power makes lift and the blade tips move at %.0f mph",
		100*inducedShare, tipSpeed.In(units.MilePerHour))
)

// assumptions lists what was taken for each fact not stated, in the order of the request, and the
// coefficients of forward flight, which no caller is asked for. Where a range is known the value
// that costs more power was taken, except for the overall efficiency, which is the middle one.
func assumptions(machine Machine, m Model, stated given) []finding.Assumption {
	list := make([]finding.Assumption, 0, 8)
	add := func(subject, what, settle string, source finding.Source) {
		list = append(list, finding.Assumption{Subject: subject, Assumed: what, Settle: settle, Source: source})
	}
	if !stated.share {
		add(subjectUsable, assumedShare, "send the share your operation uses, as the battery's maker allows", batteryPractice)
	}
	if !stated.rotors && m.DiscArea > 0 {
		what, source := m.assumedRotors()
		add(subjectRotors, what, "send the number and diameter of the rotors", source)
	}
	if m.Calibrated {
		assumeHover(machine, stated, add)
	} else {
		add(subjectEndurance, assumedEfficiency, "send a hover time you measured with a full tank, and one with an empty tank", ownChoice)
	}
	if !machine.dragAreaStated() {
		add(subjectDragArea, fmt.Sprintf("air drag as of a flat plate of %.2g ft2, good to a factor of two; it matters little below 15 mph", squareFeet(units.Area(m.dragArea))),
			"send the drag area if the maker gives it", ownChoice)
	}
	if !machine.sprayPowerStated() {
		add(subjectPump, fmt.Sprintf("pump and atomizers draw %.0f W while spraying, %.0f percent of hover power at the maker's maximum", m.spray, 100*sprayShare),
			"compare the plan with the battery left after a flight you timed while spraying", ownChoice)
	}
	add(subjectSpeed, assumedForward, "compare the plan with the battery left after a flight you timed at this speed", powerTerms)
	if !stated.air {
		add(subjectWeather, "air as dense as at sea level on a standard day", "send the weather and the field's elevation", standardAir)
	}
	return list
}

// assumeHover lists what a measured hover leaves open.
func assumeHover(machine Machine, stated given, add func(subject, what, settle string, source finding.Source)) {
	if machine.MeasuredShare == nil {
		add(subjectEndurance, "the measured hover ran the battery all the way down, so the reserve is taken off that time",
			"if the hover was stopped with charge left, send the time that the whole battery would have lasted", ownChoice)
	}
	add(subjectEndurance, "the hover was measured in still air near sea level",
		"send a time measured there; one from thinner air makes the answer a little too cautious, one from cold, dense air a little too hopeful", standardAir)
	if stated.oneHover {
		add(subjectEndurance, assumedExponent, "send the hover time with an empty tank as well as with a full one", declaredMachines)
	}
}

// assumedExponent is how power is taken to grow with weight where one hover was measured.
var assumedExponent = fmt.Sprintf("hover power grows with the %.1f power of weight, as theory has it; of five declared machines three come within 8 percent of that at their other weight, "+
	"and all lie between the %.2f and the %.2f power", hoverExponent, lowestDeclaredExponent, highestDeclaredExponent)

// assumedRotors says what disc area stands in for rotors that were not stated.
func (m Model) assumedRotors() (string, finding.Source) {
	if m.Calibrated {
		return fmt.Sprintf("rotors that sweep %.3g ft2 in all, as fits your hover time at the usual efficiency", squareFeet(m.DiscArea)), ownChoice
	}
	return fmt.Sprintf("rotors that sweep %.3g ft2 in all, the least that known spray aircraft of this weight have (%.1f to %.1f kg/m2); with larger rotors it flies up to %.0f percent longer",
		squareFeet(m.DiscArea), leastDiscLoading, discLoading, 100*(math.Sqrt(discLoading/leastDiscLoading)-1)), declaredMachines
}

func squareFeet(a units.Area) float64 { return a.SI() / (units.Foot.SI() * units.Foot.SI()) }
