package form

import (
	"encoding/json"
	"strings"

	"tractcheck/api/wire"
)

// polygons puts a GeoJSON text into the request. A request takes a bare Polygon or MultiPolygon; the
// files of maps mostly hold features, so their polygons are taken out.
func (b *builder) polygons(place, text string) {
	if text == "" {
		return
	}
	geometry, message := polygonsOf([]byte(text))
	if message != "" {
		b.fault(place, wire.FaultFormat, message)
		return
	}
	b.root.set(place, geometry)
}

// geoJSON is as much of RFC 7946 as the form unpacks.
type geoJSON struct {
	Type        string          `json:"type"`
	Coordinates json.RawMessage `json:"coordinates"`
	Geometry    *geoJSON        `json:"geometry"`
	Geometries  []*geoJSON      `json:"geometries"`
	Features    []*geoJSON      `json:"features"`
	CRS         json.RawMessage `json:"crs"`
}

// deepest is how many levels of collections are unpacked: features in a collection in a collection.
const deepest = 4

// polygonsOf takes the polygons out of a GeoJSON text, as one geometry. Where it cannot, the message
// says what to do.
func polygonsOf(text []byte) (geometry, message string) {
	var root geoJSON
	if err := json.Unmarshal(text, &root); err != nil {
		return "", "This is not GeoJSON text. Export the field as GeoJSON and paste all of it, from the first { to the last }."
	}
	if root.otherDatum() {
		return "", "This map is not in WGS 84. Export it again in WGS 84, with longitude and latitude in degrees."
	}
	if root.Type == "Polygon" || root.Type == "MultiPolygon" {
		return root.bare(), ""
	}
	found := root.polygons(deepest)
	switch len(found) {
	case 0:
		return "", "This GeoJSON holds no polygon. Export the field's outline as a polygon, not as a line or a point."
	case 1:
		return found[0].bare(), ""
	}
	var all []json.RawMessage
	for _, one := range found {
		if one.Type == "Polygon" {
			all = append(all, one.Coordinates)
			continue
		}
		var several []json.RawMessage
		if json.Unmarshal(one.Coordinates, &several) != nil {
			return "", "The coordinates of this GeoJSON cannot be read. Export the field again."
		}
		all = append(all, several...)
	}
	joined, err := json.Marshal(all)
	if err != nil {
		return "", "The coordinates of this GeoJSON cannot be read. Export the field again."
	}
	return geoJSON{Type: "MultiPolygon", Coordinates: joined}.bare(), ""
}

// otherDatum reports a named reference system that is not that of GeoJSON (RFC 7946, section 4). Old
// files name WGS 84 itself, by CRS84 or 4326.
func (g geoJSON) otherDatum() bool {
	named := string(g.CRS)
	return named != "" && named != "null" && !strings.Contains(named, "CRS84") && !strings.Contains(named, "4326")
}

// bare is the geometry alone. Coordinates that are missing stay so, for the reader to say.
func (g geoJSON) bare() string {
	if len(g.Coordinates) == 0 {
		return `{"type":` + quoted(g.Type) + `}`
	}
	return `{"type":` + quoted(g.Type) + `,"coordinates":` + string(g.Coordinates) + `}`
}

// polygons finds every polygon in features and collections.
func (g *geoJSON) polygons(levels int) []geoJSON {
	if g == nil || levels < 0 {
		return nil
	}
	if g.Type == "Polygon" || g.Type == "MultiPolygon" {
		return []geoJSON{*g}
	}
	found := g.Geometry.polygons(levels - 1)
	for _, inner := range g.Geometries {
		found = append(found, inner.polygons(levels-1)...)
	}
	for _, feature := range g.Features {
		found = append(found, feature.polygons(levels-1)...)
	}
	return found
}
