package wire

import (
	"tractcheck/feasibility"
	"tractcheck/feasibility/flight"
	"tractcheck/feasibility/units"
)

// Aircraft is the machine flown.
type Aircraft struct {
	Label              *string         `json:"label,omitzero" validate:"omitempty,max=200"`
	Count              *Whole          `json:"count,omitzero" validate:"omitempty,min=1,max=50"`
	EmptyWeight        *Quantity       `json:"empty_weight,omitzero" validate:"required"`
	Battery            *Battery        `json:"battery,omitzero" validate:"required"`
	OtherOnboardWeight *Quantity       `json:"other_onboard_weight,omitzero"`
	TankCapacity       *Quantity       `json:"tank_capacity,omitzero" validate:"required"`
	MaxTakeoffWeight   *Quantity       `json:"max_takeoff_weight,omitzero" validate:"required"`
	Rotors             *Rotors         `json:"rotors,omitzero"`
	HoverEndurance     *HoverEndurance `json:"hover_endurance,omitzero"`
	DragArea           *Quantity       `json:"drag_area,omitzero"`
	Sensing            *Sensing        `json:"sensing,omitzero"`
}

// Battery is one battery of the aircraft.
type Battery struct {
	Weight  *Quantity `json:"weight,omitzero" validate:"required"`
	Energy  *Quantity `json:"energy,omitzero"`
	Usable  *Quantity `json:"usable,omitzero"`
	OnBoard *Whole    `json:"on_board,omitzero" validate:"omitempty,min=1,max=20"`
}

// Rotors is the rotor set.
type Rotors struct {
	Count    *Whole    `json:"count,omitzero" validate:"required,min=1,max=64"`
	Diameter *Quantity `json:"diameter,omitzero" validate:"required"`
	Coaxial  *bool     `json:"coaxial,omitzero"`
}

// HoverEndurance is measured hover time, tank empty and at the maximum takeoff weight.
type HoverEndurance struct {
	Empty *Quantity `json:"empty,omitzero"`
	Full  *Quantity `json:"full,omitzero"`
}

// Sensing is what the aircraft can sense.
type Sensing struct {
	Obstacle  *bool   `json:"obstacle,omitzero"`
	Height    *string `json:"height,omitzero" validate:"omitempty,oneof=radar laser none"`
	TankLevel *bool   `json:"tank_level,omitzero"`
	Resume    *bool   `json:"resume,omitzero"`
	Camera    *bool   `json:"camera,omitzero"`
}

func (m *mapper) aircraft(a *Aircraft) *feasibility.Aircraft {
	if a == nil {
		return nil
	}
	out := &feasibility.Aircraft{
		Label:            textOf(a.Label),
		Count:            countOf(a.Count),
		EmptyWeight:      stated[units.Mass](m, at("/aircraft/empty_weight"), a.EmptyWeight),
		OtherOnboard:     optional[units.Mass](m, at("/aircraft/other_onboard_weight"), a.OtherOnboardWeight),
		TankCapacity:     stated[units.Volume](m, at("/aircraft/tank_capacity"), a.TankCapacity),
		MaxTakeoffWeight: stated[units.Mass](m, at("/aircraft/max_takeoff_weight"), a.MaxTakeoffWeight),
		Rotors:           m.rotors(a.Rotors),
		DragArea:         optional[units.Area](m, at("/aircraft/drag_area"), a.DragArea),
	}
	if b := a.Battery; b != nil {
		out.Battery = feasibility.Battery{
			Weight:  stated[units.Mass](m, at("/aircraft/battery/weight"), b.Weight),
			Energy:  stated[units.Energy](m, at("/aircraft/battery/energy"), b.Energy),
			Usable:  optional[units.Proportion](m, at("/aircraft/battery/usable"), b.Usable),
			OnBoard: countOf(b.OnBoard),
		}
	}
	if h := a.HoverEndurance; h != nil {
		out.EmptyEndurance = optional[units.Duration](m, at("/aircraft/hover_endurance/empty"), h.Empty)
		out.FullEndurance = optional[units.Duration](m, at("/aircraft/hover_endurance/full"), h.Full)
		m.endurance(h, out)
	}
	if s := a.Sensing; s != nil {
		out.Sensing = feasibility.Sensing{
			Obstacle: s.Obstacle, TankLevel: s.TankLevel, Resume: s.Resume, Camera: s.Camera,
			Height: codeOf[feasibility.HeightSensor](s.Height),
		}
	}
	return out
}

func (m *mapper) rotors(r *Rotors) *flight.Rotors {
	if r == nil {
		return nil
	}
	coaxial := r.Coaxial != nil && *r.Coaxial
	if coaxial && r.Count != nil && *r.Count%2 != 0 {
		m.conflict(at("/aircraft/rotors/count"), *r.Count, "an even number where coaxial is true",
			"Coaxial rotors come in pairs. Send the number of all rotors, both of every pair, or set coaxial to false.")
	}
	out := &flight.Rotors{
		Diameter: stated[units.Length](m, at("/aircraft/rotors/diameter"), r.Diameter),
		Coaxial:  coaxial,
	}
	if r.Count != nil {
		out.Count = units.Count(*r.Count)
	}
	return out
}

// endurance refuses a full machine that hovers longer than an empty one.
func (m *mapper) endurance(h *HoverEndurance, a *feasibility.Aircraft) {
	if a.EmptyEndurance == nil || a.FullEndurance == nil || units.AtMost(*a.FullEndurance, *a.EmptyEndurance) {
		return
	}
	m.conflict(at("/aircraft/hover_endurance/full"), *h.Full, "at most "+sayQuantity(*h.Empty),
		"A full machine cannot hover longer than an empty one. Check whether full and empty are swapped.")
}
