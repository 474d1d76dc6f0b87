package air

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tractcheck/feasibility/units"
)

const hectopascal = 100 * units.PascalAbsolute

func TestSaturationPressure(t *testing.T) {
	t.Parallel()
	for _, r := range published(t, "saturation-pressure.csv") {
		got := saturationPressure(units.FromCelsius(r.number(t, "temperature_c"))).In(hectopascal)
		assert.InDelta(t, r.number(t, "buck"), got, 0.0005, "%s C, Buck 1996, hPa", r["temperature_c"])
		reference := r.number(t, "hyland_wexler")
		assert.InDelta(t, reference, got, 0.0005+0.001*reference, "%s C, Hyland and Wexler, hPa (stated error 0.1 %%)", r["temperature_c"])
	}
}

func wetBulbAt(pressure units.AbsolutePressure, t units.Temperature, humidity units.Proportion) units.Temperature {
	return wetBulb(pressure, t, vaporPressure(t, humidity))
}

func TestWetBulb(t *testing.T) {
	t.Parallel()
	for _, r := range published(t, "wet-bulb.csv") {
		t.Run(r["temperature_c"]+" C "+r["humidity"]+" percent", func(t *testing.T) {
			temperature := units.FromCelsius(r.number(t, "temperature_c"))
			got := wetBulbAt(1013.25*hectopascal, temperature, units.Proportion(r.number(t, "humidity"))*units.Percent)
			assert.InDelta(t, r.number(t, "psychrometer"), got.Celsius(), 0.005, "same equation, C")
			assert.InDelta(t, r.number(t, "depression"), temperature.Minus(got).SI(), 0.005+0.005, "difference of two rounded figures, C")
			assert.InDelta(t, r.number(t, "thermodynamic"), got.Celsius(), 0.005+0.2, "stated departure from the thermodynamic wet bulb, C")
			assert.InDelta(t, r.number(t, "stull"), got.Celsius(), 1, "Stull's stated error, C")
		})
	}
}

func TestPsychrometricTable(t *testing.T) {
	t.Parallel()
	for _, r := range published(t, "psychrometric-table.csv") {
		dry := r.number(t, "dry_bulb_f")
		got := wetBulbAt(30*inchOfMercury, units.FromFahrenheit(dry), units.Proportion(r.number(t, "humidity"))*units.Percent)
		// The table gives humidity to the nearest percent; it was made for a factor A that moves it
		// by up to another half. A percent is worth this much of the wet bulb:
		perPercent := wetBulbAt(30*inchOfMercury, units.FromFahrenheit(dry), units.Proportion(r.number(t, "humidity")+1)*units.Percent).Minus(got)
		assert.InDelta(t, r.number(t, "depression_f"), dry-got.Fahrenheit(), perPercent.In(units.FahrenheitDifference),
			"depression at %s F and %s percent, F", r["dry_bulb_f"], r["humidity"])
	}
}

func TestWetBulbLaws(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(r *rapid.T) {
		o := someObservation(r)
		s := Observe(o)
		require.GreaterOrEqual(r, s.Depression, units.TemperatureDifference(0))
		require.Equal(r, s.Temperature.Minus(s.WetBulb), s.Depression)
		// The wet bulb solves its own equation.
		e := saturationPressure(s.WetBulb).SI() - psychrometerFactor(s.WetBulb)*s.Pressure.SI()*s.Depression.SI()
		require.InDelta(r, vaporPressure(o.Temperature, o.RelativeHumidity).SI(), e, 1e-6)

		moister := o
		moister.RelativeHumidity = min(1, o.RelativeHumidity+units.Proportion(rapid.Float64Range(0, 1).Draw(r, "moister by")))
		require.LessOrEqual(r, Observe(moister).Depression, s.Depression+1e-12, "moister never widens the depression")

		saturated := o
		saturated.RelativeHumidity = 1
		require.InDelta(r, 0, Observe(saturated).Depression.SI(), 1e-9, "saturated air has none")
	})
}
