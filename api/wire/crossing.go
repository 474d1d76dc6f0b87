package wire

import (
	"cmp"
	"slices"

	"tractcheck/feasibility/tract"
)

// side is one side of a ring, west end first.
type side struct {
	a, b         tract.Position
	south, north float64
}

// collinear is how far a point may lie off a line, as twice the area of their triangle in square
// radians, and still count as on it: about a centimeter beside a side of a centimeter.
const collinear = 1e-18

// crossing looks for two sides of a polygon that cross each other, and reports a position of each.
// Sides that touch at an end do not cross. The sides are swept from west to east, so that only those
// which overlap are compared; with the cap on positions the worst case is 50 million comparisons of
// two numbers.
func crossing(polygon tract.Polygon) (tract.Position, tract.Position, bool) {
	sides := sidesOf(polygon)
	var open []side
	for _, s := range sides {
		open = slices.DeleteFunc(open, func(o side) bool { return o.b.Longitude < s.a.Longitude })
		for _, o := range open {
			if o.north < s.south || s.north < o.south {
				continue
			}
			if cross(o, s) {
				return o.a, s.a, true
			}
		}
		open = append(open, s)
	}
	return tract.Position{}, tract.Position{}, false
}

// sidesOf lists the sides of all rings from west to east, in an order that depends on nothing else.
func sidesOf(polygon tract.Polygon) []side {
	var sides []side
	for _, ring := range polygon {
		for i := 1; i < len(ring); i++ {
			a, b := ring[i-1], ring[i]
			if a == b {
				continue
			}
			if b.Longitude < a.Longitude {
				a, b = b, a
			}
			sides = append(sides, side{
				a: a, b: b,
				south: min(float64(a.Latitude), float64(b.Latitude)),
				north: max(float64(a.Latitude), float64(b.Latitude)),
			})
		}
	}
	slices.SortStableFunc(sides, func(s, t side) int { return cmp.Compare(s.a.Longitude, t.a.Longitude) })
	return sides
}

// cross reports whether two sides cross in a point inside both.
func cross(s, t side) bool {
	return apart(turn(s.a, s.b, t.a), turn(s.a, s.b, t.b)) && apart(turn(t.a, t.b, s.a), turn(t.a, t.b, s.b))
}

// apart reports whether two turns go clearly to different hands.
func apart(p, q float64) bool {
	return p > collinear && q < -collinear || p < -collinear && q > collinear
}

// turn is twice the signed area of the triangle a, b, c.
func turn(a, b, c tract.Position) float64 {
	return float64(b.Longitude-a.Longitude)*float64(c.Latitude-a.Latitude) -
		float64(b.Latitude-a.Latitude)*float64(c.Longitude-a.Longitude)
}
