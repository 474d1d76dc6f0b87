package wire

import "tractcheck/feasibility/takeoff"

// TakeoffWeight is the weight at takeoff and how it stands to its limits.
type TakeoffWeight struct {
	Total       *Quantity     `json:"total"`
	Parts       []WeightPart  `json:"parts"`
	Limits      []WeightLimit `json:"limits"`
	Fill        *Quantity     `json:"fill"`
	Density     *Quantity     `json:"density"`
	LargestFill LargestFill   `json:"largest_fill"`
	Small       bool          `json:"small"`
}

// WeightPart is one weight on the scale.
type WeightPart struct {
	Name   string    `json:"name"`
	Weight *Quantity `json:"weight"`
}

// WeightLimit is one limit and how the load stands to it.
type WeightLimit struct {
	Code      string    `json:"code"`
	Limit     *Quantity `json:"limit"`
	Margin    *Quantity `json:"margin"`
	Strict    bool      `json:"strict"`
	Within    bool      `json:"within"`
	FillLimit *Quantity `json:"fill_limit"`
}

// LargestFill is the largest fill under every limit, rounded down so that it may be sent back.
type LargestFill struct {
	Volume  *Quantity `json:"volume"`
	BoundBy string    `json:"bound_by,omitzero"`
}

func (w *writer) takeoffWeight(r takeoff.Result) *TakeoffWeight {
	out := &TakeoffWeight{
		Total:   w.in(r.Total),
		Parts:   make([]WeightPart, 0, len(r.Parts)),
		Limits:  make([]WeightLimit, 0, len(r.Limits)),
		Fill:    w.down(r.Fill),
		Density: w.in(r.Density),
		LargestFill: LargestFill{
			Volume: w.down(r.LargestFill.Volume), BoundBy: string(r.LargestFill.BoundBy),
		},
		Small: r.Small,
	}
	if sent := w.request.quantityAt("/load/fill"); sent != nil {
		out.Fill = sent
	}
	if sent := w.request.quantityAt("/load/density"); sent != nil {
		out.Density = sent
	}
	for _, p := range r.Parts {
		out.Parts = append(out.Parts, WeightPart{Name: p.Name, Weight: w.in(p.Weight)})
	}
	for _, l := range r.Limits {
		out.Limits = append(out.Limits, WeightLimit{
			Code: string(l.Code), Limit: w.in(l.Limit), Margin: w.in(l.Margin),
			Strict: l.Strict, Within: l.Within, FillLimit: w.down(l.FillLimit),
		})
	}
	return out
}
