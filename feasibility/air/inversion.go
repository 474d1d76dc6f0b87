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
	// CodeInversionPossible warns that a fact is missing that would tell.
	CodeInversionPossible finding.Code = "inversion_possible"
)

const (
	// calm is the wind under which labels ask the applicator to rule an inversion out.
	// Source: federal auxin herbicide labels; Basol, Iowa State University Extension.
	calm = 3 * units.MilePerHour
	// settledSun is the sun's elevation above which sunlit ground warms whatever the cloud.
	// Own design, at the lower edge of Turner's "slight" sun.
	settledSun = 15 * units.Degree
)

// verdict is what is held of an inversion, why, and the finding that says so; a finding without
// a code says nothing.
type verdict struct {
	state   InversionState
	basis   string
	finding finding.Finding
}

// fillInversion decides whether an inversion lies over the field, in the order: temperatures
// measured at two heights; what the caller saw; the stability class; the hour with wind and
// cloud. A report of none seen does not lift what hour, sky and wind presume, since an inversion
// is easily missed by eye; a measured pair does.
func (s *State) fillInversion(o Observation, n *notes) {
	v, decided := measuredInversion(o)
	if !decided && o.Lapse != nil {
		n.warnUnusable(*o.Lapse)
	}
	if v.state != InversionObserved && o.InversionObserved != nil && *o.InversionObserved {
		v, decided = seenInversion(), true
	}
	if !decided {
		v = s.inferredInversion(o)
		n.cite(inversionHours, labelWind)
	}
	s.Inversion, s.InversionBasis = v.state, v.basis
	if v.finding.Code != "" {
		n.find(v.finding)
	}
}

// measuredInversion judges by two measured temperatures: air that is warmer above is an inversion.
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
	case d < 0:
		return verdict{state: InversionAbsent, basis: fmt.Sprintf("measured: the upper air is %s cooler than the air below", fahrenheitDifference(-d))}, true
	default:
		return possible("/weather/lapse", "the air was measured as warm above as below",
			"Measure both temperatures again a little later and send them."), true
	}
}

// warmerAbove is the verdict of a measured inversion; its margin is below zero by the difference.
func warmerAbove(l Lapse, d units.TemperatureDifference) verdict {
	low, high := min(l.LowerHeight, l.UpperHeight), max(l.LowerHeight, l.UpperHeight)
	basis := fmt.Sprintf("measured: the air is %s warmer at %s than at %s", fahrenheitDifference(d), feet(high), feet(low))
	return verdict{InversionObserved, basis, finding.Finding{
		Code:     CodeInversionObserved,
		Severity: finding.Stop,
		Subject:  "/weather/lapse",
		Message: fmt.Sprintf("The air is %s warmer at %s than at %s: a temperature inversion lies over the field. Fine drops stay under it and drift far as a cloud. "+
			"Do not spray. Wait until the upper air is the cooler one, as a rule at least 1 hour after sunrise.", fahrenheitDifference(d), feet(high), feet(low)),
		Measured: d,
		Limit:    units.TemperatureDifference(0),
		Margin:   -d,
		Source:   labelInversion,
	}}
}

// seenInversion is the verdict of an inversion that the caller reports.
func seenInversion() verdict {
	return verdict{InversionObserved, "you report an inversion", finding.Finding{
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
// they occur in the table's night only.
// Source: NOAA Air Resources Laboratory, Pasquill Stability Classes; GRDC 2025, module 10.8.
func (s *State) inferredInversion(o Observation) verdict {
	switch {
	case o.Sun == nil:
		return possible("/weather/at", "time or place is not known, so neither is the sun",
			"Send the time of the job and the place, or the air temperature at two heights.")
	case o.CloudCover == nil && settledDaylight(o):
		return verdict{state: InversionAbsent, basis: "inferred: the sun is well up and the wind mixes the air, whatever the cloud"}
	case o.CloudCover == nil:
		return possible("/weather/cloud_cover", "it is not known how much of the sky is covered",
			"Send the cloud cover, or the air temperature at two heights.")
	case s.Stability == SlightlyStable || s.Stability == Stable:
		return presumed(fmt.Sprintf("between 1 hour before sunset and 1 hour after sunrise, with %s of the sky covered and a wind of %s, the air is stable (class %s)",
			percent(*o.CloudCover), mph(o.WindSpeed), s.Stability), pasquill)
	case o.Sun.InversionHours && units.StrictlyBelow(o.WindSpeed, calm) && units.AtMost(*o.CloudCover, halfCover):
		return presumed(fmt.Sprintf("it is between 2 hours before sunset and 1 hour after sunrise, with a wind of only %s and %s of the sky covered",
			mph(o.WindSpeed), percent(*o.CloudCover)), inversionHours)
	default:
		return verdict{state: InversionAbsent, basis: "inferred: hour, sky and wind are not those of an inversion (class " + string(s.Stability) + ")"}
	}
}

// settledDaylight reports whether no cloud cover could make an inversion likely: outside the
// hours of inversions, with the sun well up, and with enough wind that labels ask no proof.
func settledDaylight(o Observation) bool {
	return !o.Sun.InversionHours && !o.Sun.NightForStability &&
		units.AtLeast(o.Sun.Elevation, settledSun) && units.AtLeast(o.WindSpeed, calm)
}

// presumed is the verdict of an inversion inferred from facts that are all known.
func presumed(why string, source finding.Source) verdict {
	return verdict{InversionPresumed, "inferred: " + why, finding.Finding{
		Code:     CodeInversionPresumed,
		Severity: finding.Stop,
		Subject:  "/weather/at",
		Message: fmt.Sprintf("A temperature inversion is likely: %s. This is inferred, not measured. Under an inversion fine drops drift far as a cloud. "+
			"Do not spray now. Spray later than 1 hour after sunrise and earlier than 2 hours before sunset, "+
			"or measure the air temperature at two heights, about 8 ft and 33 ft, and send both: cooler air above means no inversion.", why),
		Source: source,
	}}
}

// possible is the verdict where a fact is missing; it names the fact and what would settle it.
func possible(subject, why, settle string) verdict {
	return verdict{InversionPossible, "not ruled out: " + why, finding.Finding{
		Code:     CodeInversionPossible,
		Severity: finding.Caution,
		Subject:  subject,
		Message: fmt.Sprintf("A temperature inversion cannot be ruled out: %s. %s "+
			"Before spraying make sure of it at the field: smoke or dust that hangs or moves in a sheet shows an inversion.", why, settle),
		Source: labelWind,
	}}
}
