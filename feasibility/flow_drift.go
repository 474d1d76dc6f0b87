package feasibility

import (
	"tractcheck/feasibility/air"
	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/takeoff"
	"tractcheck/feasibility/tract"
)

// driftInput is what the drift room reads; weight and plan are nil where they were not worked out.
func (m Mission) driftInput(sky air.State, weight *takeoff.Result, rate spray.Result, plan *tract.Plan) drift.Input {
	label := m.Load.Label
	in := drift.Input{
		Air:       sky,
		WindSpeed: m.Weather.WindSpeed,
		WindFrom:  m.Weather.WindFrom,
		Gust:      m.Weather.Gust,
		Spray: drift.Spray{
			Atomizer: m.SpraySystem.System.Atomizer,
			Droplet:  rate.Droplet,
			Rate:     m.Load.ApplicationRate,
			Density:  orElse(m.Load.Density, takeoff.Water),
		},
		Release: drift.Release{
			Height:      m.Flight.Height,
			Speed:       m.Flight.Speed,
			Swath:       m.Flight.Swath,
			Course:      m.Flight.Course,
			Crosswind:   m.Flight.Crosswind,
			UnderRotors: m.SpraySystem.UnderRotors,
		},
		Ground:    m.groundForDrift(sky, plan),
		Neighbors: m.neighbors(plan),
		Label: drift.LabelLimits{
			MaxWind: label.MaxWind, MinWind: label.MinWind,
			MaxHeight:       label.MaxReleaseHeight,
			DownwindBuffer:  label.DownwindBuffer,
			DropletClassMin: label.DropletClassMin, DropletClassMax: label.DropletClassMax,
		},
		Pesticide: m.Load.Pesticide,
	}
	if weight != nil {
		in.Release.Mass = &weight.Total
		if m.Aircraft.Rotors != nil {
			disc := m.Aircraft.Rotors.DiscArea()
			in.Release.DiscArea = &disc
		}
	}
	return in
}

// groundForDrift is the field as the drift sees it: the planned area, else the stated one, and how far
// the boundary reaches along the wind.
func (m Mission) groundForDrift(sky air.State, plan *tract.Plan) drift.Ground {
	ground := drift.Ground{CropHeight: sky.CropHeight}
	switch f := m.Field.Ground; {
	case plan != nil && plan.Area > 0:
		ground.Area = &plan.Area
	case f.Length != nil && f.Width != nil:
		area := f.Length.By(*f.Width)
		ground.Area = &area
	default:
		ground.Area = f.Area
	}
	switch f := m.Field.Ground; {
	case len(f.Boundary) > 0:
		if r, mapped := m.reach(plan); mapped {
			ground.Along, ground.Across, ground.Longest = &r.Along, &r.Across, &r.Longest
		}
	case f.Length != nil && f.Width != nil:
		longer, shorter := max(*f.Length, *f.Width), min(*f.Length, *f.Width)
		ground.Longest, ground.Shortest = &longer, &shorter
	}
	return ground
}

// reach is how far the field's boundary reaches along the wind.
func (m Mission) reach(plan *tract.Plan) (tract.Reach, bool) {
	travel := m.Weather.WindFrom.Opposite()
	if plan != nil {
		return plan.Reach(travel)
	}
	return m.Field.Ground.Reach(travel)
}
