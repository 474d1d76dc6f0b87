package tract

import (
	"slices"

	"tractcheck/feasibility/units"
)

// Position is a point on the ground, WGS 84. Longitude is positive to the east, latitude to the
// north.
type Position struct{ Longitude, Latitude units.Angle }

// Ring is a closed line of positions, first equal to last. Its direction does not matter.
type Ring []Position

// Polygon is an outer ring and its holes.
type Polygon []Ring

// Field is the ground to spray. Boundary comes first, then Length and Width, then Area.
//
// Polygons of the boundary must not overlap. Holes are not part of the tract. Keep-outs may
// overlap each other and may reach outside of the tract; they count without a boundary only as
// an assumption, since there is no map to place them on. LaunchPoint needs a boundary too;
// FerryDistance is the mean distance, one way, between the launch point and where spraying starts
// or stops, and is used where there is no launch point to measure from.
type Field struct {
	Boundary      []Polygon
	KeepOuts      []Polygon
	Area          *units.Area
	Length        *units.Length
	Width         *units.Length
	LaunchPoint   *Position
	FerryDistance *units.Length
}

// same reports whether two fields are stated alike, point by point.
func (f *Field) same(other *Field) bool {
	return slices.EqualFunc(f.Boundary, other.Boundary, samePolygon) &&
		slices.EqualFunc(f.KeepOuts, other.KeepOuts, samePolygon) &&
		sameFact(f.Area, other.Area) && sameFact(f.Length, other.Length) && sameFact(f.Width, other.Width) &&
		sameFact(f.LaunchPoint, other.LaunchPoint) && sameFact(f.FerryDistance, other.FerryDistance)
}

func samePolygon(a, b Polygon) bool {
	return slices.EqualFunc(a, b, slices.Equal[Ring])
}

// sameFact reports whether two facts are both not stated, or stated alike.
func sameFact[T comparable](a, b *T) bool {
	return a == nil && b == nil || a != nil && b != nil && *a == *b
}
