package tract

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/clip"

	"tractcheck/feasibility/units"
)

// fullTurn brings a longitude round.
const fullTurn = 2 * math.Pi * units.Radian

// once is the ground's longitudes, each once.
var once = orb.Bound{Min: orb.Point{-math.Pi, -math.Pi}, Max: orb.Point{math.Pi, math.Pi}}

// wrapped brings a position's longitude to within 180 degrees either way.
func wrapped(p Position) Position {
	if p.Longitude.SI() > math.Pi || p.Longitude.SI() < -math.Pi {
		p.Longitude = units.Angle(math.Remainder(p.Longitude.SI(), 2*math.Pi))
	}
	return p
}

// cut cuts polygons at the 180th meridian, so that no part crosses it (RFC 7946, section 3.1.9).
func cut(polygons []Polygon) []Polygon {
	var out []Polygon
	for i, polygon := range polygons {
		if !crosses(polygon) {
			if out != nil {
				out = append(out, polygon)
			}
			continue
		}
		if out == nil {
			out = append(make([]Polygon, 0, len(polygons)+1), polygons[:i]...)
		}
		for _, by := range [3]units.Angle{0, -fullTurn, fullTurn} {
			if part := clip.Polygon(once, shifted(polygon, by)); len(part) > 0 {
				out = append(out, polygonOf(part))
			}
		}
	}
	if out == nil {
		return polygons
	}
	return out
}

// crosses reports whether a polygon reaches past the 180th meridian.
func crosses(polygon Polygon) bool {
	for _, ring := range polygon {
		for _, p := range ring {
			if math.Abs(p.Longitude.SI()) > math.Pi {
				return true
			}
		}
	}
	return false
}

// shifted turns a polygon round the axis.
func shifted(polygon Polygon, by units.Angle) orb.Polygon {
	out := make(orb.Polygon, len(polygon))
	for i, ring := range polygon {
		for _, p := range ring {
			out[i] = append(out[i], orb.Point{(p.Longitude + by).SI(), p.Latitude.SI()})
		}
	}
	return out
}

func polygonOf(rings orb.Polygon) Polygon {
	out := make(Polygon, len(rings))
	for i, ring := range rings {
		for _, p := range ring {
			out[i] = append(out[i], Position{units.Angle(p[0]), units.Angle(p[1])})
		}
	}
	return out
}

// pieces cuts a line at the 180th meridian.
func (l Line) pieces() []Line {
	edge := math.Copysign(math.Pi, (l.From.Longitude + l.To.Longitude).SI())
	a, b := l.From.Longitude.SI()-edge, l.To.Longitude.SI()-edge
	if a == b || (a < 0) == (b < 0) || math.Abs(a) > math.Pi/2 {
		l.From, l.To = wrapped(l.From), wrapped(l.To)
		return []Line{l}
	}
	share := a / (a - b)
	latitude := l.From.Latitude + units.Angle(share)*(l.To.Latitude-l.From.Latitude)
	first, second := l, l
	first.To = Position{units.Angle(edge), latitude}
	second.From = Position{units.Angle(-edge), latitude}
	if a*edge > 0 { // the line comes from beyond
		first.To.Longitude, second.From.Longitude = -first.To.Longitude, -second.From.Longitude
	}
	first.From, second.To = wrapped(l.From), wrapped(l.To)
	first.Length, second.Length = units.Length(share)*l.Length, units.Length(1-share)*l.Length
	return []Line{first, second}
}
