package wire

import (
	"math"

	"tractcheck/feasibility/tract"
	"tractcheck/feasibility/units"
)

// earthRadius is the mean radius of the Earth, R1 = (2a + b)/3 of the WGS 84 ellipsoid, 6371008.7714 m.
// Source: Moritz 2000, Geodetic Reference System 1980, Journal of Geodesy 74, table of derived
// constants (from memory). It only serves checks of plausibility here; the tract is measured elsewhere.
const earthRadius = 6371008.7714

// box is the extent of a geometry.
type box struct{ west, east, south, north units.Angle }

func boxOf(polygons []tract.Polygon) box {
	b := box{west: math.Pi, east: -math.Pi, south: math.Pi / 2, north: -math.Pi / 2}
	for _, polygon := range polygons {
		for _, ring := range polygon {
			for _, p := range ring {
				b.west, b.east = min(b.west, p.Longitude), max(b.east, p.Longitude)
				b.south, b.north = min(b.south, p.Latitude), max(b.north, p.Latitude)
			}
		}
	}
	return b
}

func (b box) height() units.Length { return units.Length(earthRadius * float64(b.north-b.south)) }

// width is measured along the parallel nearest the equator, where it is widest.
func (b box) width() units.Length {
	nearest := 0.0
	if b.south > 0 || b.north < 0 {
		nearest = min(math.Abs(float64(b.south)), math.Abs(float64(b.north)))
	}
	return units.Length(earthRadius * math.Cos(nearest) * float64(b.east-b.west))
}

// near reports whether a position lies within a reach of a field's box.
func near(p tract.Position, polygons []tract.Polygon, reach units.Length) bool {
	b := boxOf(polygons)
	return units.AtMost(distance(p, tract.Position{
		Longitude: max(b.west, min(b.east, p.Longitude)),
		Latitude:  max(b.south, min(b.north, p.Latitude)),
	}), reach)
}

// distance is the great-circle distance, by the haversine formula.
func distance(a, b tract.Position) units.Length {
	dy := math.Sin(float64(a.Latitude-b.Latitude) / 2)
	dx := math.Sin(float64(a.Longitude-b.Longitude) / 2)
	h := dy*dy + math.Cos(float64(a.Latitude))*math.Cos(float64(b.Latitude))*dx*dx
	return units.Length(2 * earthRadius * math.Asin(min(1, math.Sqrt(h))))
}

// areaOf is the area of polygons less their holes, to about half a percent: a sphere for the Earth.
func areaOf(polygons []tract.Polygon) units.Area {
	total := 0.0
	for _, polygon := range polygons {
		for i, ring := range polygon {
			area := math.Abs(ringArea(ring))
			if i > 0 {
				area = -area
			}
			total += area
		}
	}
	return units.Area(max(0, total))
}

// ringArea is the signed area of a ring in square meters: the plane shoelace sum in the cylindrical
// equal-area projection, x = R lambda, y = R sin(phi).
func ringArea(ring tract.Ring) float64 {
	if len(ring) == 0 {
		return 0
	}
	origin := ring[0]
	project := func(p tract.Position) (x, y float64) {
		return earthRadius * float64(p.Longitude-origin.Longitude),
			earthRadius * (math.Sin(float64(p.Latitude)) - math.Sin(float64(origin.Latitude)))
	}
	twice := 0.0
	for i := 1; i < len(ring); i++ {
		x0, y0 := project(ring[i-1])
		x1, y1 := project(ring[i])
		twice += x0*y1 - x1*y0
	}
	return twice / 2
}
