package air_test

import (
	"fmt"
	"testing"

	"tractcheck/feasibility/air"
	"tractcheck/feasibility/units"
)

// A clear summer evening, half an hour before sunset, on a field at 1,200 ft.
func ExampleObserve() {
	state := air.Observe(evening())
	fmt.Printf("density altitude %.0f ft\n", state.DensityAltitude.In(units.Foot))
	fmt.Printf("wet-bulb depression %.1f C\n", state.Depression.SI())
	fmt.Printf("class %s, inversion %s\n", state.Stability, state.Inversion)
	fmt.Printf("wind at 20 ft %.1f mph\n", state.WindAt(20*units.Foot).In(units.MilePerHour))
	// Output:
	// density altitude 3195 ft
	// wet-bulb depression 7.3 C
	// class F, inversion presumed
	// wind at 20 ft 5.7 mph
}

func evening() air.Observation {
	return air.Observation{
		Temperature:      units.FromFahrenheit(82),
		RelativeHumidity: 52 * units.Percent,
		Elevation:        new(1200 * units.Foot),
		WindSpeed:        4 * units.MilePerHour,
		WindHeight:       new(10 * units.Foot),
		Gust:             new(5 * units.MilePerHour),
		CropHeight:       new(2 * units.Foot),
		CloudCover:       new(10 * units.Percent),
		Sun:              &air.Sun{Elevation: 5 * units.Degree, NightForStability: true, InversionHours: true},
	}
}

func BenchmarkObserve(b *testing.B) {
	b.ReportAllocs()
	observation := evening()
	for b.Loop() {
		air.Observe(observation)
	}
}

func BenchmarkWindAt(b *testing.B) {
	b.ReportAllocs()
	state := air.Observe(evening())
	for b.Loop() {
		state.WindAt(3 * units.Meter)
	}
}
