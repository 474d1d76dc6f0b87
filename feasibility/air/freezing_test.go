package air

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

func TestFreezing(t *testing.T) {
	t.Parallel()
	for _, tc := range []struct {
		name       string
		fahrenheit float64
		humidity   units.Proportion
		code       finding.Code
		want       finding.Severity
		says       string
	}{
		{"far below", -40, 0.6, CodeAirFreezing, finding.Needed, "The air is -40 °F, and water freezes at 32 °F"},
		{"well below", 25, 0.6, CodeAirFreezing, finding.Needed, "The air is 25 °F"},
		{"just below", 31.99, 0.6, CodeAirFreezing, finding.Needed, "The air is 31.99 °F, and water freezes at 32 °F"},
		{"at it", 32, 0.6, CodeAirFreezing, finding.Needed, "The air is 32 °F, and water freezes at 32 °F"},
		{"just above, humid", 32.01, 1, "", "", ""},
		// By hand: 0.05 x 6.11 hPa over a slope of 0.444 hPa/K and A p of 0.64 hPa/K is 0.28 K, 0.51 F.
		{"just above, less humid", 32.01, 0.95, CodeWetBulbFreezing, finding.Caution, "The air is 32.01 °F, but what is wet in it cools to 31.5 °F"},
		{"above, dry", 38, 0.3, CodeWetBulbFreezing, finding.Caution, "water freezes at 32 °F"},
		{"above, humid", 38, 0.9, "", "", ""},
		{"hot and very dry", 75, 0.05, "", "", ""},
	} {
		t.Run(tc.name, func(t *testing.T) {
			o := fairDay()
			o.Temperature, o.RelativeHumidity = units.FromFahrenheit(tc.fahrenheit), tc.humidity
			s := Observe(o)
			for _, code := range []finding.Code{CodeAirFreezing, CodeWetBulbFreezing} {
				f := found(s, code)
				require.Equal(t, code == tc.code, f != nil, "%s, wet bulb %v", code, s.WetBulb)
				if f == nil {
					continue
				}
				assert.Equal(t, tc.want, f.Severity)
				assert.Equal(t, finding.CommonPractice, f.Source.Standing)
				assert.Contains(t, f.Message, tc.says)
				assert.Contains(t, f.Message, "Cold batteries give less")
				assert.LessOrEqual(t, f.Measured.SI(), f.Limit.SI()+1e-6)
			}
		})
	}
}

// Colder air, or as warm and drier, is never said to be farther from freezing.
func TestColderIsNeverSafer(t *testing.T) {
	t.Parallel()
	rank := func(o Observation) int {
		s := Observe(o)
		switch {
		case found(s, CodeAirFreezing) != nil:
			return 2
		case found(s, CodeWetBulbFreezing) != nil:
			return 1
		}
		return 0
	}
	rapid.Check(t, func(r *rapid.T) {
		o := fairDay()
		o.Temperature = units.FromCelsius(rapid.Float64Range(-10, 15).Draw(r, "temperature"))
		o.RelativeHumidity = units.Proportion(rapid.Float64Range(0, 1).Draw(r, "humidity"))
		before := rank(o)
		o.Temperature -= units.Temperature(rapid.Float64Range(0, 5).Draw(r, "colder"))
		require.GreaterOrEqual(r, rank(o), before)
		o.RelativeHumidity *= units.Proportion(rapid.Float64Range(0, 1).Draw(r, "drier"))
		require.GreaterOrEqual(r, rank(o), before)
	})
}

// What cannot be right must not read like what was taken for it.
func TestHeldFiguresReadApart(t *testing.T) {
	t.Parallel()
	o := fairDay()
	o.Temperature, o.CloudCover = units.FromFahrenheit(140.01), new(units.Proportion(1.00001))
	o.Gust, o.WindSpeed = new(7.999*units.MilePerHour), 8*units.MilePerHour
	s := Observe(o)
	var said string
	for _, f := range s.Findings {
		said += f.Message + "\n"
	}
	assert.Contains(t, said, "air temperature of 140.01 °F")
	assert.Contains(t, said, "figured with 140 °F")
	assert.Contains(t, said, "cloud cover of 100.001%")
	assert.Contains(t, said, "gust of 7.999 mph is less than the mean wind of 8 mph")
}
