package wire

import (
	"encoding/json"
	"math"
	"time"

	"tractcheck/feasibility"
	"tractcheck/feasibility/tract"
	"tractcheck/feasibility/units"
)

// FeatureCollection is an answer as a map: GeoJSON (RFC 7946), WGS 84, longitude first, 7 decimals,
// outer rings counter-clockwise. The members beside type and features are foreign members of the
// format (section 6.1), which viewers skip: what question the map answers and what was found.
type FeatureCollection struct {
	Type      string    `json:"type"`
	Reference *string   `json:"reference,omitzero"`
	Digest    string    `json:"digest"`
	Engine    string    `json:"engine"`
	RulesAsOf string    `json:"rules_as_of"`
	Answer    string    `json:"answer,omitzero"`
	Headline  string    `json:"headline,omitzero"`
	Notes     []string  `json:"notes"`
	Findings  []Finding `json:"findings"`
	Sources   []Source  `json:"sources"`
	Features  []Feature `json:"features"`
}

// Feature is one thing on the map.
type Feature struct {
	Type       string            `json:"type"`
	Geometry   MapGeometry       `json:"geometry"`
	Properties FeatureProperties `json:"properties"`
}

// MapGeometry is where it lies. Coordinates nest as deep as the type says.
type MapGeometry struct {
	Type        string          `json:"type"`
	Coordinates json.RawMessage `json:"coordinates"`
}

// geometry writes coordinates, which are lists of finite numbers.
func geometry(kind string, coordinates any) MapGeometry {
	text, err := json.Marshal(coordinates)
	if err != nil { // no finite position: the geometry is empty (RFC 7946, section 3.1)
		text = []byte("[]")
	}
	return MapGeometry{Type: kind, Coordinates: text}
}

// FeatureProperties say what it is. Name is for a viewer's label.
type FeatureProperties struct {
	Kind     string    `json:"kind"`
	Name     string    `json:"name"`
	Line     *int      `json:"line,omitzero"`
	Sortie   *int      `json:"sortie,omitzero"`
	Aircraft *int      `json:"aircraft,omitzero"`
	Length   *Quantity `json:"length,omitzero"`
	Along    *Quantity `json:"along,omitzero"`
	Swath    *Quantity `json:"swath,omitzero"`
	EndedBy  string    `json:"ended_by,omitzero"`
	Area     *Quantity `json:"area,omitzero"`
	Distance *Quantity `json:"distance,omitzero"`
}

// The kinds of features.
const (
	kindBoundary  = "boundary"
	kindKeepOut   = "keep_out"
	kindUnsprayed = "unsprayed_strip"
	kindDriftZone = "drift_zone"
	kindLater     = "later_strip"
	kindLine      = "swath_line"
	kindStart     = "sortie_start"
	kindStop      = "sortie_stop"
	kindLaunch    = "launch_point"
)

// NewMap writes a drawing of an answer for the wire: grounds first, then lines, then points, so
// that a viewer that paints in order hides nothing.
func NewMap(id Identity, req *Request, a feasibility.Answer, d feasibility.Drawing) *FeatureCollection {
	if req == nil {
		req = &Request{}
	}
	w := &writer{system: req.system(), request: req}
	out := &FeatureCollection{
		Type: "FeatureCollection", Reference: req.Reference, Digest: id.Digest, Engine: id.Engine,
		RulesAsOf: a.RulesAsOf.Format(time.DateOnly), Answer: string(a.Verdict), Headline: a.Headline,
		Notes: append([]string{}, d.Notes...), Findings: w.findings(a.Findings),
	}
	out.Sources = w.sources(nil)
	out.Features = append(w.grounds(a, d), w.swathLines(d)...)
	out.Features = append(out.Features, w.places(d)...)
	return out
}

// grounds draws the boundary, the keep-outs, the strips left unsprayed and the drift zone.
func (w *writer) grounds(a feasibility.Answer, d feasibility.Drawing) []Feature {
	out := []Feature{}
	add := func(polygons []tract.Polygon, properties FeatureProperties) {
		if g, ok := grounds(polygons); ok {
			out = append(out, Feature{Type: "Feature", Geometry: g, Properties: properties})
		}
	}
	add(d.DriftZone, FeatureProperties{Kind: kindDriftZone, Name: "Drift zone", Distance: w.in(d.ZoneDepth)})
	add(d.Map.Boundary, FeatureProperties{Kind: kindBoundary, Name: "Tract", Area: w.in(a.SortiePlan.Accounting.Tract)})
	add(d.Later, FeatureProperties{Kind: kindLater, Name: "Spray another day", Area: w.in(a.SetBack.Area)})
	add(d.Map.Unsprayed, FeatureProperties{Kind: kindUnsprayed, Name: "Leave unsprayed"})
	for _, polygon := range d.Map.KeepOuts {
		add([]tract.Polygon{polygon}, FeatureProperties{Kind: kindKeepOut, Name: "Keep out"})
	}
	return out
}

// swathLines draws every stretch of a swath line that one sortie sprays, in flying order.
func (w *writer) swathLines(d feasibility.Drawing) []Feature {
	out := make([]Feature, 0, len(d.Map.Lines))
	for _, line := range d.Map.Lines {
		p := FeatureProperties{Kind: kindLine, Name: "Line " + line.Number.String(), Line: number(line.Number),
			Length: w.in(line.Length), Swath: w.in(d.Swath)}
		if line.Sortie > 0 {
			p.Name += ", sortie " + line.Sortie.String()
			p.Sortie, p.Aircraft = number(line.Sortie), number(line.Aircraft)
		}
		out = append(out, Feature{Type: "Feature", Properties: p,
			Geometry: geometry("LineString", [][2]float64{degrees(line.From), degrees(line.To)})})
	}
	return out
}

// places draws where sorties start and stop spraying, and the launch point.
func (w *writer) places(d feasibility.Drawing) []Feature {
	var out []Feature
	point := func(at tract.Position, p FeatureProperties) {
		out = append(out, Feature{Type: "Feature", Geometry: geometry("Point", degrees(at)), Properties: p})
	}
	for _, b := range d.Map.Breaks {
		p := FeatureProperties{Kind: kindStop, Name: "Sortie " + b.Sortie.String() + " stops",
			Sortie: number(b.Sortie), Line: number(b.Line), Along: w.in(b.Along), EndedBy: string(b.Bound)}
		if b.Starts {
			p.Kind, p.Name = kindStart, "Sortie "+b.Sortie.String()+" starts"
		}
		point(b.At, p)
	}
	if d.Map.Launch != nil {
		point(*d.Map.Launch, FeatureProperties{Kind: kindLaunch, Name: "Launch"})
	}
	return out
}

// number is a count as an optional member.
func number(n units.Count) *int {
	out := int(n)
	return &out
}

// degrees writes a position: longitude, then latitude, to 7 decimals (a centimeter).
func degrees(p tract.Position) [2]float64 {
	round := func(a units.Angle) float64 { return math.Round(a.In(units.Degree)*1e7) / 1e7 }
	return [2]float64{round(p.Longitude), round(p.Latitude)}
}

// grounds writes polygons as one geometry, rings rounded; it reports false where nothing is left.
func grounds(polygons []tract.Polygon) (MapGeometry, bool) {
	var all [][][][2]float64
	for _, polygon := range polygons {
		var rings [][][2]float64
		for i, ring := range polygon {
			line, ok := roundedRing(ring)
			if ok {
				rings = append(rings, line)
			} else if i == 0 {
				break // no outer ring, no polygon
			}
		}
		if len(rings) > 0 {
			all = append(all, rings)
		}
	}
	switch len(all) {
	case 0:
		return MapGeometry{}, false
	case 1:
		return geometry("Polygon", all[0]), true
	default:
		return geometry("MultiPolygon", all), true
	}
}

// roundedRing writes a ring with positions that rounding made equal left out; it reports false
// where fewer than four are left.
func roundedRing(ring tract.Ring) ([][2]float64, bool) {
	var out [][2]float64
	for _, p := range ring {
		if at := degrees(p); len(out) == 0 || out[len(out)-1] != at {
			out = append(out, at)
		}
	}
	return out, len(out) >= ringSize && out[0] == out[len(out)-1]
}
