package wire

import (
	"tractcheck/feasibility"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/units"
)

// SpraySystem is the atomizers and the pump. Nozzle goes with atomizer hydraulic, Rotary with
// atomizer rotary.
type SpraySystem struct {
	Atomizer  *string   `json:"atomizer,omitzero" validate:"required,oneof=hydraulic rotary"`
	Count     *Whole    `json:"count,omitzero" validate:"required,min=1,max=200"`
	Spacing   *Quantity `json:"spacing,omitzero"`
	Placement *string   `json:"placement,omitzero" validate:"omitempty,oneof=under_rotors boom"`
	Nozzle    *Nozzle   `json:"nozzle,omitzero"`
	Rotary    *Rotary   `json:"rotary,omitzero"`
	Pump      *Pump     `json:"pump,omitzero"`
}

// Nozzle is one of a set of equal hydraulic nozzles.
type Nozzle struct {
	Type          *string            `json:"type,omitzero" validate:"required,oneof=flat_fan pre_orifice air_induction hollow_cone"`
	RatedFlow     *Quantity          `json:"rated_flow,omitzero" validate:"required"`
	RatedPressure *Quantity          `json:"rated_pressure,omitzero" validate:"required"`
	MinPressure   *Quantity          `json:"min_pressure,omitzero"`
	MaxPressure   *Quantity          `json:"max_pressure,omitzero"`
	FanAngle      *Quantity          `json:"fan_angle,omitzero"`
	Spectra       []PressureSpectrum `json:"spectra,omitzero" validate:"max=50,dive"`
	Classes       []PressureClass    `json:"classes,omitzero" validate:"max=20,dive"`
}

// PressureSpectrum is a measured droplet spectrum at a pressure.
type PressureSpectrum struct {
	Pressure *Quantity `json:"pressure,omitzero" validate:"required"`
	Dv01     *Quantity `json:"dv01,omitzero"`
	Dv05     *Quantity `json:"dv05,omitzero" validate:"required"`
	Dv09     *Quantity `json:"dv09,omitzero"`
}

// PressureClass is the droplet size class from a pressure up to the next row's.
type PressureClass struct {
	FromPressure *Quantity `json:"from_pressure,omitzero" validate:"required"`
	Class        *string   `json:"class,omitzero" validate:"required,oneof=extremely_fine very_fine fine medium coarse very_coarse extremely_coarse ultra_coarse"`
}

// Rotary is one of a set of equal spinning discs or cages.
type Rotary struct {
	DiscDiameter *Quantity          `json:"disc_diameter,omitzero" validate:"required"`
	Rotation     *Quantity          `json:"rotation,omitzero" validate:"required"`
	MinRotation  *Quantity          `json:"min_rotation,omitzero"`
	MaxRotation  *Quantity          `json:"max_rotation,omitzero"`
	Spectra      []RotationSpectrum `json:"spectra,omitzero" validate:"max=50,dive"`
}

// RotationSpectrum is a measured droplet spectrum at a disc speed.
type RotationSpectrum struct {
	Rotation *Quantity `json:"rotation,omitzero" validate:"required"`
	Dv01     *Quantity `json:"dv01,omitzero"`
	Dv05     *Quantity `json:"dv05,omitzero" validate:"required"`
	Dv09     *Quantity `json:"dv09,omitzero"`
}

// Pump is the pump's capability.
type Pump struct {
	MaxFlow     *Quantity `json:"max_flow,omitzero" validate:"required"`
	MaxPressure *Quantity `json:"max_pressure,omitzero" validate:"required"`
}

func (m *mapper) spraySystem(s *SpraySystem) *feasibility.SpraySystem {
	if s == nil {
		return nil
	}
	m.atomizer(s)
	out := &feasibility.SpraySystem{
		System: spray.System{
			Atomizer:  spray.Atomizer(textOf(s.Atomizer)),
			Hydraulic: m.nozzle(s.Nozzle),
			Rotary:    m.rotary(s.Rotary),
		},
		Spacing: optional[units.Length](m, at("/spray_system/spacing"), s.Spacing),
	}
	if s.Count != nil {
		out.System.Count = units.Count(*s.Count)
	}
	if s.Placement != nil {
		under := *s.Placement == "under_rotors"
		out.UnderRotors = &under
	}
	if p := s.Pump; p != nil {
		out.System.Pump = &spray.Pump{
			MaxFlow:     stated[units.Flow](m, at("/spray_system/pump/max_flow"), p.MaxFlow),
			MaxPressure: stated[units.Pressure](m, at("/spray_system/pump/max_pressure"), p.MaxPressure),
		}
	}
	return out
}

// atomizer holds nozzle and rotary to the atomizer that was named.
func (m *mapper) atomizer(s *SpraySystem) {
	switch textOf(s.Atomizer) {
	case string(spray.HydraulicAtomizer):
		if s.Nozzle == nil {
			m.missing(at("/spray_system/nozzle"), "Atomizer hydraulic needs the nozzle. Send its type, rated_flow and rated_pressure.")
		}
		if s.Rotary != nil {
			m.conflict(at("/spray_system/rotary"), nil, "absent where atomizer is hydraulic",
				"Leave rotary out, or set atomizer to rotary.")
		}
	case string(spray.RotaryAtomizer):
		if s.Rotary == nil {
			m.missing(at("/spray_system/rotary"), "Atomizer rotary needs the disc. Send its disc_diameter and rotation.")
		}
		if s.Nozzle != nil {
			m.conflict(at("/spray_system/nozzle"), nil, "absent where atomizer is rotary",
				"Leave nozzle out, or set atomizer to hydraulic.")
		}
	}
}

func (m *mapper) nozzle(n *Nozzle) *spray.Hydraulic {
	if n == nil {
		return nil
	}
	out := &spray.Hydraulic{
		Type:          spray.NozzleType(textOf(n.Type)),
		RatedFlow:     stated[units.Flow](m, at("/spray_system/nozzle/rated_flow"), n.RatedFlow),
		RatedPressure: stated[units.Pressure](m, at("/spray_system/nozzle/rated_pressure"), n.RatedPressure),
		MinPressure:   optional[units.Pressure](m, at("/spray_system/nozzle/min_pressure"), n.MinPressure),
		MaxPressure:   optional[units.Pressure](m, at("/spray_system/nozzle/max_pressure"), n.MaxPressure),
		FanAngle:      optional[units.Angle](m, at("/spray_system/nozzle/fan_angle"), n.FanAngle),
	}
	below(m, at("/spray_system/nozzle/min_pressure"), out.MinPressure, n.MinPressure, out.MaxPressure, n.MaxPressure, "max_pressure")
	var last risingRow[units.Pressure]
	for i, row := range n.Spectra {
		place := atIndex("/spray_system/nozzle/spectra/*", i)
		p := optional[units.Pressure](m, place.member("pressure"), row.Pressure)
		last = rising(m, place.member("pressure"), last, p, row.Pressure)
		dv01, dv05, dv09 := m.spectrum(place, row.Dv01, row.Dv05, row.Dv09)
		out.Spectra = append(out.Spectra, spray.PressureSpectrum{Pressure: valueOf(p), Dv01: dv01, Dv05: dv05, Dv09: dv09})
	}
	last = risingRow[units.Pressure]{}
	for i, row := range n.Classes {
		place := atIndex("/spray_system/nozzle/classes/*", i)
		p := optional[units.Pressure](m, place.member("from_pressure"), row.FromPressure)
		last = rising(m, place.member("from_pressure"), last, p, row.FromPressure)
		out.Classes = append(out.Classes, spray.PressureClass{FromPressure: valueOf(p), Class: spray.Class(textOf(row.Class))})
	}
	return out
}

func (m *mapper) rotary(r *Rotary) *spray.Rotary {
	if r == nil {
		return nil
	}
	out := &spray.Rotary{
		DiscDiameter: stated[units.Length](m, at("/spray_system/rotary/disc_diameter"), r.DiscDiameter),
		Rotation:     stated[units.RotationRate](m, at("/spray_system/rotary/rotation"), r.Rotation),
		MinRotation:  optional[units.RotationRate](m, at("/spray_system/rotary/min_rotation"), r.MinRotation),
		MaxRotation:  optional[units.RotationRate](m, at("/spray_system/rotary/max_rotation"), r.MaxRotation),
	}
	below(m, at("/spray_system/rotary/min_rotation"), out.MinRotation, r.MinRotation, out.MaxRotation, r.MaxRotation, "max_rotation")
	var last risingRow[units.RotationRate]
	for i, row := range r.Spectra {
		place := atIndex("/spray_system/rotary/spectra/*", i)
		speed := optional[units.RotationRate](m, place.member("rotation"), row.Rotation)
		last = rising(m, place.member("rotation"), last, speed, row.Rotation)
		dv01, dv05, dv09 := m.spectrum(place, row.Dv01, row.Dv05, row.Dv09)
		out.Spectra = append(out.Spectra, spray.RotationSpectrum{Rotation: valueOf(speed), Dv01: dv01, Dv05: dv05, Dv09: dv09})
	}
	return out
}

// spectrum reads the three points of one row and holds them in order.
func (m *mapper) spectrum(row place, dv01, dv05, dv09 *Quantity) (low *units.Length, mid units.Length, high *units.Length) {
	low = optional[units.Length](m, row.member("dv01"), dv01)
	middle := optional[units.Length](m, row.member("dv05"), dv05)
	high = optional[units.Length](m, row.member("dv09"), dv09)
	atMost(m, row.member("dv01"), low, dv01, middle, dv05, "dv05")
	atMost(m, row.member("dv05"), middle, dv05, high, dv09, "dv09")
	if middle == nil {
		atMost(m, row.member("dv01"), low, dv01, high, dv09, "dv09")
	}
	return low, valueOf(middle), high
}
