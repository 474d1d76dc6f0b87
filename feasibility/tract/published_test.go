package tract

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/units"
)

// published reads a table of testdata/published: rows by column name.
func published(t *testing.T, name string) []map[string]string {
	t.Helper()
	file, err := os.Open(filepath.Join("..", "..", "testdata", "published", name))
	require.NoError(t, err)
	defer func() { _ = file.Close() }()
	reader := csv.NewReader(file)
	reader.Comment = '#'
	records, err := reader.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(records), 1, "rows of %s", name)
	var rows []map[string]string
	for _, record := range records[1:] {
		row := map[string]string{}
		for i, column := range records[0] {
			row[column] = record[i]
		}
		rows = append(rows, row)
	}
	return rows
}

// number reads a number of a row, and halfDigit half a unit of its last printed digit.
func number(t *testing.T, row map[string]string, column string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(row[column], 64)
	require.NoError(t, err, column)
	return x
}

func halfDigit(row map[string]string, column string) float64 {
	_, decimals, _ := strings.Cut(row[column], ".")
	return 0.5 * math.Pow10(-len(decimals))
}

// points reads "a b;c d" pairs.
func points(t *testing.T, text string) []orb.Point {
	t.Helper()
	var out []orb.Point
	for _, pair := range strings.Split(text, ";") {
		a, b, ok := strings.Cut(pair, " ")
		require.True(t, ok, pair)
		x, err := strconv.ParseFloat(a, 64)
		require.NoError(t, err)
		y, err := strconv.ParseFloat(b, 64)
		require.NoError(t, err)
		out = append(out, orb.Point{x, y})
	}
	return out
}

// onMap makes a ring of longitude and latitude in degrees.
func onMap(lonLat ...orb.Point) Ring {
	var ring Ring
	for _, p := range append(lonLat, lonLat[0]) {
		ring = append(ring, Position{Longitude: units.Angle(p[0]) * units.Degree, Latitude: units.Angle(p[1]) * units.Degree})
	}
	return ring
}

func TestAreasAgreeWithGeodesics(t *testing.T) {
	t.Parallel()
	for _, row := range published(t, "karney-2013-field-polygons.csv") {
		t.Run(row["vertices"], func(t *testing.T) {
			t.Parallel()
			var lonLat []orb.Point
			for _, p := range points(t, row["vertices"]) {
				lonLat = append(lonLat, orb.Point{p[1], p[0]})
			}
			g, ok := survey(Field{Boundary: []Polygon{{onMap(lonLat...)}}}, &report{})
			require.True(t, ok)
			// The plane's stated accuracy of 1e-6 beside half the last printed digit.
			want := number(t, row, "area_m2")
			assert.InDelta(t, want, g.area, halfDigit(row, "area_m2")+want*1e-6)
			assert.InDelta(t, number(t, row, "acres"), units.Area(g.area).In(units.Acre), halfDigit(row, "acres")+want/4046*1e-6)
		})
	}
}

// planeGround makes ground of one ring in meters, as a mapped field would be.
func planeGround(ring []orb.Point) ground {
	closed := orb.Ring(append(append([]orb.Point{}, ring...), ring[0]))
	g := ground{mapped: true, tract: region{closed}, convex: convex(closed), plane: newPlane(0, 0.7)}
	for i := 1; i < len(closed); i++ { // shoelace
		g.area += (closed[i-1][0]*closed[i][1] - closed[i][0]*closed[i-1][1]) / 2
	}
	return g
}

func TestCheckPolygons(t *testing.T) {
	t.Parallel()
	for _, row := range published(t, "coverage-check-polygons.csv") {
		t.Run(row["name"]+" "+row["heading_deg"], func(t *testing.T) {
			t.Parallel()
			g := planeGround(points(t, row["vertices"]))
			assert.InDelta(t, number(t, row, "area_m2"), g.area, halfDigit(row, "area_m2"))

			angle := number(t, row, "heading_deg") * math.Pi / 180
			l := lay(&g, angle, 7)
			assert.InDelta(t, number(t, row, "width_m"), l.width, halfDigit(row, "width_m"))
			assert.Equal(t, row["passes"], l.passes.String(), "passes")
			assert.Equal(t, number(t, row, "segments"), l.pieces, "segments")
			assert.InEpsilon(t, number(t, row, "length_m"), l.length, 0.001, "length")

			if row["fewest"] == "yes" {
				angle, _ := fewestTurns(&g, &Job{Swath: 7})
				best := lay(&g, angle, 7)
				assert.Equal(t, l.pieces, best.pieces, "pieces along the best heading")
				// Along the same heading or one half a turn or a square's quarter away.
				assert.Equal(t, l.passes, best.passes)
			}
		})
	}
}

func TestVineyardRows(t *testing.T) {
	t.Parallel()
	row := published(t, "vineyard-rows.csv")[0]
	spacing := units.Length(number(t, row, "row_spacing_m"))
	length := units.Length(number(t, row, "row_length_m"))
	width := spacing * units.Length(number(t, row, "rows"))
	job := tankJob(1)
	job.Swath = spacing
	// The rows run along the shorter side, so the tract is laid out on the map by hand.
	g := planeGround([]orb.Point{{0, 0}, {length.SI(), 0}, {length.SI(), width.SI()}, {0, width.SI()}})
	l := lay(&g, 0, spacing.SI())
	assert.Equal(t, row["rows"], l.passes.String())
	assert.InEpsilon(t, number(t, row, "area_ha"), units.Area(l.length*l.swath).In(units.Hectare), 0.01)

	plan := Fly(Field{Length: &length, Width: &width}, job)
	assert.InEpsilon(t, number(t, row, "area_ha"), plan.Area.In(units.Hectare), 0.01)
}

func TestWorkCycleOf40Acres(t *testing.T) {
	t.Parallel()
	row := published(t, "work-cycle-40-acres.csv")[0]
	area, ferry := 40*units.Acre, 150*units.Meter
	plan := Fly(Field{Area: &area, FerryDistance: &ferry}, tankJob(1))
	require.True(t, plan.Feasible)
	assert.Equal(t, row["passes"], plan.Passes.String())
	assert.Equal(t, row["loads"], plan.Sorties.String())
	assert.Equal(t, BoundTank, plan.BoundBy)
	assert.InDelta(t, number(t, row, "spray_time_s"), plan.SprayTime.SI(), halfDigit(row, "spray_time_s"))
	assert.InDelta(t, number(t, row, "area_per_tank_ha"), plan.AreaEach.In(units.Hectare), halfDigit(row, "area_per_tank_ha"))
	perPass := plan.SprayLength.SI() / plan.Passes.SI() * 7
	assert.InDelta(t, number(t, row, "passes_per_tank"), plan.AreaEach.SI()/perPass, halfDigit(row, "passes_per_tank"))

	// The cycle's own parts: spraying + 57 turns + 11 x 30 s of ferry + 11 climbs.
	climb := 11 * (2*tankJob(1).Height.SI()/climbSpeed.SI() + groundTime.SI())
	assert.InDelta(t, 3333.6+57*5+11*30+climb, plan.FlightTime.SI(), 0.1)
}

// On a rectangle of many passes, time spraying over time spraying and turning is the table's, but for
// the one turn that the last pass does not need.
func TestTurningEfficiency(t *testing.T) {
	t.Parallel()
	for _, row := range published(t, "turning-efficiency.csv") {
		const passes, swath = 2000, 7.0
		length := number(t, row, "length_m")
		g := planeGround([]orb.Point{{0, 0}, {length, 0}, {length, passes * swath}, {0, passes * swath}})
		turn := turning{turn: number(t, row, "turn_s"), speed: number(t, row, "speed_mps"), swath: swath}
		l := lay(&g, 0, swath)
		p := join(&l, turn, nil)
		assert.Len(t, p.legs, passes)
		assert.InDelta(t, number(t, row, "efficiency"), p.length/turn.speed/p.seconds(turn), halfDigit(row, "efficiency")+1.0/passes)
	}
}
