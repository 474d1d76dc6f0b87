package units_test

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/units"
)

var unitBySymbol = map[string]float64{
	"ft": units.Foot.SI(), "mi": units.Mile.SI(), "in": units.Inch.SI(), "um": units.Micrometer.SI(),
	"ac": units.Acre.SI(), "ha": units.Hectare.SI(),
	"gal": units.Gallon.SI(), "L": units.Liter.SI(), "mL": units.Milliliter.SI(), "fl_oz": units.FluidOunce.SI(),
	"lb": units.Pound.SI(), "g": units.Gram.SI(), "lb/gal": units.PoundPerGallon.SI(), "kg/L": units.KilogramPerLiter.SI(),
	"mph": units.MilePerHour.SI(), "km/h": units.KilometerPerHour.SI(), "kn": units.Knot.SI(),
	"psi": units.PoundPerSquareInch.SI(), "bar": units.Bar.SI(), "kPa": units.Kilopascal.SI(),
	"gal/min": units.GallonPerMinute.SI(), "L/min": units.LiterPerMinute.SI(),
	"gal/ac": units.GallonPerAcre.SI(), "L/ha": units.LiterPerHectare.SI(),
	"Wh": units.WattHour.SI(), "kWh": units.KilowattHour.SI(), "hp": units.Horsepower.SI(),
	"min": units.Minute.SI(), "h": units.Hour.SI(), "ac/h": units.AcrePerHour.SI(), "ha/h": units.HectarePerHour.SI(),
	"deg": units.Degree.SI(), "rpm": units.RevolutionPerMinute.SI(), "%": units.Percent.SI(), "mN/m": units.MillinewtonPerMeter.SI(),
}

func TestConversionsAgainstPublishedFactors(t *testing.T) {
	file, err := os.Open("../../testdata/published/unit-conversions.csv")
	require.NoError(t, err)
	defer func() { _ = file.Close() }()
	reader := csv.NewReader(file)
	reader.Comment = '#'
	rows, err := reader.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(rows), 20)
	for _, row := range rows[1:] {
		t.Run(row[0], func(t *testing.T) {
			factor, known := unitBySymbol[row[0]]
			require.True(t, known, "no unit %q", row[0])
			want, err := strconv.ParseFloat(row[1], 64)
			require.NoError(t, err)
			tolerance, err := strconv.ParseFloat(row[2], 64)
			require.NoError(t, err)
			assert.InEpsilon(t, want, factor, tolerance+1e-15)
		})
	}
}

func TestTemperatures(t *testing.T) {
	for _, tc := range []struct{ fahrenheit, celsius float64 }{{32, 0}, {212, 100}, {-40, -40}, {59, 15}} {
		assert.InDelta(t, tc.celsius, units.FromFahrenheit(tc.fahrenheit).Celsius(), 1e-10)
		assert.InDelta(t, tc.fahrenheit, units.FromCelsius(tc.celsius).Fahrenheit(), 1e-10)
	}
	warmer := units.FromCelsius(20).Plus(18 * units.FahrenheitDifference)
	assert.InDelta(t, 30, warmer.Celsius(), 1e-10)
	assert.InDelta(t, 18, warmer.Minus(units.FromCelsius(20)).In(units.FahrenheitDifference), 1e-10)
}

func TestProducts(t *testing.T) {
	rate := 2 * units.GallonPerAcre
	assert.InDelta(t, 80, rate.Over(40*units.Acre).In(units.Gallon), 1e-9)
	assert.InDelta(t, 40, rate.Covers(80*units.Gallon).In(units.Acre), 1e-9)
	assert.InDelta(t, 2, (80 * units.Gallon).Over(40*units.Acre).In(units.GallonPerAcre), 1e-9)
	flow := rate.Flow(10*units.MilePerHour, 13*units.Foot)
	// GPM = GPA x MPH x ft / 495; Mesa County, Stationary calibration method for boom sprayers.
	assert.InDelta(t, 2*10*13/495.0, flow.In(units.GallonPerMinute), 1e-9)
	assert.InDelta(t, 5, flow.Time(flow.During(5*units.Minute)).In(units.Minute), 1e-9)
	assert.InDelta(t, 1, (10*units.Meter).By(10*units.Meter).In(units.SquareMeter)/100, 1e-12)
	water := 8.345 * units.PoundPerGallon
	assert.InDelta(t, 16.69, water.Mass(2*units.Gallon).In(units.Pound), 1e-9)
	assert.InDelta(t, 2, water.Volume(16.69*units.Pound).In(units.Gallon), 1e-9)
	assert.InDelta(t, 9.80665, units.Kilogram.Weight().In(units.Newton), 1e-12)
	assert.InDelta(t, 6, (600 * units.Watt).During(36*units.Second).In(units.WattHour), 1e-12)
	assert.InDelta(t, 36, (600 * units.Watt).Time(6*units.WattHour).In(units.Second), 1e-9)
	assert.InDelta(t, 600, (6 * units.WattHour).Over(36*units.Second).In(units.Watt), 1e-9)
	assert.InDelta(t, 10, (2 * units.MeterPerSecond).Time(20*units.Meter).In(units.Second), 1e-12)
	assert.InDelta(t, 4, units.Dollars(160).Over(40*units.Acre).In(units.DollarPerAcre), 1e-9)
	assert.Equal(t, units.Dollars(160), (4 * units.DollarPerAcre).Over(40*units.Acre))
}

func TestBearings(t *testing.T) {
	deg := units.BearingDegree
	assert.InDelta(t, 350, (-10 * deg).Normal().In(deg), 1e-9)
	assert.InDelta(t, 10, (370 * deg).Normal().In(deg), 1e-9)
	assert.InDelta(t, 90, (270 * deg).Opposite().In(deg), 1e-9)
	assert.InDelta(t, 20, (350 * deg).Between(10*deg).In(units.Degree), 1e-9)
	assert.InDelta(t, 180, (0 * deg).Between(180*deg).In(units.Degree), 1e-9)
}

func TestMoneyIsWhole(t *testing.T) {
	assert.Equal(t, units.Money(12_346), units.Dollars(12.3456))
	assert.Equal(t, units.Money(1e15), units.Dollars(1e300))
	assert.Equal(t, "12.35 USD", units.Dollars(12.3456).String())
	assert.InDelta(t, 12.346, units.Dollars(12.3456).In(units.Dollar), 1e-12)
}

func TestEveryQuantityPrintsItsUnitAndNamesItsDimension(t *testing.T) {
	for _, tc := range []struct {
		quantity  units.Quantity
		text      string
		dimension units.Dimension
	}{
		{2 * units.Kilogram, "2 kg", units.DimensionMass},
		{2 * units.Newton, "2 N", units.DimensionForce},
		{2 * units.KilogramPerCubicMeter, "2 kg/m3", units.DimensionDensity},
		{2 * units.Meter, "2 m", units.DimensionLength},
		{2 * units.SquareMeter, "2 m2", units.DimensionArea},
		{2 * units.CubicMeter, "2 m3", units.DimensionVolume},
		{2 * units.Radian, "2 rad", units.DimensionAngle},
		{units.Bearing(2), "2 rad", units.DimensionAngle},
		{2 * units.MeterPerSecond, "2 m/s", units.DimensionSpeed},
		{2 * units.Second, "2 s", units.DimensionTime},
		{2 * units.RadianPerSecond, "2 rad/s", units.DimensionRotation},
		{2 * units.SquareMeterPerSecond, "2 m2/s", units.DimensionAreaRate},
		{2 * units.CubicMeterPerSecond, "2 m3/s", units.DimensionFlow},
		{2 * units.CubicMeterPerSquareMeter, "2 m3/m2", units.DimensionApplicationRate},
		{2 * units.Pascal, "2 Pa", units.DimensionPressure},
		{2 * units.PascalAbsolute, "2 Pa", units.DimensionPressure},
		{2 * units.NewtonPerMeter, "2 N/m", units.DimensionSurfaceTension},
		{2 * units.Joule, "2 J", units.DimensionEnergy},
		{2 * units.Watt, "2 W", units.DimensionPower},
		{units.Proportion(0.5), "0.5 of the whole", units.DimensionProportion},
		{units.FromCelsius(2), "2 degC", units.DimensionTemperature},
		{2 * units.KelvinDifference, "2 K", units.DimensionTemperatureDifference},
		{2 * units.Dollar, "2.00 USD", units.DimensionMoney},
		{2 * units.DollarPerAcre, "2 USD/ac", units.DimensionAreaCost},
		{units.Count(2), "2", units.DimensionCount},
	} {
		assert.Equal(t, tc.text, tc.quantity.String())
		assert.Equal(t, tc.dimension, tc.quantity.Dimension())
		assert.True(t, units.Finite(units.Mass(tc.quantity.SI())))
	}
	assert.InDelta(t, 275.15, units.FromCelsius(2).SI(), 1e-9)
	assert.InDelta(t, 5, (5 * units.RevolutionPerMinute).In(units.RevolutionPerMinute), 1e-12)
	assert.InDelta(t, 5, (5 * units.AcrePerHour).In(units.AcrePerHour), 1e-12)
	assert.InDelta(t, 5, (5 * units.BarAbsolute).In(units.BarAbsolute), 1e-12)
	assert.InDelta(t, 5, (5 * units.MillinewtonPerMeter).In(units.MillinewtonPerMeter), 1e-12)
	assert.InDelta(t, 5, (5 * units.Bar).In(units.Bar), 1e-12)
	assert.InDelta(t, 5, (5 * units.KilogramPerLiter).In(units.KilogramPerLiter), 1e-12)
	assert.InDelta(t, 5, (5 * units.Percent).In(units.Percent), 1e-12)
	assert.InDelta(t, 1, float64(units.Proportion(3).Clamp()), 0)
	assert.InDelta(t, 0, float64(units.Proportion(-3).Clamp()), 0)
}
