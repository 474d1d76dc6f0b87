package feasibility

import (
	"fmt"
	"math"

	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/tract"
	"tractcheck/feasibility/units"
)

// application is what the mission states of the record of its own application; plan is nil where
// the field was not planned.
func (m Mission) application(plan *tract.Plan) permits.Application {
	a := permits.Application{
		Area: m.treated(plan), Place: m.place(), Crop: m.Field.Crop, Applicator: m.Operation.Applicator,
	}
	if a.Area == nil {
		return a
	}
	mix := m.Load.ApplicationRate.Over(*a.Area)
	a.Mix = &mix
	if rate := m.Load.Label.ProductRate; rate != nil {
		product := rate.Over(*a.Area)
		a.Product = &product
	}
	return a
}

// treated is the area to be sprayed: the planned one, else the size of the field as stated.
func (m Mission) treated(plan *tract.Plan) *units.Area {
	ground := m.Field.Ground
	switch {
	case plan != nil && plan.Feasible && plan.Accounting.Sprayed > 0:
		return &plan.Accounting.Sprayed
	case len(ground.Boundary) > 0:
		return nil // its size is worked out by planning it
	case ground.Length != nil && ground.Width != nil:
		area := ground.Length.By(*ground.Width)
		return &area
	default:
		return ground.Area
	}
}

// place says where the field is: the middle of its boundary, and its state; empty where no boundary
// was sent, because a state alone is no location.
func (m Mission) place() string {
	low, high, known := m.extent()
	if !known {
		return ""
	}
	said := coordinate((low.Latitude+high.Latitude)/2, "N", "S") + ", " +
		coordinate((low.Longitude+high.Longitude)/2, "E", "W") + " (middle of the boundary sent, WGS 84)"
	if m.Operation.State != nil && *m.Operation.State != "" {
		said += ", " + *m.Operation.State
	}
	return said
}

// extent is the corners of the box around the boundary.
func (m Mission) extent() (low, high tract.Position, known bool) {
	for _, polygon := range m.Field.Ground.Boundary {
		for _, ring := range polygon {
			for _, p := range ring {
				if !known {
					low, high, known = p, p, true
				}
				low = tract.Position{Longitude: min(low.Longitude, p.Longitude), Latitude: min(low.Latitude, p.Latitude)}
				high = tract.Position{Longitude: max(high.Longitude, p.Longitude), Latitude: max(high.Latitude, p.Latitude)}
			}
		}
	}
	return low, high, known
}

// coordinate prints an angle with five decimals, about a meter.
func coordinate(a units.Angle, positive, negative string) string {
	degrees, side := a.In(units.Degree), positive
	if degrees < 0 {
		side = negative
	}
	return fmt.Sprintf("%.5f %s", math.Abs(degrees), side)
}
