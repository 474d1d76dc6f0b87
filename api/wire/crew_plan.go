package wire

import "tractcheck/feasibility/crew"

// CrewPlan is batteries, hours and cost.
type CrewPlan struct {
	Batteries      int       `json:"batteries"`
	Chargers       int       `json:"chargers"`
	GeneratorPower *Quantity `json:"generator_power"`
	GeneratorFuel  *Quantity `json:"generator_fuel"`
	AcresPerHour   *Quantity `json:"acres_per_hour"`
	Hours          *Quantity `json:"hours"`
	Waiting        *Quantity `json:"waiting"`
	Days           int       `json:"days"`
	Cost           *Cost     `json:"cost,omitzero"`
}

// Cost is the cost per area by its parts.
type Cost struct {
	PerArea             *Quantity  `json:"per_area"`
	Parts               []CostPart `json:"parts"`
	GroundQuote         *Quantity  `json:"ground_quote,omitzero"`
	MannedAircraftQuote *Quantity  `json:"manned_aircraft_quote,omitzero"`
}

// CostPart is one part of the cost.
type CostPart struct {
	Name    string    `json:"name"`
	PerArea *Quantity `json:"per_area"`
}

func (w *writer) crewPlan(r crew.Result) *CrewPlan {
	return &CrewPlan{
		Batteries:      int(r.Batteries),
		Chargers:       int(r.Chargers),
		GeneratorPower: w.as(r.GeneratorPower, "kW"),
		GeneratorFuel:  w.in(r.GeneratorFuel),
		AcresPerHour:   w.in(r.WorkRate),
		Hours:          w.as(r.Elapsed, "h"),
		Waiting:        w.as(r.Waiting, "h"),
		Days:           int(r.Days),
		Cost:           w.cost(r.Cost),
	}
}

func (w *writer) cost(c *crew.Cost) *Cost {
	if c == nil {
		return nil
	}
	out := &Cost{PerArea: w.in(c.PerArea), Parts: make([]CostPart, 0, len(c.Parts))}
	for _, p := range c.Parts {
		out.Parts = append(out.Parts, CostPart{Name: p.Name, PerArea: w.in(p.PerArea)})
	}
	if c.GroundQuote != nil {
		out.GroundQuote = w.in(*c.GroundQuote)
	}
	if c.MannedAircraftQuote != nil {
		out.MannedAircraftQuote = w.in(*c.MannedAircraftQuote)
	}
	return out
}
