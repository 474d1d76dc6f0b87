package api

import (
	"encoding/json"
	"math"
	"net/http"
	"regexp"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// mappable are the sample missions with a boundary.
var mappable = []string{"woodlot-ring.json", "old-horseshoe.json", "twin-cuts.json"}

// A map is what the format asks for, read by a library that shares no code with the service.
func TestMapsAreGeoJSON(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{})
	for _, name := range mappable {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			got := call(t, request(t, "POST", url+"/v1/assessments", string(sample(t, name)), "Accept", mediaMap))
			require.Equal(t, http.StatusOK, got.StatusCode, string(got.body))
			assert.Equal(t, mediaMap, got.Header.Get("Content-Type"))
			assert.Contains(t, got.Header.Values("Vary"), "Accept")
			kinds := map[string]int{}
			for _, f := range featuresOf(t, got.body) {
				kinds[f.Properties.Kind]++
				assert.NotRegexp(t, regexp.MustCompile(`\.\d{8}`), string(f.Geometry.Coordinates), "no more than 7 decimals")
				holdRings(t, f)
			}
			assert.NotZero(t, kinds["swath_line"])
			assert.Equal(t, 1, kinds["boundary"])
			assert.Equal(t, 1, kinds["launch_point"])
			assert.Equal(t, 1, kinds["drift_zone"])
			assert.Equal(t, kinds["sortie_start"], kinds["sortie_stop"])
			if name == "woodlot-ring.json" {
				assert.Equal(t, 1, kinds["later_strip"], "the drift asks for more room beside the water")
			}
			assert.NotContains(t, string(got.body), `"crs"`)
		})
	}
}

// Passes round the edge are asked for and answered, with what the job costs without them; more than
// the contract admits is a fault.
func TestHeadlandPasses(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{})
	body := string(sample(t, "woodlot-ring.json"))
	got := call(t, request(t, "POST", url+"/v1/sortie-plans", body))
	require.Equal(t, http.StatusOK, got.StatusCode, string(got.body))
	var answer struct {
		SortiePlan struct {
			Passes   int
			Headland struct {
				Passes int
				Costs  []struct{ Passes int }
			}
		} `json:"sortie_plan"`
	}
	require.NoError(t, json.Unmarshal(got.body, &answer))
	require.Len(t, answer.SortiePlan.Headland.Costs, 2)
	assert.Equal(t, 1, answer.SortiePlan.Headland.Passes)
	assert.Equal(t, 1, answer.SortiePlan.Headland.Costs[0].Passes)
	assert.Zero(t, answer.SortiePlan.Headland.Costs[1].Passes)
	body = strings.Replace(body, `"headland_passes": 1`, `"headland_passes": 9`, 1)
	got = call(t, request(t, "POST", url+"/v1/sortie-plans", body))
	require.Equal(t, http.StatusUnprocessableEntity, got.StatusCode)
	assert.Equal(t, "/flight/headland_passes", got.problem.Faults[0].Pointer)
}

// mapped is a feature as it came back.
type mapped struct {
	Type     string
	Geometry struct {
		Type        string
		Coordinates json.RawMessage
	}
	Properties struct{ Kind string }
}

func featuresOf(t *testing.T, body []byte) []mapped {
	t.Helper()
	var document struct {
		Type     string
		Features []mapped
	}
	require.NoError(t, json.Unmarshal(body, &document))
	require.Equal(t, "FeatureCollection", document.Type)
	return document.Features
}

// holdRings checks coordinates as RFC 7946 has them: longitude first and, of rings (section 3.1.6),
// closed, four positions or more, outer ones counter-clockwise, holes clockwise.
func holdRings(t *testing.T, f mapped) {
	t.Helper()
	require.Equal(t, "Feature", f.Type)
	var point orb.Point
	var line orb.LineString
	var polygons orb.MultiPolygon
	switch raw := f.Geometry.Coordinates; f.Geometry.Type {
	case "Point":
		require.NoError(t, json.Unmarshal(raw, &point))
		line = orb.LineString{point}
	case "LineString":
		require.NoError(t, json.Unmarshal(raw, &line))
		require.Len(t, line, 2)
	case "Polygon":
		polygons = make(orb.MultiPolygon, 1)
		require.NoError(t, json.Unmarshal(raw, &polygons[0]))
	default:
		require.Equal(t, "MultiPolygon", f.Geometry.Type)
		require.NoError(t, json.Unmarshal(raw, &polygons))
	}
	for _, polygon := range polygons {
		for i, ring := range polygon {
			require.GreaterOrEqual(t, len(ring), 4)
			require.True(t, ring.Closed())
			require.Equal(t, i == 0, planar.Area(ring) > 0, "ring %d winds the wrong way", i)
			line = append(line, orb.LineString(ring)...)
		}
	}
	for _, p := range line {
		require.LessOrEqual(t, math.Abs(p[0]+90.86), 0.02)
		require.LessOrEqual(t, math.Abs(p[1]-33.41), 0.02)
	}
}

// The map of the plan alone has the same lines, and says that it shows no drift.
func TestSortiePlanAsAMap(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{})
	got := call(t, request(t, "POST", url+"/v1/sortie-plans", string(sample(t, "woodlot-ring.json")), "Accept", mediaMap))
	require.Equal(t, http.StatusOK, got.StatusCode, string(got.body))
	assert.NotContains(t, string(got.body), `"drift_zone"`)
	assert.Contains(t, string(got.body), "No drift zone is drawn, because drift was not worked out")
	assert.NotContains(t, string(got.body), `"headline"`)
}

// Without a boundary there is no map: JSON where the caller takes that too, else a fault that names
// the member.
func TestMapsNeedABoundary(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{})
	body := string(sample(t, levee))
	got := call(t, request(t, "POST", url+"/v1/assessments", body, "Accept", mediaMap))
	require.Equal(t, http.StatusUnprocessableEntity, got.StatusCode)
	require.Len(t, got.problem.Faults, 1)
	assert.Equal(t, "/field/boundary", got.problem.Faults[0].Pointer)
	got = call(t, request(t, "POST", url+"/v1/assessments", body, "Accept", mediaMap+", application/json;q=0.5"))
	require.Equal(t, http.StatusOK, got.StatusCode)
	assert.Equal(t, mediaJSON, got.Header.Get("Content-Type"))
}

func TestTheMostWelcomeFormIsSent(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{})
	body := string(sample(t, "woodlot-ring.json"))
	for accept, want := range map[string]string{
		"*/*": mediaJSON, "application/*": mediaJSON, "": mediaJSON,
		"application/geo+json, */*;q=0.1":                     mediaMap,
		"application/json;q=0.3, application/geo+json;q=0.7":  mediaMap,
		"application/json, application/geo+json":              mediaJSON,
		"application/json;q=0, */*":                           mediaMap,
		"Application/GEO+JSON":                                mediaMap,
		"text/html, application/geo+json;q=0.1, text/*;q=0.2": mediaMap,
	} {
		got := call(t, request(t, "POST", url+"/v1/sortie-plans", body, "Accept", accept))
		require.Equal(t, http.StatusOK, got.StatusCode, accept)
		assert.Equal(t, want, got.Header.Get("Content-Type"), accept)
	}
	got := call(t, request(t, "POST", url+"/v1/sortie-plans", body, "Accept", "text/csv"))
	require.Equal(t, http.StatusNotAcceptable, got.StatusCode)
	assert.Contains(t, got.problem.Detail, "application/json or application/geo+json", "the forms on offer are listed")
	got = call(t, request(t, "POST", url+"/v1/takeoff-weights", body, "Accept", mediaMap))
	assert.Equal(t, http.StatusNotAcceptable, got.StatusCode, "a weight has no place on a map")
}
