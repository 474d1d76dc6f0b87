package wire

import (
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/units"
)

// RatePressure is how the spray system holds the rate.
type RatePressure struct {
	FlowTotal     *Quantity    `json:"flow_total"`
	FlowEach      *Quantity    `json:"flow_each"`
	Pressure      *Quantity    `json:"pressure,omitzero"`
	PressureUsed  *Quantity    `json:"pressure_used,omitzero"`
	WithinRange   bool         `json:"within_range"`
	RateDelivered *Quantity    `json:"rate_delivered"`
	Droplet       Droplet      `json:"droplet"`
	SpeedRange    SpeedRange   `json:"speed_range"`
	Curve         []CurvePoint `json:"curve"`
}

// Droplet is the droplet size and how it is known.
type Droplet struct {
	Class        string    `json:"class,omitzero"`
	ClassOther   string    `json:"class_other,omitzero"`
	Dv01         *Quantity `json:"dv01,omitzero"`
	Dv05         *Quantity `json:"dv05,omitzero"`
	Dv09         *Quantity `json:"dv09,omitzero"`
	FinesPercent *Quantity `json:"fines_percent"`
	Basis        string    `json:"basis"`
	Measured     bool      `json:"measured"`
	Uncertainty  *Quantity `json:"uncertainty"`
}

// SpeedRange is the ground speeds that hold the rate.
type SpeedRange struct {
	Lowest  *Quantity   `json:"lowest"`
	Highest *Quantity   `json:"highest"`
	BoundBy SpeedBounds `json:"bound_by"`
}

// SpeedBounds is what binds at each end of the speed range.
type SpeedBounds struct {
	Lowest  string `json:"lowest"`
	Highest string `json:"highest"`
}

// CurvePoint is one point of the curve over speed.
type CurvePoint struct {
	Speed        *Quantity `json:"speed"`
	FlowEach     *Quantity `json:"flow_each"`
	Pressure     *Quantity `json:"pressure,omitzero"`
	Class        string    `json:"class,omitzero"`
	FinesPercent *Quantity `json:"fines_percent"`
	WithinRange  bool      `json:"within_range"`
}

func (w *writer) ratePressure(r spray.Result) *RatePressure {
	out := &RatePressure{
		FlowTotal:     w.in(r.FlowTotal),
		FlowEach:      w.in(r.FlowEach),
		Pressure:      w.pressure(r.Pressure),
		PressureUsed:  w.pressure(r.PressureUsed),
		WithinRange:   r.WithinRange,
		RateDelivered: w.in(r.RateDelivered),
		Droplet: Droplet{
			Class: string(r.Droplet.Class), ClassOther: string(r.Droplet.ClassOther),
			Dv01: w.drop(r.Droplet.Spectrum.Dv01), Dv05: w.drop(r.Droplet.Spectrum.Dv05), Dv09: w.drop(r.Droplet.Spectrum.Dv09),
			FinesPercent: w.in(r.Droplet.Fines), Basis: r.Droplet.Basis, Measured: r.Droplet.Measured,
			Uncertainty: w.in(r.Droplet.Uncertainty),
		},
		SpeedRange: SpeedRange{
			Lowest: w.in(r.SpeedRange.Lowest), Highest: w.in(r.SpeedRange.Highest),
			BoundBy: SpeedBounds{Lowest: r.SpeedRange.LowestBound, Highest: r.SpeedRange.HighestBound},
		},
		Curve: make([]CurvePoint, 0, len(r.Curve)),
	}
	for _, p := range r.Curve {
		out.Curve = append(out.Curve, CurvePoint{
			Speed: w.in(p.Speed), FlowEach: w.in(p.FlowEach), Pressure: w.pressure(p.Pressure),
			Class: string(p.Class), FinesPercent: w.in(p.Fines), WithinRange: p.WithinRange,
		})
	}
	return out
}

// pressure writes a pressure that rotary atomizers do not have.
func (w *writer) pressure(p *units.Pressure) *Quantity {
	if p == nil {
		return nil
	}
	return w.in(*p)
}

// drop writes a drop diameter; absent where it is not known, which the room says by 0.
func (w *writer) drop(d units.Length) *Quantity {
	if d <= 0 {
		return nil
	}
	return w.as(d, "um")
}
