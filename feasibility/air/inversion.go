package air

import (
	"fmt"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// InversionState says whether a temperature inversion lies over the field.
type InversionState string

// The inversion states. Presumed and Possible are inferred, never observed.
const (
	InversionObserved InversionState = "observed" // stated by the caller or measured by a lapse
	InversionPresumed InversionState = "presumed" // inferred from time, sun, cloud and wind
	InversionPossible InversionState = "possible" // a fact that would rule it out is missing
	InversionAbsent   InversionState = "absent"
)

// The findings of an inversion.
const (
	// CodeInversionObserved stops the job: the caller saw or measured an inversion.
	CodeInversionObserved finding.Code = "inversion_observed"
	// CodeInversionPresumed stops the job: hour, sky and wind are those of an inversion.
	CodeInversionPresumed finding.Code = "inversion_presumed"
	// CodeInversionPossible asks for the fact that would rule an inversion out.
	CodeInversionPossible finding.Code = "inversion_possible"
)

const (
	// calm is the wind under which labels ask the applicator to rule an inversion out.
	// Source: federal auxin herbicide labels; Basol, Iowa State University Extension.
	calm = 3 * units.MilePerHour
)

// verdict is what is held of an inversion, why, and the finding that says so; a finding without
// a code says nothing.
type verdict struct {
	state   InversionState
	basis   string
	why     string // of one that is possible: what is missing
	finding finding.Finding
}

// fillInversion decides whether an inversion lies over the field, in the order: temperatures
// measured at two heights; what the caller saw; the stability class; the hour with wind and
// cloud. A report of none seen does not lift what hour, sky and wind presume, since an inversion
// is easily missed by eye; a measured pair does, where it decides.
func (s *State) fillInversion(o Observation, n *notes) {
	v, measured := measuredInversion(o)
	if measured {
		n.cite(adiabat)
	} else if o.Lapse != nil {
		n.warnUnusable(*o.Lapse)
	}
	if v.state != InversionObserved && o.InversionObserved != nil && *o.InversionObserved {
		v, measured = seenInversion(), true
	}
	if !measured || v.state == InversionPossible {
		v = graver(v, s.inferredInversion(o), measured)
		n.cite(inversionHours, labelWind)
	}
	s.Inversion, s.InversionBasis = v.state, v.basis
	if v.finding.Code != "" {
		n.find(v.finding)
	}
}

// graver is what is held where a measured pair does not decide, or there is none: what is inferred, and
// where that is no inversion, that one is possible.
func graver(undecided, inferred verdict, measured bool) verdict {
	switch {
	case !measured:
		return inferred
	case inferred.state != InversionPresumed:
		return undecided
	}
	inferred.basis += "; " + undecided.why
	inferred.finding.Message += " The two temperatures that you sent do not show that: " + undecided.why + "."
	return inferred
}

// measuredInversion judges by two measured temperatures: air that is warmer above is an inversion, and
// air that cools by less than it must to mix decides nothing.
func measuredInversion(o Observation) (verdict, bool) {
	if o.Lapse == nil {
		return verdict{}, false
	}
	d, ok := o.Lapse.difference()
	switch {
	case !ok:
		return verdict{}, false
	case d > 0:
		return warmerAbove(*o.Lapse, d), true
	case units.AtLeast(-d, o.Lapse.neutral()):
		return verdict{state: InversionAbsent, basis: fmt.Sprintf("measured: the upper air is %s cooler than the air below", fahrenheitDifference(-d, 0))}, true
	default:
		return hardlyCooler(*o.Lapse, -d), true
	}
}

// hardlyCooler is the verdict of a pair that leaves the air stable or nearly so: no thermometer tells
// that from an inversion.
func hardlyCooler(l Lapse, cooler units.TemperatureDifference) verdict {
	measured, least, _ := finding.Apart(cooler, l.neutral(), fahrenheitDifference)
	why := "the air was measured as warm above as below"
	if cooler > 0 {
		why = fmt.Sprintf("the upper air was only %s cooler", measured)
	}
	why += fmt.Sprintf(", and air that mixes is at least %s cooler", least)
	v := possible("/weather/lapse", why, "Measure both again a little later and send them.")
	v.finding.Source, v.finding.Measured, v.finding.Limit, v.finding.Margin = adiabat, cooler, l.neutral(), cooler-l.neutral()
	return v
}

// warmerAbove is the verdict of a measured inversion; its margin is below zero by the difference.
func warmerAbove(l Lapse, d units.TemperatureDifference) verdict {
	low, high := min(l.LowerHeight, l.UpperHeight), max(l.LowerHeight, l.UpperHeight)
	basis := fmt.Sprintf("measured: the air is %s warmer at %s than at %s", fahrenheitDifference(d, 0), feet(high, 0), feet(low, 0))
	return verdict{state: InversionObserved, basis: basis, finding: finding.Finding{
		Code:     CodeInversionObserved,
		Severity: finding.Stop,
		Subject:  "/weather/lapse",
		Message: fmt.Sprintf("The air is %s warmer at %s than at %s: a temperature inversion lies over the field. Fine drops stay under it and drift far as a cloud. "+
			"Do not spray. Wait until the upper air is the cooler one, as a rule at least 1 hour after sunrise.", fahrenheitDifference(d, 0), feet(high, 0), feet(low, 0)),
		Measured: d,
		Limit:    units.TemperatureDifference(0),
		Margin:   -d,
		Source:   labelInversion,
	}}
}

// seenInversion is the verdict of an inversion that the caller reports.
func seenInversion() verdict {
	return verdict{state: InversionObserved, basis: "you report an inversion", finding: finding.Finding{
		Code:     CodeInversionObserved,
		Severity: finding.Stop,
		Subject:  "/weather/inversion_observed",
		Message: "You report a temperature inversion over the field. Fine drops stay under it and drift far as a cloud. " +
			"Do not spray. Wait until smoke or dust rises and breaks up, as a rule at least 1 hour after sunrise.",
		Source: labelInversion,
	}}
}

// inferredInversion judges by class, hour, wind and cloud. Without the sun nothing rules an
// inversion out; without the cloud cover only a settled day does. Classes E and F are stable air;
// they occur in the table's night only. The class is that of hour, sky and wind, also where two
// temperatures were measured and decide nothing.
// Source: NOAA Air Resources Laboratory, Pasquill Stability Classes; GRDC 2025, module 10.8.
func (s *State) inferredInversion(o Observation) verdict {
	class := inferredClass(s.windOver(o, classWindHeight), o.Sun, o.CloudCover)
	switch {
	case o.Sun == nil:
		return possible("/weather/at", "time or place is not known, so neither is the sun",
			"Send the time of the job and the place, or the air temperature at two heights.")
	case o.CloudCover == nil && settledDaylight(o):
		return verdict{state: InversionAbsent, basis: "inferred: it is day, outside the hours of inversions, and the wind mixes the air, whatever the cloud"}
	case o.CloudCover == nil:
		return possible("/weather/cloud_cover", "it is not known how much of the sky is covered",
			"Send the cloud cover, or the air temperature at two heights.")
	case class == SlightlyStable || class == Stable:
		return presumed(fmt.Sprintf("between 1 hour before sunset and 1 hour after sunrise, with %s of the sky covered and a wind of %s, the air is stable (class %s)",
			percent(*o.CloudCover, 0), mph(o.WindSpeed, 0), class), pasquill)
	case o.Sun.InversionHours && units.StrictlyBelow(o.WindSpeed, calm) && units.AtMost(*o.CloudCover, halfCover):
		return presumed(fmt.Sprintf("it is between 2 hours before sunset and 1 hour after sunrise, with a wind of only %s and %s of the sky covered",
			mph(o.WindSpeed, 0), percent(*o.CloudCover, 0)), inversionHours)
	default:
		return verdict{state: InversionAbsent, basis: "inferred: hour, sky and wind are not those of an inversion (class " + string(class) + ")"}
	}
}

// settledDaylight reports whether no cloud cover could make an inversion likely: by day outside the
// hours of inversions, where none is presumed under any sky, and with enough wind that labels ask no proof.
func settledDaylight(o Observation) bool {
	return !o.Sun.InversionHours && !o.Sun.NightForStability && units.AtLeast(o.WindSpeed, calm)
}

// presumed is the verdict of an inversion inferred from facts that are all known.
func presumed(why string, source finding.Source) verdict {
	return verdict{state: InversionPresumed, basis: "inferred: " + why, finding: finding.Finding{
		Code:     CodeInversionPresumed,
		Severity: finding.Stop,
		Subject:  "/weather/at",
		Message: fmt.Sprintf("A temperature inversion is likely: %s. This is inferred, not measured. Under an inversion fine drops drift far as a cloud. "+
			"Do not spray now. Spray later than 1 hour after sunrise and earlier than 2 hours before sunset, "+
			"or measure the air temperature at two heights, about 8 ft and 33 ft, and send both: clearly cooler air above means no inversion.", why),
		Source: source,
	}}
}

// possible is the verdict where a fact is missing; it names the fact and what would settle it. The drift
// grade cannot count what is not known, so the finding says what it leaves out.
func possible(subject, why, settle string) verdict {
	return verdict{state: InversionPossible, basis: "not ruled out: " + why, why: why, finding: finding.Finding{
		Code:     CodeInversionPossible,
		Severity: finding.Needed,
		Subject:  subject,
		Message: fmt.Sprintf("A temperature inversion cannot be ruled out: %s. %s "+
			"Until then do not spray: under an inversion the drift risk is severe, whatever grade is shown. "+
			"Look at the field too: smoke or dust that hangs or moves in a sheet shows an inversion.", why, settle),
		Source: labelWind,
	}}
}
