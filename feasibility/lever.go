package feasibility

import (
	"slices"

	"tractcheck/feasibility/air"
	"tractcheck/feasibility/crew"
	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/takeoff"
	"tractcheck/feasibility/tract"
)

// lever says which knobs bear on a finding, and which room decides it.
type lever struct {
	code  finding.Code
	room  room
	knobs []Knob
}

// levers lists the findings that a knob can lift. It follows from what each room reads: a finding on
// the wind, say, reads nothing that a crew sets, so no knob bears on it. A test turns every knob of
// many missions all the way and holds the table against what that lifts.
func levers() []lever {
	flow := []Knob{KnobSpeed, KnobSwath, KnobApplicationRate}
	pressure := append(slices.Clone(flow), KnobNozzleSize, KnobNozzleType)
	drops := append(slices.Clone(pressure), KnobDiscRotation)
	cloud := append([]Knob{KnobHeight, KnobFill, KnobCourse}, drops...)
	fill, hour := []Knob{KnobFill}, []Knob{KnobHour}
	row := func(id string, knobs ...Knob) lever { return lever{permits.CodeOf(id), papersRoom, knobs} }
	return []lever{
		{takeoff.CodeOverSmallLimit, weightRoom, fill},
		{takeoff.CodeOverMakerMaximum, weightRoom, fill},
		{takeoff.CodeOverTankCapacity, weightRoom, fill},

		{spray.CodePressureBelowRange, rateRoom, pressure},
		{spray.CodePressureAboveRange, rateRoom, pressure},
		{spray.CodePumpFlowExceeded, rateRoom, flow},
		{spray.CodePumpPressureExceeded, rateRoom, pressure},
		{spray.CodeRateNotHeld, rateRoom, pressure},
		{spray.CodeNoSpeedHoldsRate, rateRoom, []Knob{KnobNozzleSize, KnobNozzleType}},
		{spray.CodeRangeReversed, rateRoom, []Knob{KnobNozzleType}},
		{spray.CodeRotationOutOfRange, rateRoom, []Knob{KnobDiscRotation}},

		{drift.CodeReleaseHeightOverLabel, riskRoom, []Knob{KnobHeight}},
		{drift.CodeDropletTooFine, riskRoom, drops},
		{drift.CodeDropletTooCoarse, riskRoom, drops},
		{drift.CodeDriftSevere, riskRoom, cloud},
		{drift.CodeWindTowardSensitiveNeighbor, riskRoom, cloud},
		{drift.CodeDepositOverTolerance, riskRoom, cloud},
		{drift.CodeDepositOverAssumedTolerance, riskRoom, cloud},
		{drift.CodeWindCalm, riskRoom, hour},

		{tract.CodeBatteryTooSmall, planRoom, []Knob{KnobFill, KnobSpeed, KnobHeight, KnobCourse}},
		{tract.CodeTooManySorties, planRoom, []Knob{KnobFill, KnobApplicationRate}},
		{tract.CodeKeepOutsCoverField, planRoom, []Knob{KnobSwath, KnobCourse}},
		{crew.CodeCannotRecharge, teamRoom, []Knob{KnobFill, KnobSpeed, KnobApplicationRate}},
		{air.CodeInversionPresumed, skyRoom, hour},

		row("weight-small-limit", KnobFill),
		row("aircraft-on-approved-list", KnobFill),
		row("groundspeed-limit", KnobSpeed),
		row("grant-groundspeed", KnobSpeed),
		row("height-limit", KnobHeight),
		row("grant-height", KnobHeight),
		row("label-minimum-rate", KnobApplicationRate),
		row("label-height", KnobHeight),
		row("label-droplet", drops...),
		row("night-training", KnobHour),
		row("night-lights", KnobHour),
		row("twilight-lights", KnobHour),
		row("one-aircraft-per-pilot", KnobAircraftCount),
	}
}

// leverOf finds the knobs among those allowed that bear on a finding, and the room that decides it.
func (s *search) leverOf(code finding.Code) (lever, bool) {
	for _, l := range levers() {
		if l.code == code {
			l.knobs = slices.DeleteFunc(slices.Clone(l.knobs), func(k Knob) bool { return !slices.Contains(s.allowed, k) })
			return l, len(l.knobs) > 0
		}
	}
	return lever{}, false
}

// fixed reports whether no knob that may be turned bears on a finding.
func (s *search) fixed(code finding.Code) bool {
	_, any := s.leverOf(code)
	return !any
}
