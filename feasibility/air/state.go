package air

import (
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// State is the air at the job.
type State struct {
	// Temperature and RelativeHumidity are as stated, held to what can occur.
	Temperature      units.Temperature
	RelativeHumidity units.Proportion

	// Pressure is that at the field. Density is that of the moist air there, within 0.05 %;
	// DensityRatio is its ratio to 1.225 kg/m3, and DensityAltitude the height at which the
	// standard atmosphere has that density.
	Pressure        units.AbsolutePressure
	Density         units.Density
	DensityRatio    units.Proportion
	DensityAltitude units.Length

	// WetBulb is the temperature to which water cools by evaporation, and Depression the dry
	// bulb less it ("Delta T"), never negative.
	WetBulb    units.Temperature
	Depression units.TemperatureDifference

	// Stability is the Pasquill class; it is inferred unless two temperatures were measured.
	Stability         Stability
	StabilityInferred bool
	// Inversion is whether one lies over the field, and InversionBasis why, in plain words.
	Inversion      InversionState
	InversionBasis string

	// CropHeight is as stated, or DefaultCropHeight. Displacement and Roughness are how far the
	// crop lifts the wind profile and how it slows the wind.
	CropHeight   units.Length
	Roughness    units.Length
	Displacement units.Length

	// WindHeight is the height above ground at which the stated wind was taken to blow,
	// FrictionVelocity the strength of its turbulence, and InverseObukhov how far stability
	// bends its profile: negative in unstable air, zero in neutral air, positive in stable air.
	WindHeight       units.Length
	FrictionVelocity units.Speed
	InverseObukhov   PerLength
	// Gust is the gust stated, or the mean wind where none was.
	Gust units.Speed

	Findings    []finding.Finding
	Assumptions []finding.Assumption
	Sources     []finding.Source
}

// PerLength is an inverse length (1/m), such as the inverse of the Obukhov length.
type PerLength float64

// Observe works out the state of the air from an observation.
//
// Any observation with finite values gives a finite state. Facts not stated are taken as the
// Assumptions say; values that cannot occur on farmland are held at the nearest that can, with a
// finding. Density is accurate to 0.05 %, density altitude to 20 ft of the U.S. National Weather
// Service form, the wet bulb to 0.1 K against the thermodynamic wet bulb above 20 % humidity.
// Each part names its source where it is computed.
func Observe(o Observation) State {
	n := &notes{}
	o = n.plausible(o)
	s := State{Temperature: o.Temperature, RelativeHumidity: o.RelativeHumidity}
	s.fillDensity(o, n)
	s.fillMoisture(n)
	s.judgeFreezing(n)
	s.fillSurface(o, n)
	s.fillStability(o, n)
	s.fillInversion(o, n)
	s.fillWind(o, n)
	s.Findings, s.Assumptions, s.Sources = n.findings, n.assumptions, n.cited()
	return s
}
