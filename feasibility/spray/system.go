package spray

import "tractcheck/feasibility/units"

// Atomizer is the kind of device that makes the drops.
type Atomizer string

// The atomizers.
const (
	HydraulicAtomizer Atomizer = "hydraulic"
	RotaryAtomizer    Atomizer = "rotary"
)

// NozzleType is the family of a hydraulic nozzle.
type NozzleType string

// The nozzle families.
const (
	FlatFan      NozzleType = "flat_fan"
	PreOrifice   NozzleType = "pre_orifice"
	AirInduction NozzleType = "air_induction"
	HollowCone   NozzleType = "hollow_cone"
)

// System is the spray system of the machine; exactly one of Hydraulic and Rotary is set.
type System struct {
	Atomizer  Atomizer
	Count     units.Count // nozzles or discs working
	Hydraulic *Hydraulic
	Rotary    *Rotary
	Pump      *Pump
}

// Hydraulic is a set of equal hydraulic nozzles.
type Hydraulic struct {
	Type          NozzleType
	RatedFlow     units.Flow
	RatedPressure units.Pressure
	MinPressure   *units.Pressure
	MaxPressure   *units.Pressure
	FanAngle      *units.Angle
	Spectra       []PressureSpectrum // the caller's measurements, rising pressure
	Classes       []PressureClass    // the caller's declared classes, rising pressure
}

// PressureSpectrum is a measured spectrum at a pressure; Dv01 and Dv09 may be missing.
type PressureSpectrum struct {
	Pressure units.Pressure
	Dv01     *units.Length
	Dv05     units.Length
	Dv09     *units.Length
}

// PressureClass declares the size class from a pressure up to the next row's.
type PressureClass struct {
	FromPressure units.Pressure
	Class        Class
}

// Rotary is a set of equal spinning discs or cages.
type Rotary struct {
	DiscDiameter units.Length
	Rotation     units.RotationRate
	MinRotation  *units.RotationRate
	MaxRotation  *units.RotationRate
	Spectra      []RotationSpectrum // rising rotation
}

// RotationSpectrum is a measured spectrum at a disc speed.
type RotationSpectrum struct {
	Rotation units.RotationRate
	Dv01     *units.Length
	Dv05     units.Length
	Dv09     *units.Length
}

// Pump is the pump's capability.
type Pump struct {
	MaxFlow     units.Flow
	MaxPressure units.Pressure
}

// Job is what the system is asked to do; nil means not stated.
type Job struct {
	Rate           units.ApplicationRate
	Speed          units.Speed // over the ground
	Swath          units.Length
	Density        units.Density // zero: not stated, water is assumed
	SurfaceTension *units.SurfaceTension
	Adjuvanted     *bool // nil: not stated
}
