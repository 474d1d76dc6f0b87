package wire

import (
	"tractcheck/feasibility"
	"tractcheck/feasibility/units"
)

// Flight is how the aircraft is flown.
type Flight struct {
	Speed     *Quantity `json:"speed,omitzero" validate:"required"`
	Height    *Quantity `json:"height,omitzero"`
	Swath     *Quantity `json:"swath,omitzero" validate:"required"`
	Course    *Quantity `json:"course,omitzero"`
	Crosswind *bool     `json:"crosswind,omitzero"`
	TurnTime  *Quantity `json:"turn_time,omitzero"`
	Headlands *Whole    `json:"headland_passes,omitzero" validate:"omitempty,min=0,max=4"`
}

func (m *mapper) flight(f *Flight) *feasibility.Flight {
	if f == nil {
		return nil
	}
	return &feasibility.Flight{
		Speed:     stated[units.Speed](m, at("/flight/speed"), f.Speed),
		Height:    stated[units.Length](m, at("/flight/height"), f.Height),
		Swath:     stated[units.Length](m, at("/flight/swath"), f.Swath),
		Course:    optional[units.Bearing](m, at("/flight/course"), f.Course),
		Crosswind: f.Crosswind,
		TurnTime:  optional[units.Duration](m, at("/flight/turn_time"), f.TurnTime),
		Headlands: countOf(f.Headlands),
	}
}
