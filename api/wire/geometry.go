package wire

import (
	"bytes"
	"encoding/json"
	"math"
	"strconv"

	"tractcheck/feasibility/tract"
	"tractcheck/feasibility/units"
)

// Bounds of a request's geometry. Own choices: a field drawn by hand or by machine has tens to
// hundreds of positions, and a job is within a day's drive.
const (
	mostPositions = 10_000 // boundary and keep_outs together
	mostExtent    = 50 * units.Kilometer
	// leastRing is the least area a ring encloses; under it the ring is a line or a slip.
	leastRing = 1 * units.SquareMeter
)

// ringSize is the least number of positions of a linear ring, the closing one included (RFC 7946,
// section 3.1.6).
const ringSize = 4

// polygons reads a geometry. Both windings are accepted, and a third element of a position, its
// height, is left out (RFC 7946, sections 3.1.6 and 3.1.1). count is the number of positions read
// so far in the request. Nil where the geometry is absent or faulty.
func (m *mapper) polygons(p place, g *Geometry, count *int) []tract.Polygon {
	if g == nil || g.Type == nil || len(g.Coordinates) == 0 {
		return nil
	}
	where := p.pointer() + "/coordinates"
	rings, ok := m.nested(where, *g.Type, g.Coordinates)
	if !ok {
		return nil
	}
	for _, polygon := range rings {
		for _, ring := range polygon {
			*count += len(ring)
		}
	}
	if *count > mostPositions {
		m.geometry(where, *count, "at most 10000 positions in boundary and keep_outs together",
			"This geometry has too many positions. Simplify it: one position for every few meters is plenty.")
		return nil
	}
	before := len(m.faults)
	out := make([]tract.Polygon, 0, len(rings))
	for i, polygon := range rings {
		path := where
		if *g.Type == "MultiPolygon" {
			path += "/" + strconv.Itoa(i)
		}
		out = append(out, m.polygon(path, polygon))
	}
	if len(m.faults) > before {
		return nil
	}
	m.extent(where, out)
	if len(m.faults) > before {
		return nil
	}
	return out
}

// nested reads the coordinates at the depth of their type.
func (m *mapper) nested(where, kind string, raw json.RawMessage) ([][][][]float64, bool) {
	var polygon [][][]float64
	var polygons [][][][]float64
	var err error
	switch kind {
	case "Polygon":
		err = json.Unmarshal(raw, &polygon)
		polygons = [][][][]float64{polygon}
	case "MultiPolygon":
		err = json.Unmarshal(raw, &polygons)
	default:
		return nil, false // a fault of its own, of the type
	}
	// The decoder takes null for an empty list and for 0; a position has no nulls.
	if err != nil || bytes.Contains(raw, []byte("null")) {
		depth := map[string]string{"Polygon": "rings of positions", "MultiPolygon": "polygons of rings of positions"}[kind]
		m.geometry(where, nil, "a list of "+depth+", each position [longitude, latitude]",
			"These coordinates are not those of a "+kind+". Check how deep the brackets nest.")
		return nil, false
	}
	if len(polygons) == 0 || (kind == "Polygon" && len(polygon) == 0) {
		m.geometry(where, nil, "at least one ring", "This geometry is empty. Send its outer ring.")
		return nil, false
	}
	return polygons, true
}

// polygon reads one polygon: its outer ring and the holes in it.
func (m *mapper) polygon(where string, rings [][][]float64) tract.Polygon {
	if len(rings) == 0 {
		m.geometry(where, nil, "at least one ring", "This polygon is empty. Send its outer ring.")
		return nil
	}
	before := len(m.faults)
	out := make(tract.Polygon, 0, len(rings))
	for i, ring := range rings {
		out = append(out, m.ring(where+"/"+strconv.Itoa(i), ring))
	}
	if len(m.faults) > before {
		return nil
	}
	if a, b, crossed := crossing(out); crossed {
		m.geometry(where, nil, "rings that do not cross themselves or each other",
			"The outline crosses itself near "+sayPosition(a)+" and "+sayPosition(b)+". Put the positions in the order of a walk around the ground.")
		return nil
	}
	for i, ring := range out {
		if math.Abs(ringArea(ring)) < leastRing.SI() {
			m.geometry(where+"/"+strconv.Itoa(i), nil, "a ring around at least 1 m2",
				"This ring encloses no ground. Check its positions.")
		}
	}
	if len(m.faults) == before && !tract.Nested([]tract.Polygon{out}) {
		m.geometry(where, nil, "rings that do not cross, and holes inside the outer ring and apart",
			"The rings of this polygon overlap, or a hole lies outside of the outer ring. The first ring is the outline; the others are holes inside it. Send other ground as a polygon of its own.")
		return nil
	}
	return out
}

// apart refuses polygons of a boundary that overlap: the ground under both would count twice.
func (m *mapper) apart(p place, polygons []tract.Polygon) []tract.Polygon {
	if len(polygons) < 2 || tract.Nested(polygons) {
		return polygons
	}
	m.geometry(p.pointer()+"/coordinates", nil, "polygons that do not overlap",
		"Two polygons of the boundary cover the same ground, so it would count twice. Join them into one outline, or cut one off where the other begins.")
	return nil
}

// ring reads one closed ring.
func (m *mapper) ring(where string, positions [][]float64) tract.Ring {
	if len(positions) < ringSize {
		m.geometry(where, len(positions), "at least 4 positions, the last equal to the first",
			"This ring has too few positions. A triangle needs three corners and the first one again.")
		return nil
	}
	out := make(tract.Ring, 0, len(positions))
	for i, raw := range positions {
		position, ok := m.position(at(where+"/"+strconv.Itoa(i)), raw)
		if !ok {
			return nil // one fault a ring: the others are mostly the same slip
		}
		out = append(out, position)
	}
	if out[0] != out[len(out)-1] {
		m.geometry(where, nil, "the last position equal to the first",
			"This ring is not closed. Repeat the first position at the end.")
		return nil
	}
	if !m.hemisphere(where, out) {
		return nil
	}
	return out
}

// hemisphere refuses a ring with a side across the 180th meridian (RFC 7946, section 3.1.9).
func (m *mapper) hemisphere(where string, ring tract.Ring) bool {
	for i := 1; i < len(ring); i++ {
		if math.Abs(float64(ring[i].Longitude-ring[i-1].Longitude)) > math.Pi {
			m.geometry(where, nil, "sides that do not cross the 180th meridian",
				"This ring crosses the 180th meridian. Cut the field there and send a MultiPolygon.")
			return false
		}
	}
	return true
}

// position reads one position: longitude, then latitude, in degrees.
func (m *mapper) position(p place, raw []float64) (tract.Position, bool) {
	if len(raw) < 2 || len(raw) > 3 {
		m.geometry(p.pointer(), len(raw), "2 or 3 numbers: longitude, latitude and perhaps a height",
			"A position is [longitude, latitude] in degrees.")
		return tract.Position{}, false
	}
	longitude, latitude := raw[0], raw[1]
	if !(math.Abs(longitude) <= 180) || !(math.Abs(latitude) <= 90) {
		m.geometry(p.pointer(), sayNumber(longitude)+", "+sayNumber(latitude),
			"longitude -180 to 180, then latitude -90 to 90",
			"This position is not on Earth. Longitude comes first, then latitude, both in degrees.")
		return tract.Position{}, false
	}
	return tract.Position{
		Longitude: units.Angle(longitude) * units.Degree,
		Latitude:  units.Angle(latitude) * units.Degree,
	}, true
}

// extent refuses a field that spans more ground than a job can.
func (m *mapper) extent(where string, polygons []tract.Polygon) {
	box := boxOf(polygons)
	if units.AtMost(box.height(), mostExtent) && units.AtMost(box.width(), mostExtent) {
		return
	}
	m.geometry(where, nil, "at most 50 km across",
		"This geometry spans more than 50 km. Check its positions: longitude comes first, then latitude.")
}

func (m *mapper) geometry(pointer string, value any, allowed, message string) {
	m.add(Fault{Pointer: pointer, Code: FaultGeometry, Value: value, Allowed: allowed, Message: message})
}

// sayPosition writes a position in degrees, longitude first, to about a meter.
func sayPosition(p tract.Position) string {
	degrees := func(a units.Angle) string { return strconv.FormatFloat(a.In(units.Degree), 'f', 5, 64) }
	return "[" + degrees(p.Longitude) + ", " + degrees(p.Latitude) + "]"
}
