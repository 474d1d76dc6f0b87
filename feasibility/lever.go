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
	"tractcheck/feasibility/units"
)

// lever says which knobs bear on a finding, and which room decides it. Where gone is set, it makes the
// room's comparison without the rest of the room's work; the whole survey of a remedy verifies it.
type lever struct {
	code  finding.Code
	room  room
	knobs []Knob
	gone  func(*rooms) bool
}

// follows is the room of a finding that only repeats another one: no knob is turned for it, it goes
// when the other goes.
const follows room = 0

// levers lists the findings that a knob can lift. It follows from what each room reads: a finding on
// the wind, say, reads nothing that a crew sets, so no knob bears on it. A test turns every knob of
// many missions all the way and holds the table against what that lifts.
func levers() []lever {
	flow := []Knob{KnobSpeed, KnobSwath, KnobApplicationRate}
	pressure := append(slices.Clone(flow), KnobNozzleSize, KnobNozzleType)
	drops := append(slices.Clone(pressure), KnobDiscRotation)
	cloud := append([]Knob{KnobHeight, KnobFill, KnobCourse}, drops...)
	fill, hour := []Knob{KnobFill}, []Knob{KnobHour}
	row := func(id string, where room, knobs ...Knob) lever { return lever{permits.CodeOf(id), where, knobs, nil} }
	return []lever{
		{takeoff.CodeOverSmallLimit, weightRoom, fill, nil},
		{takeoff.CodeOverMakerMaximum, weightRoom, fill, nil},
		{takeoff.CodeOverDensityAltitudeLimit, weightRoom, fill, nil},
		{takeoff.CodeOverTankCapacity, weightRoom, fill, nil},

		{spray.CodePressureBelowRange, rateRoom, pressure, nil},
		{spray.CodePressureAboveRange, rateRoom, pressure, nil},
		{spray.CodePumpFlowExceeded, rateRoom, append(slices.Clone(flow), KnobNozzleSize), nil},
		{spray.CodePumpPressureExceeded, rateRoom, pressure, nil},
		{spray.CodeRateNotHeld, rateRoom, pressure, nil},
		{spray.CodeNoSpeedHoldsRate, rateRoom, []Knob{KnobNozzleSize, KnobNozzleType}, nil},
		{spray.CodeRangeReversed, rateRoom, []Knob{KnobNozzleType}, nil},
		{spray.CodeRotationOutOfRange, rateRoom, []Knob{KnobDiscRotation}, nil},

		{drift.CodeReleaseHeightOverLabel, riskRoom, []Knob{KnobHeight}, withinLabelHeight},
		{drift.CodeDropletTooFine, riskRoom, drops, withinLabelClass},
		{drift.CodeDropletTooCoarse, riskRoom, drops, withinLabelClass},
		{drift.CodeDriftSevere, riskRoom, cloud, nil},
		{drift.CodeWindTowardSensitiveNeighbor, riskRoom, cloud, nil},
		{drift.CodeDepositOverTolerance, riskRoom, cloud, nil},
		{drift.CodeDepositOverAssumedTolerance, riskRoom, cloud, nil},
		{drift.CodeWindCalm, riskRoom, hour, nil},

		{tract.CodeBatteryTooSmall, planRoom, []Knob{KnobFill, KnobSpeed, KnobHeight, KnobCourse}, nil},
		{tract.CodeTooManySorties, planRoom, []Knob{KnobFill, KnobApplicationRate}, nil},
		{tract.CodeKeepOutsCoverField, planRoom, []Knob{KnobSwath, KnobCourse}, nil},
		{crew.CodeCannotRecharge, teamRoom, []Knob{KnobFill, KnobSpeed, KnobApplicationRate}, nil},
		{air.CodeInversionPresumed, skyRoom, hour, nil},
		{air.CodeInversionPossible, skyRoom, hour, nil},

		{permits.CodePeopleUnderSpray, papersRoom, []Knob{KnobOverPeople}, nil},
		row("groundspeed-limit", papersRoom, KnobSpeed),
		row("grant-groundspeed", papersRoom, KnobSpeed),
		row("height-limit", papersRoom, KnobHeight),
		row("grant-height", papersRoom, KnobHeight),
		{permits.CodeOf("label-minimum-rate"), papersRoom, []Knob{KnobApplicationRate}, withinLabelRate},
		row("aircraft-on-approved-list", papersRoom, KnobFill),
		row("night-training", papersRoom, KnobHour),
		row("night-lights", papersRoom, KnobHour),
		row("twilight-lights", papersRoom, KnobHour),
		row("one-aircraft-per-pilot", papersRoom, KnobAircraftCount),

		row("weight-small-limit", follows, KnobFill),
		row("label-height", follows, KnobHeight),
		row("label-droplet", follows, drops...),
		row("label-limits-aviation", follows, append([]Knob{KnobHeight}, drops...)...),
	}
}

func withinLabelHeight(r *rooms) bool {
	most := r.m.Load.Label.MaxReleaseHeight
	return most == nil || units.AtMost(r.m.Flight.Height, *most)
}

func withinLabelRate(r *rooms) bool {
	least := r.m.Load.Label.MinRate
	return least == nil || units.AtLeast(r.m.Load.ApplicationRate, *least)
}

func withinLabelClass(r *rooms) bool {
	have, label := r.rate().Droplet.Class, r.m.Load.Label
	return (label.DropletClassMin == nil || !label.DropletClassMin.CoarserThan(have)) &&
		(label.DropletClassMax == nil || !have.CoarserThan(*label.DropletClassMax))
}

// leverOf finds the knobs among those allowed that bear on a finding, and the room that decides it.
func (s *search) leverOf(code finding.Code) (lever, bool) {
	for _, l := range s.levers {
		if l.code == code {
			return l, len(l.knobs) > 0
		}
	}
	return lever{}, false
}

// follower reports whether a finding only repeats another one.
func (s *search) follower(f finding.Finding) bool {
	l, bears := s.leverOf(f.Code)
	return bears && l.room == follows
}

// fixed reports whether no knob that may be turned bears on a finding.
func (s *search) fixed(code finding.Code) bool {
	_, bears := s.leverOf(code)
	return !bears
}
