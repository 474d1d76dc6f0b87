package tract

import (
	"github.com/paulmach/orb"

	"tractcheck/feasibility/units"
)

// Map is a plan on the ground, WGS 84. Outer rings run counter-clockwise and holes clockwise, as
// RFC 7946, section 3.1.6, asks. What lies across the 180th meridian is cut there (section 3.1.9).
type Map struct {
	Boundary  []Polygon
	KeepOuts  []Polygon
	Lines     []Line
	Breaks    []Break
	Launch    *Position
	Unsprayed []Polygon // strips kept clear for a neighbor downwind
	Coarse    bool      // the lines were too many to lay out one by one
}

// Line is a stretch of a swath line that one sortie sprays, in flying order.
type Line struct {
	Number   units.Count // of the line, 1-based
	Sortie   units.Count // 0 where no sortie is listed for it
	Aircraft units.Count
	From, To Position
	Length   units.Length
}

// Break is where a sortie starts or stops spraying.
type Break struct {
	Sortie units.Count
	Starts bool // else it stops
	Line   units.Count
	Along  units.Length // from where the line begins in flying order
	At     Position
	Bound  Bound // what ended the sortie; of stops alone
}

// drawn is what a map is drawn from.
type drawn struct {
	ground   *ground
	path     *path // nil where there is nothing to fly
	list     []Sortie
	ends     []float64 // where on the path the sorties end, m
	aircraft units.Count
	coarse   bool
}

// Map draws the plan; it reports false where the field has no place on the map.
func (p Plan) Map() (Map, bool) {
	d := p.drawn
	if d == nil || !d.ground.mapped {
		return Map{}, false
	}
	m := Map{Coarse: d.coarse, Boundary: cut(d.ground.polygons(d.ground.tract)), Unsprayed: d.ground.strips()}
	for _, rings := range d.ground.keepOuts {
		m.KeepOuts = append(m.KeepOuts, cut([]Polygon{d.ground.polygon(rings)})...)
	}
	if d.ground.launch != nil {
		at := wrapped(d.ground.plane.position(*d.ground.launch))
		m.Launch = &at
	}
	if d.path == nil {
		return m, true
	}
	at := 0.0
	for i, to := range d.ends {
		m.Breaks = append(m.Breaks, d.breaks(i, at, to)...)
		m.Lines = append(m.Lines, d.lines(i, at, to)...)
		at = to
	}
	if d.path.length-at > d.path.tiny() {
		m.Lines = append(m.Lines, d.lines(-1, at, d.path.length)...)
	}
	return m, true
}

// lines lists the stretches of lines between two places of the path, flown by a sortie; -1 for none.
func (d *drawn) lines(sortie int, from, to float64) []Line {
	if len(d.path.legs) == 0 {
		return nil
	}
	var out []Line
	for i := d.path.leg(from); i < len(d.path.legs) && d.path.legs[i].start < to-d.path.tiny(); i++ {
		leg := d.path.legs[i]
		a, b := max(from, leg.start), min(to, leg.start+d.path.long(leg))
		if b-a <= d.path.tiny() {
			continue
		}
		line := Line{Number: units.Count(leg.line), Length: units.Length(b - a),
			From: d.ground.plane.position(d.path.point(i, a)), To: d.ground.plane.position(d.path.point(i, b))}
		if sortie >= 0 {
			line.Sortie, line.Aircraft = units.Count(sortie+1), units.Count(sortie)%max(1, d.aircraft)+1
		}
		out = append(out, line.pieces()...)
	}
	return out
}

// breaks lists where a sortie starts and where it stops.
func (d *drawn) breaks(i int, from, to float64) []Break {
	if len(d.path.legs) == 0 {
		return nil
	}
	start := Break{Sortie: units.Count(i + 1), Starts: true}
	at := d.path.spot(from)
	start.Line, start.Along = d.path.resumed(at)
	start.At = wrapped(d.ground.plane.position(d.path.point(at.leg, from)))
	last := d.path.lastLeg(to)
	stop := Break{Sortie: units.Count(i + 1), Line: units.Count(d.path.legs[last].line), Bound: d.list[i].EndedBy}
	stop.Along = d.path.along(last, to)
	stop.At = wrapped(d.ground.plane.position(d.path.point(last, to)))
	return []Break{start, stop}
}

// polygons sorts rings that run as the tract's do into polygons, each hole to the smallest outer
// ring around it.
func (g ground) polygons(rings region) []Polygon {
	outers, holes := rings.sorted()
	out := make([]Polygon, len(outers))
	for i, ring := range outers {
		out[i] = Polygon{g.ring(ring)}
	}
	for _, hole := range holes {
		if i := around(outers, hole); i >= 0 {
			out[i] = append(out[i], g.ring(hole))
		}
	}
	return out
}

// polygon brings one polygon's rings, outer first, back to the ground.
func (g ground) polygon(rings region) Polygon {
	out := make(Polygon, 0, len(rings))
	for i, ring := range rings {
		if ring.Orientation() == orb.CCW != (i == 0) {
			ring = ring.Clone()
			ring.Reverse()
		}
		out = append(out, g.ring(ring))
	}
	return out
}

// ring brings a ring back to the ground.
func (g ground) ring(ring orb.Ring) Ring {
	out := make(Ring, 0, len(ring))
	for _, p := range ring {
		out = append(out, g.plane.position(p))
	}
	out[len(out)-1] = out[0]
	return out
}
