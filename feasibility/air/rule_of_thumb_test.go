package air

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tractcheck/feasibility/units"
)

// The published examples of the rule of thumb, beside the exact form that this room uses.
func TestDensityAltitudeByRuleOfThumb(t *testing.T) {
	t.Parallel()
	for _, r := range published(t, "density-altitude-rule.csv") {
		celsius := r.number(t, "temperature_c")
		added := 120 * (celsius - (15 - 2*r.number(t, "elevation_ft")/1000))
		assert.InDelta(t, r.number(t, "added_ft"), added, 0.5, "the rule as published")
		assert.InDelta(t, r.number(t, "density_altitude_ft"), r.number(t, "pressure_altitude_ft")+added, 0.5)

		pressure := StandardPressure(units.Length(r.number(t, "pressure_altitude_ft")) * units.Foot)
		density := humidDensity(pressure, units.FromCelsius(celsius), 0)
		assert.InDelta(t, r.number(t, "density_altitude_ft"), StandardDensityAltitude(density).In(units.Foot), 100, "ft")
	}
}
