package spray

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/units"
)

// row is one line of a published table by column name.
type row map[string]string

// published reads a table of testdata/published.
func published(t *testing.T, name string) []row {
	t.Helper()
	file, err := os.Open(filepath.Join("..", "..", "testdata", "published", name))
	require.NoError(t, err)
	defer func() { _ = file.Close() }()
	reader := csv.NewReader(file)
	reader.Comment = '#'
	lines, err := reader.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(lines), 1, "no rows in %s", name)
	rows := make([]row, 0, len(lines)-1)
	for _, line := range lines[1:] {
		r := row{}
		for i, column := range lines[0] {
			r[column] = line[i]
		}
		rows = append(rows, r)
	}
	return rows
}

// number reads a column; every column asked for must hold a number.
func (r row) number(t *testing.T, column string) float64 {
	t.Helper()
	text, there := r[column]
	require.True(t, there, "no column %s", column)
	x, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err, "column %s", column)
	return x
}

// halfDigit is half a unit of the last printed digit of a column.
func (r row) halfDigit(column string) float64 {
	decimals := 0
	for i, c := range r[column] {
		if c == '.' {
			decimals = len(r[column]) - i - 1
		}
	}
	return 0.5 * math.Pow10(-decimals) * (1 + 1e-9)
}

// unit finds a unit by its code in the tables; L/acre is a Canadian mix.
func flowUnit(code string) units.Flow {
	return map[string]units.Flow{"gal/min": gpm, "L/min": lpm}[code]
}

func speedUnit(code string) units.Speed {
	return map[string]units.Speed{"mph": units.MilePerHour, "km/h": units.KilometerPerHour, "m/s": units.MeterPerSecond}[code]
}

func widthUnit(code string) units.Length {
	return map[string]units.Length{"in": units.Inch, "ft": units.Foot, "cm": units.Centimeter, "m": units.Meter}[code]
}

func rateUnit(code string) units.ApplicationRate {
	return map[string]units.ApplicationRate{
		"gal/ac": units.GallonPerAcre, "L/ha": units.LiterPerHectare, "L/acre": units.Liter.Over(units.Acre),
	}[code]
}

func TestPublishedFlowRates(t *testing.T) {
	t.Parallel()
	for _, r := range published(t, "spray-flow-rates.csv") {
		t.Run(r["id"], func(t *testing.T) {
			flow := units.Flow(r.number(t, "flow")) * flowUnit(r["flow_unit"])
			speed := units.Speed(r.number(t, "speed")) * speedUnit(r["speed_unit"])
			width := units.Length(r.number(t, "width")) * widthUnit(r["width_unit"])
			rate := units.ApplicationRate(r.number(t, "rate")) * rateUnit(r["rate_unit"])
			tolerance := r.number(t, "tolerance")
			require.Positive(t, flow.SI()*speed.SI()*width.SI()*rate.SI(), "an unknown unit")
			if r["solve"] == "flow" {
				got := rate.Flow(speed, width)
				assert.InEpsilon(t, flow.SI(), got.SI(), tolerance, "flow %v, want %v", got, flow)
				return
			}
			// The rate that the flow holds, through the door's own speed: flow/(rate x width).
			job := Job{Rate: rate, Swath: width}
			got := speedFor(flow, job)
			assert.InEpsilon(t, speed.SI(), got.SI(), tolerance, "speed %v, want %v", got, speed)
		})
	}
}

func TestPublishedPressureLaw(t *testing.T) {
	t.Parallel()
	for _, r := range published(t, "spray-pressure-law.csv") {
		t.Run(r["id"], func(t *testing.T) {
			base := units.Pressure(r.number(t, "base_psi")) * psi
			nozzle := Hydraulic{RatedFlow: 0.3 * gpm, RatedPressure: base}
			flow := units.Flow(r.number(t, "flow_ratio")) * nozzle.RatedFlow
			got := nozzle.PressureFor(flow, RatingDensity)
			assert.InEpsilon(t, r.number(t, "pressure_psi"), got.In(psi), r.number(t, "tolerance"))
		})
	}
}

func TestPublishedDensityFactors(t *testing.T) {
	t.Parallel()
	nozzle := Hydraulic{RatedFlow: 0.3 * gpm, RatedPressure: fortyPSI}
	for _, r := range published(t, "spray-density-factors.csv") {
		t.Run(r["density_lb_gal"], func(t *testing.T) {
			density := units.Density(r.number(t, "density_lb_gal")) * units.PoundPerGallon
			assert.InDelta(t, r.number(t, "sg"), SpecificGravity(density).SI(), 0.01)
			factor := float64(nozzle.FlowAt(fortyPSI, RatingDensity) / nozzle.FlowAt(fortyPSI, density))
			assert.InDelta(t, r.number(t, "factor"), factor, 0.01)
		})
	}
}

func TestPublishedCalibrationArithmetic(t *testing.T) {
	t.Parallel()
	for _, r := range published(t, "spray-calibration-arithmetic.csv") {
		t.Run(r["id"], func(t *testing.T) {
			got, want := calibration(t, r["kind"], r.number(t, "a"), r.number(t, "b")), r.number(t, "want")
			switch r["kind"] {
			case "least":
				assert.GreaterOrEqual(t, got, want)
			case "most":
				assert.LessOrEqual(t, got, want)
			default:
				assert.InDelta(t, want, got, r.number(t, "tolerance")*(1+1e-9))
			}
		})
	}
}

// calibration works out one kind of example with the typed quantities.
func calibration(t *testing.T, kind string, a, b float64) float64 {
	t.Helper()
	switch kind {
	case "sg_rate":
		nozzle := Hydraulic{RatedFlow: gpm, RatedPressure: fortyPSI}
		density := units.Density(a) * units.PoundPerGallon
		return b * float64(nozzle.FlowAt(fortyPSI, RatingDensity)/nozzle.FlowAt(fortyPSI, density))
	case "n_per_gallon":
		return (units.Density(a) * units.PoundPerGallon).Mass(units.Gallon).In(units.Pound) * b / 100
	case "gallons_for_n":
		volume := (units.Density(b) * units.PoundPerGallon).Volume(units.Mass(a) * units.Pound)
		return volume.Over(units.Acre).In(units.GallonPerAcre)
	case "speed":
		return (units.Speed(a*0.3048) * units.MeterPerSecond / units.Speed(b)).In(units.MilePerHour)
	case "catch":
		return units.Flow((units.Volume(a) * units.FluidOunce).SI() / b).In(gpm)
	case "volume":
		return (units.ApplicationRate(a) * rateUnit("L/acre")).Over(units.Area(b) * units.Acre).In(units.Liter)
	case "refill":
		return (units.Volume(a) * units.Gallon).Over(units.Area(b) * units.Acre).In(units.GallonPerAcre)
	case "course":
		return units.Length((units.Area(b) * units.Acre).SI() / (units.Length(a) * units.Foot).SI()).In(units.Foot)
	case "worn":
		size := Hydraulic{RatedFlow: units.Flow(a) * gpm, RatedPressure: fortyPSI}
		return size.FlowAt(threeBars, RatingDensity).In(lpm) * (1 + b/100)
	case "least", "most":
		size := Hydraulic{RatedFlow: units.Flow(a) * gpm, RatedPressure: fortyPSI}
		return size.FlowAt(units.Pressure(b)*units.Kilopascal, RatingDensity).In(lpm)
	}
	require.Fail(t, "unknown kind", kind)
	return 0
}

func TestPublishedNozzleSizes(t *testing.T) {
	t.Parallel()
	rows := published(t, "spray-nozzle-sizes.csv")
	sizes := NozzleSizes()
	require.Len(t, sizes, len(rows))
	for i, r := range rows {
		t.Run(r["code"], func(t *testing.T) {
			size := sizes[i]
			assert.Equal(t, r["code"], size.Code)
			assert.InDelta(t, r.number(t, "gpm_40psi"), size.RatedFlow.In(gpm), 1e-12)
			assert.InDelta(t, r.number(t, "lpm_3bar"), size.MetricFlow.In(lpm), 1e-12)
			nozzle := Hydraulic{RatedFlow: size.RatedFlow, RatedPressure: size.RatedPressure}
			law := nozzle.FlowAt(size.MetricPressure, RatingDensity)
			assert.InDelta(t, r.number(t, "lpm_3bar_law"), law.In(lpm), r.halfDigit("lpm_3bar_law"))
			assert.InEpsilon(t, size.MetricFlow.SI(), law.SI(), 0.014)
			if r["lpm_275kpa"] != "-" {
				chart := nozzle.FlowAt(275*units.Kilopascal, RatingDensity)
				assert.InDelta(t, r.number(t, "lpm_275kpa"), chart.In(lpm), 0.01)
			}
		})
	}
}

func TestAircraftChecks(t *testing.T) {
	t.Parallel()
	for _, r := range published(t, "spray-aircraft-checks.csv") {
		name := r["rate"] + r["rate_unit"] + "-" + r["speed"] + "-" + r["count"] + "x" + r["rated_gpm"] + "-sg" + r["sg"]
		t.Run(name, func(t *testing.T) {
			system := System{
				Atomizer: HydraulicAtomizer, Count: units.Count(r.number(t, "count")),
				Hydraulic: &Hydraulic{Type: FlatFan, RatedFlow: units.Flow(r.number(t, "rated_gpm")) * gpm, RatedPressure: fortyPSI},
			}
			got := Hold(system, Job{
				Rate:    units.ApplicationRate(r.number(t, "rate")) * rateUnit(r["rate_unit"]),
				Speed:   units.Speed(r.number(t, "speed")) * speedUnit(r["speed_unit"]),
				Swath:   units.Length(r.number(t, "swath")) * widthUnit(r["swath_unit"]),
				Density: units.Density(r.number(t, "sg")) * RatingDensity,
			})
			check := func(column string, value float64) {
				if r[column] != "-" {
					assert.InDelta(t, r.number(t, column), value, r.halfDigit(column), column)
				}
			}
			check("total_gpm", got.FlowTotal.In(gpm))
			check("total_lpm", got.FlowTotal.In(lpm))
			check("each_gpm", got.FlowEach.In(gpm))
			check("pressure_psi", got.Pressure.In(psi))
		})
	}
}
