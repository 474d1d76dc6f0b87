package takeoff_test

import (
	"bytes"
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/takeoff"
	"tractcheck/feasibility/units"
)

// row is one line of a published table, by column name.
type row map[string]string

func (r row) number(t *testing.T, column string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(r[column], 64)
	require.NoError(t, err, "column %s", column)
	return x
}

// published reads a table of testdata/published; lines that start with # are its reference.
func published(t *testing.T, name string) []row {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "published", name))
	require.NoError(t, err)
	reader := csv.NewReader(bytes.NewReader(data))
	reader.Comment = '#'
	lines, err := reader.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(lines), 1, "a table has a header and rows")
	var rows []row
	for _, line := range lines[1:] {
		r := row{}
		for i, column := range lines[0] {
			r[column] = line[i]
		}
		rows = append(rows, r)
	}
	return rows
}

func TestLargestFillTable(t *testing.T) {
	t.Parallel()
	for _, r := range published(t, "takeoff-largest-fill.csv") {
		t.Run(r["name"], func(t *testing.T) {
			density := r.number(t, "density_lb_per_gal")
			in := sprayer(r.number(t, "airframe_lb"), r.number(t, "battery_lb"))
			in.Load.Density = new(units.Density(density) * units.PoundPerGallon)
			got := takeoff.Weigh(in)

			half := 0.5 * pow10(-r.number(t, "decimals"))
			model := 55e-6 / density // one part in a million of the line
			assert.InDelta(t, r.number(t, "largest_fill_gal"), got.LargestFill.Volume.In(units.Gallon), half+model)
			assert.Equal(t, takeoff.SmallUnmannedAircraft, got.LargestFill.BoundBy)
			assert.True(t, got.Small, "the largest fill stays under the line, total %v", got.Total)
		})
	}
}

func TestLiquidMassTable(t *testing.T) {
	t.Parallel()
	for _, r := range published(t, "takeoff-liquid-mass.csv") {
		t.Run(r["name"], func(t *testing.T) {
			in := sprayer(20, 10)
			tank := units.Volume(r.number(t, "tank_l")) * units.Liter
			in.Aircraft.TankCapacity, in.Load.Fill = tank, &tank
			in.Load.Density = new(units.Density(r.number(t, "density_kg_per_l")) * units.KilogramPerLiter)
			got := takeoff.Weigh(in)

			assert.InDelta(t, r.number(t, "liquid_lb"), part(t, got, takeoff.Liquid).In(units.Pound), 0.0005)
			limit := limitOf(t, got, takeoff.TankCapacity)
			assert.InDelta(t, r.number(t, "liquid_lb"), limit.Limit.In(units.Pound), 0.0005)
			assert.True(t, limit.Within, "a full tank is within its capacity")
		})
	}
}

func TestWaterDensityTable(t *testing.T) {
	t.Parallel()
	for _, r := range published(t, "water-density.csv") {
		t.Run(r["temperature_degc"], func(t *testing.T) {
			in := sprayer(20, 10)
			in.Load.Fill = new(1 * units.Gallon)
			in.Load.Density = new(units.Density(r.number(t, "density_kg_per_l")) * units.KilogramPerLiter)
			got := part(t, takeoff.Weigh(in), takeoff.Liquid)
			assert.InDelta(t, r.number(t, "density_lb_per_gal"), got.In(units.Pound), 0.0005)
			if r["temperature_degc"] == "4" {
				assert.InDelta(t, got.In(units.Pound), takeoff.Water.In(units.PoundPerGallon), 0.0005, "the default is water at 4 C")
			}
		})
	}
}

func TestSmallAircraftLineTable(t *testing.T) {
	t.Parallel()
	for _, r := range published(t, "small-aircraft-line.csv") {
		t.Run(r["takeoff_kg"], func(t *testing.T) {
			in := sprayer(0, 0)
			in.Aircraft.EmptyWeight = units.Mass(r.number(t, "takeoff_kg")) * units.Kilogram
			in.Aircraft.BatteryWeight = 0
			in.Load.Fill = new(units.Volume(0))
			got := takeoff.Weigh(in)
			assert.InDelta(t, r.number(t, "takeoff_lb"), got.Total.In(units.Pound), 0.0005)
			assert.Equal(t, r["small"] == "true", got.Small)
			assert.Equal(t, got.Small, limitOf(t, got, takeoff.SmallUnmannedAircraft).Within)
		})
	}
}
