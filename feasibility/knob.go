package feasibility

import (
	"slices"

	"tractcheck/feasibility/units"
)

// Knob names one thing about a mission that a remedy may change.
type Knob string

// The knobs: everything a crew sets for a job. The machine and the label are none of them.
const (
	KnobFill            Knob = "fill"
	KnobSpeed           Knob = "speed"
	KnobHeight          Knob = "height"
	KnobSwath           Knob = "swath"
	KnobApplicationRate Knob = "application_rate"
	KnobDiscRotation    Knob = "disc_rotation"
	KnobNozzleSize      Knob = "nozzle_size"
	KnobNozzleType      Knob = "nozzle_type"
	KnobCourse          Knob = "course"
	KnobAircraftCount   Knob = "aircraft_count"
	KnobHour            Knob = "hour"
	KnobOverPeople      Knob = "over_people"
)

// Knobs lists every knob, in the order in which they are tried.
func Knobs() []Knob {
	return []Knob{
		KnobFill, KnobSpeed, KnobHeight, KnobSwath, KnobApplicationRate, KnobDiscRotation,
		KnobNozzleSize, KnobNozzleType, KnobCourse, KnobAircraftCount, KnobHour, KnobOverPeople,
	}
}

// knobs lists those the mission lets a remedy turn: all of them where nothing was said.
func (m Mission) knobs() []Knob {
	if m.MayChange == nil {
		return Knobs()
	}
	return slices.DeleteFunc(Knobs(), func(k Knob) bool { return !slices.Contains(m.MayChange, k) })
}

// words names a knob in plain words.
func (k Knob) words() string {
	switch k {
	case KnobApplicationRate:
		return "rate"
	case KnobDiscRotation:
		return "disc speed"
	case KnobNozzleSize:
		return "nozzle size"
	case KnobNozzleType:
		return "nozzle type"
	case KnobAircraftCount:
		return "number of aircraft"
	case KnobOverPeople:
		return "who is under the flight"
	default:
		return string(k)
	}
}

// Scales is one unit of what the caller writes each fact in, so that a remedy names a figure that can
// be sent just as it was verified. Zero stands for the US customary unit.
type Scales struct {
	Fill            units.Volume
	Speed           units.Speed
	Height          units.Length
	Swath           units.Length
	ApplicationRate units.ApplicationRate
	RatedFlow       units.Flow
	RatedPressure   units.Pressure
}

// move is a change of the mission by one knob or by several, not yet verified.
type move struct {
	knobs   []Knob
	down    bool    // a figure made smaller
	far     float64 // how far a figure was moved, in the caller's unit
	changes []Change
	moves   room
	set     func(Mission) Mission
	at      *rooms // the changed mission, as far as it was worked out
}

// option is one setting of a knob that is no figure.
type option struct {
	changes []Change
	set     func(Mission) Mission
}

// choice is a knob whose settings are a short list.
type choice struct {
	knob    Knob
	moves   room
	options func(*rooms) []option // the nearest first, bounded
}

// choices lists those knobs.
func choices() []choice {
	return []choice{nozzleSizes(), nozzleTypes(), courses(), aircraftCounts(), hours(), people()}
}
