package tract

import (
	"math"

	"github.com/paulmach/orb"

	"tractcheck/feasibility/units"
)

// The WGS 84 ellipsoid. Source: NIMA 2000, TR8350.2, table 3.1 (both exact by definition).
const (
	semiMajorAxis     = 6378137.0 // m
	inverseFlattening = 298.257223563
	flattening        = 1 / inverseFlattening
	// Eccentricity squared, e2 = f (2 - f); TR8350.2, table 3.3.
	eccentricitySquared = flattening * (2 - flattening)
)

// plane is a plane that touches the ellipsoid at its origin: x to the east, y to the north, in
// meters.
//
// A position goes onto it along the vertical of the origin (the geocentric to topocentric
// conversion of IOGP Guidance Note 373-7-2, methods 9836 and 9837, height left out; from
// memory). The prime-vertical radius is taken at each position and the meridian's shape comes
// with it, so parallels curve and meridians meet as they do on the ground. The area of a tract of
// extent d is low by about d^2/(12 R^2): 2e-7 at 10 km.
type plane struct {
	longitude, latitude    float64
	sinLat, cosLat         float64
	radius                 float64 // prime vertical, at the origin, m
	originAxis, originPole float64 // of the origin: distance from the axis, height above the equator, m
}

// newPlane makes a plane at an origin in radians.
func newPlane(longitude, latitude float64) plane {
	p := plane{longitude: longitude, latitude: latitude}
	p.sinLat, p.cosLat = math.Sincos(latitude)
	p.radius = primeVertical(p.sinLat)
	p.originAxis = p.radius * p.cosLat
	p.originPole = p.radius * (1 - eccentricitySquared) * p.sinLat
	return p
}

// primeVertical reports the radius of curvature in the prime vertical, N = a/sqrt(1 - e2 sin2 lat).
// Source: TR8350.2, chapter 4 (from memory).
func primeVertical(sinLat float64) float64 {
	return semiMajorAxis / math.Sqrt(1-eccentricitySquared*sinLat*sinLat)
}

// point puts a position, in radians, onto the plane. Longitude differences are taken the short
// way round, so a tract on the antimeridian stays whole.
func (p plane) point(longitude, latitude float64) orb.Point {
	sinLat, cosLat := math.Sincos(latitude)
	radius := primeVertical(sinLat)
	dLon := math.Remainder(longitude-p.longitude, 2*math.Pi)
	sinLon := math.Sin(dLon)
	axis, pole := radius*cosLat, radius*(1-eccentricitySquared)*sinLat
	// East = X' sin(dLon); north = dZ cos(lat0) - (axis cos(dLon) - axis0) sin(lat0), with
	// 1 - cos(dLon) written as 2 sin2(dLon/2) so that small fields keep their digits.
	halfSin := math.Sin(dLon / 2)
	outward := axis - p.originAxis - 2*axis*halfSin*halfSin
	return orb.Point{axis * sinLon, (pole-p.originPole)*p.cosLat - outward*p.sinLat}
}

// position brings a point of the plane back to the ground, in radians, by Newton's steps with the
// radii at the origin; it is good to a micrometer within 500 km.
func (p plane) position(at orb.Point) Position {
	// Meridian radius M = a (1 - e2)/(1 - e2 sin2 lat)^1.5; TR8350.2, chapter 4 (from memory).
	meridian := semiMajorAxis * (1 - eccentricitySquared) / math.Pow(1-eccentricitySquared*p.sinLat*p.sinLat, 1.5)
	longitude, latitude := p.longitude, p.latitude
	for range 24 {
		here := p.point(longitude, latitude)
		east, north := at[0]-here[0], at[1]-here[1]
		latitude += north / meridian
		longitude += east / max(1, p.radius*math.Cos(latitude))
		if math.Abs(east)+math.Abs(north) < 1e-6 {
			break
		}
	}
	return Position{Longitude: units.Angle(longitude), Latitude: units.Angle(latitude)}
}
