package tract

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// Own choices: beyond farthest a boundary is no field but swapped or wrong coordinates; beyond
// farAcross the flat map may be off by more than 1 part in 1,000,000.
const (
	farthest  = 500e3 // m
	farAcross = 20e3  // m
)

// region is ground bounded by rings; a point is inside where it lies within an odd number of them.
type region []orb.Ring

// corners reports the number of positions of all rings.
func (r region) corners() int {
	n := 0
	for _, ring := range r {
		n += len(ring)
	}
	return n
}

// ground is the field on a plane, whatever way it was stated.
type ground struct {
	tract     region      // outer rings counter-clockwise, holes clockwise, so that signed areas add up
	keepOuts  []region    // as stated
	forbidden []region    // keep-outs and holes: no swath may touch them
	kept      []region    // beside sides that face a neighbor: to be left unsprayed
	area      float64     // m2, holes taken off
	convex    bool        // one convex ring and nothing forbidden
	band      band        // the headland, which the lines leave to its own passes
	mapped    bool        // on the map, so bearings mean something
	outline   []orb.Point // around all of the tract, convex; none where it is not on the map
	plane     plane
	launch    *orb.Point
	setBacks  []setBack // of this ground
	work      *tally    // counts the steps of the work on this ground; nil: they are not counted
}

// survey turns a field into ground. It reports false, with a finding, where there is none.
func survey(field Field, r *report) (ground, bool) {
	switch {
	case len(field.Boundary) > 0:
		return surveyBoundary(field, r)
	case field.Length != nil && field.Width != nil:
		return surveyRectangle(field, *field.Length, *field.Width, r)
	case field.Area != nil:
		side := units.Length(math.Sqrt(max(0, field.Area.SI())))
		r.Find(finding.Finding{
			Code: CodeAreaAssumedSquare, Severity: finding.Note, Subject: "/field/area",
			Message: "Only the size of the tract is known, so it was planned as a square of " + feet(side) +
				" a side. A long, narrow or ragged tract needs more turns. Send its boundary, or its length and width.",
			Measured: *field.Area, Source: sourceOwn,
		})
		r.Assume("/field/boundary", "a square tract of "+acres(*field.Area)+", "+feet(side)+" a side, with no keep-outs",
			"send the boundary as GeoJSON, or length and width", sourceOwn)
		return surveyRectangle(field, side, side, r)
	default:
		r.Find(finding.Finding{
			Code: CodeFieldMissing, Severity: finding.Needed, Subject: "/field",
			Message: "The size of the tract is not known, so no sorties could be planned. Send its boundary, its length and width, or its area.",
			Source:  sourceOwn,
		})
		return ground{}, false
	}
}

// surveyRectangle makes ground of two sides. The longer one lies along x.
func surveyRectangle(field Field, length, width units.Length, r *report) (ground, bool) {
	long, short := max(length.SI(), width.SI()), min(length.SI(), width.SI())
	g := ground{area: long * short, convex: true}
	if !(g.area > 0) || math.IsInf(g.area, 0) {
		return g, empty(r)
	}
	g.tract = region{{{0, 0}, {long, 0}, {long, short}, {0, short}, {0, 0}}}
	if len(field.KeepOuts) > 0 {
		r.Find(finding.Finding{
			Code: CodeKeepOutsUnplaced, Severity: finding.Caution, Subject: "/field/keep_outs",
			Message: "Keep-outs were sent without a boundary, so the plan could not place them: it sprays the whole area. Send the tract's boundary so that the lines can stop short of them.",
			Source:  sourceOwn,
		})
	}
	return g, true
}

// surveyBoundary makes ground of polygons on the map.
func surveyBoundary(field Field, r *report) (ground, bool) {
	g := ground{mapped: true, convex: len(field.Boundary) == 1 && len(field.KeepOuts) == 0}
	origin, extent, ok := middle(field.Boundary)
	if !ok {
		return g, empty(r)
	}
	g.plane = newPlane(origin.Longitude.SI(), origin.Latitude.SI())
	r.Cite(sourceEllipsoid)
	r.Cite(sourceGeodesics)
	if extent > farthest {
		r.Find(finding.Finding{
			Code: CodeBoundaryTooLarge, Severity: finding.Stop, Subject: "/field/boundary",
			Message:  fmt.Sprintf("The boundary is about %s miles across, which is no field. Check that every point has longitude first and latitude second.", figure(extent/units.Mile.SI())),
			Measured: units.Length(extent), Limit: units.Length(farthest), Margin: units.Length(farthest - extent), Source: sourceOwn,
		})
		return g, false
	}
	for _, polygon := range field.Boundary {
		g.addPolygon(polygon)
	}
	g.addIslands()
	if !(g.area > 0) {
		return g, empty(r)
	}
	if extent > farAcross {
		r.Find(finding.Finding{
			Code: CodeBoundaryLarge, Severity: finding.Caution, Subject: "/field/boundary",
			Message:  fmt.Sprintf("The boundary is about %s miles across. Areas and lines are worked out on a flat map, which loses accuracy at that size. Send the tract in parts.", figure(extent/units.Mile.SI())),
			Measured: units.Length(extent), Limit: units.Length(farAcross), Margin: units.Length(farAcross - extent), Source: sourceEllipsoid,
		})
	}
	for _, polygon := range field.KeepOuts {
		if rings := g.rings(polygon); len(rings) > 0 {
			g.keepOuts = append(g.keepOuts, rings)
			g.forbidden = append(g.forbidden, rings)
		}
	}
	g.convex = g.convex && len(g.tract) == 1 && convex(g.tract[0])
	g.outline = outline(g.tract)
	if p := field.LaunchPoint; p != nil {
		at := g.plane.point(p.Longitude.SI(), p.Latitude.SI())
		g.launch = &at
	}
	return g, true
}

// empty reports that the field encloses nothing, and false.
func empty(r *report) bool {
	r.Find(finding.Finding{
		Code: CodeFieldEmpty, Severity: finding.Needed, Subject: "/field",
		Message: "The tract as sent encloses no ground. Send its corner points in order, the first one again at the end, or its length and width.",
		Source:  sourceOwn,
	})
	return false
}

// middle reports the middle of a boundary and its longest extent in meters, roughly.
func middle(boundary []Polygon) (origin Position, extent float64, ok bool) {
	var first Position
	var west, east, south, north float64
	for _, polygon := range boundary {
		for _, ring := range polygon {
			for _, p := range ring {
				if !units.Finite(p.Longitude) || !units.Finite(p.Latitude) {
					return origin, 0, false
				}
				if !ok {
					first, south, north, ok = p, p.Latitude.SI(), p.Latitude.SI(), true
				}
				d := math.Remainder((p.Longitude - first.Longitude).SI(), 2*math.Pi)
				west, east = min(west, d), max(east, d)
				south, north = min(south, p.Latitude.SI()), max(north, p.Latitude.SI())
			}
		}
	}
	lat := (south + north) / 2
	origin = Position{Longitude: first.Longitude + units.Angle((west+east)/2), Latitude: units.Angle(lat)}
	extent = semiMajorAxis * max(north-south, (east-west)*math.Cos(lat))
	return origin, extent, ok
}

// addPolygon puts a polygon of the boundary onto the ground: its outer ring turned
// counter-clockwise, its holes clockwise.
func (g *ground) addPolygon(polygon Polygon) {
	for i, ring := range g.rings(polygon) {
		area := planar.Area(ring) // signed, by the shoelace formula
		if (area < 0) == (i == 0) {
			ring.Reverse()
		}
		g.area += planar.Area(ring)
		g.tract = append(g.tract, ring)
	}
}

// addIslands makes every hole forbidden ground, less what other polygons place inside it.
func (g *ground) addIslands() {
	for i, hole := range g.tract {
		if planar.Area(hole) > 0 {
			continue
		}
		rings := region{hole}
		for k, other := range g.tract {
			if k != i && -planar.Area(hole) > math.Abs(planar.Area(other)) && within(hole, other) {
				rings = append(rings, other)
			}
		}
		g.forbidden = append(g.forbidden, rings)
	}
}

// within reports whether every corner of a ring lies in a hole or on its line.
func within(hole, ring orb.Ring) bool {
	for _, p := range ring {
		if !planar.RingContains(hole, p) {
			return false
		}
	}
	return true
}

// rings puts a polygon's rings onto the plane; a ring without area is left out, and so are the
// holes of an outer ring without area.
func (g *ground) rings(polygon Polygon) region {
	var out region
	for i, ring := range polygon {
		line := make(orb.Ring, 0, len(ring)+1)
		for _, p := range ring {
			if at := g.plane.point(p.Longitude.SI(), p.Latitude.SI()); len(line) == 0 || line[len(line)-1] != at {
				line = append(line, at)
			}
		}
		if len(line) > 0 && !line.Closed() {
			line = append(line, line[0])
		}
		if len(line) >= 4 && planar.Area(line) != 0 {
			out = append(out, line)
		} else if i == 0 {
			return nil
		}
	}
	return out
}

// convex reports whether a closed ring turns one way only.
func convex(ring orb.Ring) bool {
	n := len(ring) - 1
	for i := range n {
		a, b, c := ring[i], ring[(i+1)%n], ring[(i+2)%n]
		if (b[0]-a[0])*(c[1]-b[1])-(b[1]-a[1])*(c[0]-b[0]) < 0 {
			return false
		}
	}
	return true
}
