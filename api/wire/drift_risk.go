package wire

import (
	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/tract"
)

// DriftRisk is the drift and what it means for the neighbors.
type DriftRisk struct {
	Grade           string            `json:"grade"`
	Deposit         []Deposit         `json:"deposit"`
	AtNeighbors     []NeighborDeposit `json:"at_neighbors"`
	AirbornePercent *Quantity         `json:"airborne_percent"`
	Buffer          Buffer            `json:"buffer"`
	Drivers         []Driver          `json:"drivers"`
	ReferenceCurves []ReferenceCurve  `json:"reference_curves"`
	SetBack         *SetBack          `json:"set_back,omitzero"`
}

// SetBack is the strips that would keep the buffer.
type SetBack struct {
	Area   *Quantity      `json:"area"`
	Strips []SetBackStrip `json:"strips"`
}

// SetBackStrip is the strip for one neighbor.
type SetBackStrip struct {
	Neighbor int       `json:"neighbor"`
	Kind     string    `json:"kind"`
	Width    *Quantity `json:"width"`
	Area     *Quantity `json:"area"`
}

// Estimate is a best value and the range it lies in.
type Estimate struct {
	Low  *Quantity `json:"low"`
	Best *Quantity `json:"best"`
	High *Quantity `json:"high"`
}

// Deposit is the deposit on the ground at a distance downwind.
type Deposit struct {
	Distance      *Quantity `json:"distance"`
	PercentOfRate Estimate  `json:"percent_of_rate"`
}

// NeighborDeposit is the deposit at a neighbor.
type NeighborDeposit struct {
	Kind          string    `json:"kind"`
	Distance      *Quantity `json:"distance"`
	PercentOfRate Estimate  `json:"percent_of_rate"`
	Downwind      bool      `json:"downwind"`
}

// Buffer is the smallest downwind distance at which the deposit is borne.
type Buffer struct {
	Distance      *Quantity `json:"distance"`
	PercentOfRate *Quantity `json:"percent_of_rate"`
	BoundBy       string    `json:"bound_by,omitzero"`
}

// Driver is the share of one factor in the drift.
type Driver struct {
	Factor string    `json:"factor"`
	Share  *Quantity `json:"share"`
}

// ReferenceCurve is a published deposit curve.
type ReferenceCurve struct {
	Name     string             `json:"name"`
	Standing string             `json:"standing,omitzero"`
	Deposit  []ReferenceDeposit `json:"deposit"`
}

// ReferenceDeposit is one point of a published curve.
type ReferenceDeposit struct {
	Distance      *Quantity `json:"distance"`
	PercentOfRate *Quantity `json:"percent_of_rate"`
}

func (w *writer) driftRisk(r drift.Result) *DriftRisk {
	out := &DriftRisk{
		Grade:           string(r.Grade),
		Deposit:         make([]Deposit, 0, len(r.Deposit)),
		AtNeighbors:     make([]NeighborDeposit, 0, len(r.AtNeighbors)),
		AirbornePercent: w.in(r.Airborne),
		Buffer: Buffer{
			Distance: w.in(r.Buffer.Distance), PercentOfRate: w.in(r.Buffer.PercentOfRate), BoundBy: r.Buffer.BoundBy,
		},
		Drivers:         make([]Driver, 0, len(r.Drivers)),
		ReferenceCurves: make([]ReferenceCurve, 0, len(r.ReferenceCurves)),
	}
	for _, d := range r.Deposit {
		out.Deposit = append(out.Deposit, Deposit{Distance: w.in(d.Distance), PercentOfRate: w.estimate(d.PercentOfRate)})
	}
	for _, n := range r.AtNeighbors {
		out.AtNeighbors = append(out.AtNeighbors, NeighborDeposit{
			Kind: n.Kind, Distance: w.in(n.Distance), PercentOfRate: w.estimate(n.PercentOfRate), Downwind: n.Downwind,
		})
	}
	for _, d := range r.Drivers {
		out.Drivers = append(out.Drivers, Driver{Factor: d.Factor, Share: w.in(d.Share)})
	}
	for _, c := range r.ReferenceCurves {
		out.ReferenceCurves = append(out.ReferenceCurves, w.referenceCurve(c))
	}
	return out
}

func (w *writer) referenceCurve(c drift.ReferenceCurve) ReferenceCurve {
	out := ReferenceCurve{Name: c.Name, Standing: string(c.Standing), Deposit: make([]ReferenceDeposit, 0, len(c.Deposit))}
	for _, p := range c.Deposit {
		out.Deposit = append(out.Deposit, ReferenceDeposit{Distance: w.in(p.Distance), PercentOfRate: w.in(p.PercentOfRate)})
	}
	return out
}

func (w *writer) estimate(e drift.Estimate) Estimate {
	return Estimate{Low: w.in(e.Low), Best: w.in(e.Best), High: w.in(e.High)}
}

func (w *writer) setBack(l tract.Later) *SetBack {
	if len(l.Strips) == 0 {
		return nil
	}
	out := &SetBack{Area: w.in(l.Area), Strips: make([]SetBackStrip, 0, len(l.Strips))}
	for _, s := range l.Strips {
		out.Strips = append(out.Strips, SetBackStrip{Neighbor: int(s.Clear.Neighbor), Kind: s.Clear.Kind, Width: w.in(s.Clear.Width()), Area: w.in(s.Area)})
	}
	return out
}
