package air

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// Units of the published tables that the house does not carry.
const (
	inchOfMercury      = 3386.389 * units.PascalAbsolute // NIST SP 811 (2008) B.8, conventional
	slugPerCubicFoot   = 515.378818 * units.KilogramPerCubicMeter
	standardAirDensity = units.Density(standardDensity)
)

// standardAirAt reports the density of the standard atmosphere from its own pressure and temperature.
func standardAirAt(height units.Length, temperature units.Temperature) units.Density {
	return humidDensity(StandardPressure(height), temperature, 0)
}

func TestStandardAtmosphere(t *testing.T) {
	t.Parallel()
	for _, r := range published(t, "standard-atmosphere.csv") {
		t.Run(r["height_m"], func(t *testing.T) {
			height := units.Length(r.number(t, "height_m"))
			temperature := units.Temperature(r.number(t, "temperature_k"))
			density := standardAirAt(height, temperature)
			assert.InDelta(t, r.number(t, "pressure_pa"), StandardPressure(height).SI(), 0.05, "pressure, Pa")
			// Half a printed unit, and 1e-7 for the exponent and the gas constant printed to 7 digits.
			assert.InDelta(t, r.number(t, "density"), density.SI(), 5e-7+1e-7, "density, kg/m3")
			assert.InDelta(t, r.number(t, "sigma"), density.SI()/standardDensity, 5e-6, "density ratio")
			assert.InDelta(t, height.SI(), StandardDensityAltitude(density).SI(), 0.01, "density altitude, m")
		})
	}
}

func TestStandardAtmosphereInUSUnits(t *testing.T) {
	t.Parallel()
	for _, r := range published(t, "standard-atmosphere-us.csv") {
		t.Run(r["kind"]+" "+r["height_ft"], func(t *testing.T) {
			height := units.Length(r.number(t, "height_ft")) * units.Foot
			density := standardAirAt(height, units.Temperature(standardTemperature-standardLapse*height.SI()))
			pressureUnit, pressureTolerance := inchOfMercury, 0.0005
			densityUnit, densityTolerance := units.KilogramPerCubicMeter, 0.5e-5
			if r["kind"] == "published" {
				// The printed table stands for geometric feet: geopotential height is less by up to 0.07 %
				// at 15,000 ft, so up to 0.05 % of pressure and density is the table's own.
				pressureUnit, densityUnit = units.PoundPerSquareInchAbsolute, 1e-4*slugPerCubicFoot
				pressureTolerance = 0.0005 + 0.0005*r.number(t, "pressure")
				densityTolerance = 0.005 + 0.0005*r.number(t, "density")
			}
			assert.InDelta(t, r.number(t, "pressure"), StandardPressure(height).In(pressureUnit), pressureTolerance, r["pressure_unit"])
			assert.InDelta(t, r.number(t, "density"), density.In(densityUnit), densityTolerance, r["density_unit"])
		})
	}
}

func TestHumidAirDensity(t *testing.T) {
	t.Parallel()
	for _, r := range published(t, "humid-air-density.csv") {
		t.Run(r["source"]+" "+r["temperature_c"], func(t *testing.T) {
			temperature := units.FromCelsius(r.number(t, "temperature_c"))
			vapor := saturationPressure(units.FromCelsius(r.number(t, "humidity")))
			if r["humidity_kind"] == "percent" {
				vapor = vaporPressure(temperature, units.Proportion(r.number(t, "humidity"))*units.Percent)
			}
			got := humidDensity(units.AbsolutePressure(r.number(t, "pressure_pa")), temperature, vapor)
			printed := 5e-5
			if r["source"] == "moist air table" {
				printed = 5e-4
			}
			reference := r.number(t, "reference")
			assert.InDelta(t, reference, got.SI(), printed+0.0005*reference, "reference, kg/m3 (0.05 % is the mixture's stated error)")
			if r["mixture"] != "" {
				// 1e-5 kg/m3 is the gas constant printed as 287.05; the vapor pressure differs by up to 0.1 %.
				assert.InDelta(t, r.number(t, "mixture"), got.SI(), printed+3e-5, "mixture, kg/m3")
			}
		})
	}
}

func TestDensityAltitude(t *testing.T) {
	t.Parallel()
	for _, r := range published(t, "density-altitude.csv") {
		t.Run(r["temperature_f"]+" F at "+r["pressure_inhg"], func(t *testing.T) {
			pressure := units.AbsolutePressure(r.number(t, "pressure_inhg")) * inchOfMercury
			temperature := units.FromFahrenheit(r.number(t, "temperature_f"))
			dry := StandardDensityAltitude(humidDensity(pressure, temperature, 0))
			// The published recipe has 287.05 for the gas constant: 0.3 ft.
			assert.InDelta(t, r.number(t, "exact_dry"), dry.In(units.Foot), 0.5+0.5, "dry, ft")
			assert.InDelta(t, r.number(t, "nws_dry"), dry.In(units.Foot), 20, "dry, National Weather Service form, ft")
			if r["dew_point_f"] == "" {
				return
			}
			dewPoint := units.FromFahrenheit(r.number(t, "dew_point_f"))
			state := Observe(Observation{
				Temperature:      temperature,
				RelativeHumidity: units.Proportion(saturationPressure(dewPoint).SI() / saturationPressure(temperature).SI()),
				Pressure:         &pressure,
				WindSpeed:        3,
			})
			// The vapor pressure equations differ by up to 0.3 %, which is 1.2 ft in the moistest row.
			assert.InDelta(t, r.number(t, "exact_humid"), state.DensityAltitude.In(units.Foot), 0.5+0.5+1.2, "humid, ft")
			assert.InDelta(t, r.number(t, "nws_humid"), state.DensityAltitude.In(units.Foot), 20, "humid, National Weather Service form, ft")
			assert.InDelta(t, r.number(t, "humid_density"), state.Density.SI(), 5e-5+3e-5, "density, kg/m3")
		})
	}
	for _, r := range published(t, "density-altitude-example.csv") {
		got := StandardDensityAltitude(units.Density(r.number(t, "density_slug_ft3")) * slugPerCubicFoot)
		assert.InDelta(t, r.number(t, "density_altitude_ft"), got.In(units.Foot), r.number(t, "tolerance_ft"), "ft")
	}
}

func TestStationPressure(t *testing.T) {
	t.Parallel()
	high, sea := 5000*units.Foot, units.AbsolutePressure(standardPressure)
	atHigh := StandardPressure(high)
	slightlyLow, tooLow := atHigh*0.951, atHigh*0.949
	cases := []struct {
		name      string
		pressure  *units.AbsolutePressure
		elevation *units.Length
		want      units.AbsolutePressure
		assumed   string
		code      finding.Code
	}{
		{"stated", &atHigh, nil, atHigh, "", ""},
		{"from the elevation", nil, &high, atHigh, "/weather/pressure", ""},
		{"neither", nil, nil, sea, "/field/elevation", CodeElevationUnknown},
		{"both and they fit", &atHigh, &high, atHigh, "", ""},
		{"within the swing of the weather", &slightlyLow, &high, slightlyLow, "", ""},
		{"corrected to sea level", &sea, &high, atHigh, "", CodePressureElevationMismatch},
		{"too low for the field", &tooLow, &high, tooLow, "", CodePressureElevationMismatch},
	}
	for _, tc := range cases {
		t.Run(tc.name, func(t *testing.T) {
			s := Observe(Observation{Temperature: units.FromCelsius(20), RelativeHumidity: 0.5, WindSpeed: 3, Pressure: tc.pressure, Elevation: tc.elevation})
			assert.InDelta(t, tc.want.SI(), s.Pressure.SI(), 1e-6)
			assert.Equal(t, tc.assumed != "", assumes(s, "/weather/pressure") || assumes(s, "/field/elevation"))
			if tc.assumed != "" {
				assert.True(t, assumes(s, tc.assumed), "assumes %s", tc.assumed)
			}
			for _, code := range []finding.Code{CodeElevationUnknown, CodePressureElevationMismatch} {
				assert.Equal(t, code == tc.code, found(s, code) != nil, "finding %s", code)
			}
		})
	}
}

func TestThinnerAirIsNeverDenser(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(r *rapid.T) {
		o := someObservation(r)
		o.Pressure = nil
		o.Elevation = new(units.Length(rapid.Float64Range(-100, 3000).Draw(r, "elevation")))
		s := Observe(o)

		higher := o
		higher.Elevation = new(*o.Elevation + units.Length(rapid.Float64Range(0, 2000).Draw(r, "higher by")))
		require.LessOrEqual(r, Observe(higher).Density, s.Density, "higher is never denser")
		require.GreaterOrEqual(r, Observe(higher).DensityAltitude, s.DensityAltitude)

		warmer := o
		warmer.Temperature = min(units.FromCelsius(60), o.Temperature+units.Temperature(rapid.Float64Range(0, 20).Draw(r, "warmer by")))
		require.LessOrEqual(r, Observe(warmer).Density, s.Density, "warmer is never denser")

		moister := o
		moister.RelativeHumidity = min(1, o.RelativeHumidity+units.Proportion(rapid.Float64Range(0, 1).Draw(r, "moister by")))
		require.LessOrEqual(r, Observe(moister).Density, s.Density, "moister is never denser")
	})
}

func TestDensityAltitudeOfNothing(t *testing.T) {
	t.Parallel()
	assert.InDelta(t, 44330.77, StandardDensityAltitude(0).SI(), 0.01, "the top of the formula, T0/L")
	assert.InDelta(t, 44330.77, StandardDensityAltitude(-1).SI(), 0.01)
	assert.InDelta(t, 0, StandardDensityAltitude(standardAirDensity).SI(), 1e-6)
	assert.False(t, math.IsNaN(StandardPressure(1e9).SI()))
	assert.Positive(t, StandardPressure(1e9).SI())
}
