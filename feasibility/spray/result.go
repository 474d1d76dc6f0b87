package spray

import (
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// Droplet is the droplet size of the spray and how it is known.
type Droplet struct {
	Class       Class
	ClassOther  Class // the neighboring class where the size lies within 10 % of a boundary, else empty
	Spectrum    Spectrum
	Fines       units.Proportion // volume in drops under 150 um
	Basis       string           // plain words: measured by caller, declared by caller, or model
	Measured    bool             // the spectrum rests on the caller's measurements
	Uncertainty units.Proportion // relative, on Dv0.5
}

// What bounds a speed range.
const (
	BoundNozzlePressure = "nozzle_pressure"
	BoundPumpPressure   = "pump_pressure"
	BoundPumpFlow       = "pump_flow"
	BoundRotation       = "rotation"
	BoundNone           = "none"
)

// SpeedRange is the span of ground speeds that hold the rate. Where HighestBound is "none" no
// upper bound is known and Highest is zero. Where no speed holds the rate both speeds are zero
// and the bounds name the two limits that contradict each other.
type SpeedRange struct {
	Lowest, Highest           units.Speed
	LowestBound, HighestBound string // nozzle_pressure, pump_pressure, pump_flow, rotation, none
}

// Empty reports whether no speed at all holds the rate.
func (r SpeedRange) Empty() bool { return r.Highest == 0 && r.HighestBound != BoundNone }

// Point is one point of the curve over speed. Class and Fines are those of the pressure that the
// rate needs at this speed, also outside the working range, so that the curve shows the trend.
type Point struct {
	Speed       units.Speed
	FlowEach    units.Flow
	Pressure    *units.Pressure // nil for rotary
	Class       Class
	Fines       units.Proportion
	WithinRange bool
}

// Result is how the system holds the rate.
type Result struct {
	FlowTotal     units.Flow
	FlowEach      units.Flow
	Pressure      *units.Pressure // that the controller must hold; nil for rotary
	PressureUsed  *units.Pressure // Pressure held to the working range; nil for rotary
	WithinRange   bool
	RateDelivered units.ApplicationRate // really applied, outside the range too
	Droplet       Droplet               // at the pressure or disc speed really used
	SpeedRange    SpeedRange
	Curve         []Point
	Findings      []finding.Finding
	Assumptions   []finding.Assumption
	Sources       []finding.Source
}
