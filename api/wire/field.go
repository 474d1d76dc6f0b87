package wire

import (
	"encoding/json"
	"math"

	"tractcheck/feasibility"
	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/tract"
	"tractcheck/feasibility/units"
)

// Field is the ground and what lies around it.
type Field struct {
	Area          *Quantity  `json:"area,omitzero"`
	Boundary      *Geometry  `json:"boundary,omitzero"`
	KeepOuts      *Geometry  `json:"keep_outs,omitzero"`
	Length        *Quantity  `json:"length,omitzero" validate:"required_with=Width"`
	Width         *Quantity  `json:"width,omitzero" validate:"required_with=Length"`
	Elevation     *Quantity  `json:"elevation,omitzero"`
	CropHeight    *Quantity  `json:"crop_height,omitzero"`
	LaunchPoint   *Point     `json:"launch_point,omitzero"`
	FerryDistance *Quantity  `json:"ferry_distance,omitzero"`
	Crop          *string    `json:"crop,omitzero" validate:"omitempty,min=1,max=100"`
	Neighbors     []Neighbor `json:"neighbors,omitzero" validate:"max=200,dive"`
}

// Geometry is a GeoJSON Polygon or MultiPolygon (RFC 7946), WGS 84, longitude first. Coordinates
// are kept as sent until Type says how deep they nest.
type Geometry struct {
	Type        *string         `json:"type,omitzero" validate:"required,oneof=Polygon MultiPolygon"`
	Coordinates json.RawMessage `json:"coordinates,omitzero" validate:"required"`
}

// Point is a GeoJSON Point.
type Point struct {
	Type        *string   `json:"type,omitzero" validate:"required,oneof=Point"`
	Coordinates []float64 `json:"coordinates,omitzero" validate:"required,min=2,max=3"`
}

// Neighbor is something next to the field that should not be sprayed.
type Neighbor struct {
	Kind      *string   `json:"kind,omitzero" validate:"required,oneof=crop dwelling water apiary organic road other"`
	Distance  *Quantity `json:"distance,omitzero" validate:"required"`
	Bearing   *Quantity `json:"bearing,omitzero" validate:"required"`
	Tolerance *Quantity `json:"tolerance,omitzero"`
}

func (m *mapper) field(f *Field) feasibility.Field {
	if f == nil {
		return feasibility.Field{}
	}
	count := 0
	out := feasibility.Field{
		Ground: tract.Field{
			Boundary:      m.apart(at("/field/boundary"), m.polygons(at("/field/boundary"), f.Boundary, &count)),
			KeepOuts:      m.polygons(at("/field/keep_outs"), f.KeepOuts, &count),
			Area:          optional[units.Area](m, at("/field/area"), f.Area),
			Length:        optional[units.Length](m, at("/field/length"), f.Length),
			Width:         optional[units.Length](m, at("/field/width"), f.Width),
			LaunchPoint:   m.launchPoint(f.LaunchPoint),
			FerryDistance: optional[units.Length](m, at("/field/ferry_distance"), f.FerryDistance),
		},
		Elevation:  optional[units.Length](m, at("/field/elevation"), f.Elevation),
		CropHeight: optional[units.Length](m, at("/field/crop_height"), f.CropHeight),
		Crop:       f.Crop,
	}
	if f.Neighbors != nil {
		out.Neighbors = make([]drift.Neighbor, 0, len(f.Neighbors)) // an empty list says: none
	}
	for i, n := range f.Neighbors {
		place := atIndex("/field/neighbors/*", i)
		out.Neighbors = append(out.Neighbors, drift.Neighbor{
			Kind:      textOf(n.Kind),
			Distance:  stated[units.Length](m, place.member("distance"), n.Distance),
			Bearing:   stated[units.Bearing](m, place.member("bearing"), n.Bearing),
			Tolerance: optional[units.Proportion](m, place.member("tolerance"), n.Tolerance),
		})
	}
	m.fieldFacts(f, out.Ground)
	return out
}

// ground notes a field whose size was not given in any of the three ways.
func (m *mapper) ground(f *Field) {
	if f == nil || f.Area != nil || f.Boundary != nil || f.Length != nil || f.Width != nil {
		return
	}
	m.missing(at("/field/area"), "The field needs a size. Send area, or boundary, or length and width.")
}

// sizeSlack is how far two statements of the field's size may differ before they contradict each
// other. Own choice: recorded acres and a drawn boundary often differ by a few percent.
const sizeSlack = 0.10

// fieldFacts holds the ways of giving the field's size, and the places around it, to each other.
func (m *mapper) fieldFacts(f *Field, ground tract.Field) {
	if f.KeepOuts != nil && f.Boundary == nil {
		m.conflict(at("/field/keep_outs"), nil, "together with boundary",
			"Keep-outs cannot be placed without the field's boundary. Send boundary, or leave keep_outs out and send the area without them.")
	}
	if ground.Length != nil && ground.Width != nil {
		sides := ground.Length.By(*ground.Width)
		m.sameArea(f, ground.Area, sides, sides, "length times width")
		if len(ground.Boundary) > 0 {
			gross := areaOf(ground.Boundary)
			m.sameSides(f, sides, gross)
		}
	}
	if len(ground.Boundary) > 0 {
		gross := areaOf(ground.Boundary)
		net := max(0, gross-areaOf(ground.KeepOuts))
		m.sameArea(f, ground.Area, net, gross, "the ground inside boundary")
	}
	if f.LaunchPoint != nil && ground.LaunchPoint != nil && len(ground.Boundary) > 0 {
		if !near(*ground.LaunchPoint, ground.Boundary, mostExtent) {
			m.conflict(at("/field/launch_point"), f.LaunchPoint.Coordinates, "within 50 km of boundary",
				"The launch point is far from the field. Check that longitude comes first, then latitude.")
		}
	}
}

// sameArea refuses an area that lies far outside what another statement of the size comes to.
func (m *mapper) sameArea(f *Field, area *units.Area, low, high units.Area, what string) {
	if area == nil || low <= 0 {
		return
	}
	if float64(*area) >= float64(low)*(1-sizeSlack) && float64(*area) <= float64(high)*(1+sizeSlack) {
		return
	}
	found := express(high, f.Area.Unit)
	m.conflict(at("/field/area"), *f.Area, "within 10 % of "+sayQuantity(found),
		"The area does not agree with "+what+", "+sayQuantity(found)+". Send the one that is right and leave the other out.")
}

// sameSides refuses a length and width that do not agree with the boundary.
func (m *mapper) sameSides(f *Field, sides, gross units.Area) {
	if gross <= 0 || math.Abs(float64(sides/gross)-1) <= sizeSlack {
		return
	}
	found := express(gross, "ac")
	m.conflict(at("/field/length"), *f.Length, "length times width within 10 % of "+sayQuantity(found),
		"Length times width does not agree with the ground inside boundary, "+sayQuantity(found)+". Send one of the two.")
}

func (m *mapper) launchPoint(p *Point) *tract.Position {
	if p == nil || len(p.Coordinates) < 2 {
		return nil
	}
	position, ok := m.position(at("/field/launch_point/coordinates"), p.Coordinates)
	if !ok {
		return nil
	}
	return &position
}
