package daylight_test

import (
	"fmt"
	"testing"
	"time"

	"tractcheck/feasibility/daylight"
	"tractcheck/feasibility/units"
)

// U.S. Naval Observatory, API 4.0.1, 2024-03-05 at 38.889444 N 77.035278 W: civil twilight 06:07,
// sunrise 06:34, sunset 18:06, end of civil twilight 18:32.
func ExampleAt() {
	zone := time.FixedZone("EST", -5*3600)
	light := daylight.At(time.Date(2024, 3, 5, 18, 20, 0, 0, zone), daylight.Place{
		Latitude:  38.889444 * units.Degree,
		Longitude: -77.035278 * units.Degree,
	})
	fmt.Println("sunrise", light.Sunrise.Round(time.Minute).Format("15:04"))
	fmt.Println("sunset", light.Sunset.Round(time.Minute).Format("15:04"))
	fmt.Println("civil dusk", light.CivilDusk.Round(time.Minute).Format("15:04"))
	fmt.Printf("sun %.1f degrees up: %s\n", light.SunElevation.In(units.Degree), light.Phase)
	// Output:
	// sunrise 06:34
	// sunset 18:06
	// civil dusk 18:32
	// sun -3.6 degrees up: twilight
}

func BenchmarkAt(b *testing.B) {
	b.ReportAllocs()
	moment := time.Date(2026, 7, 1, 18, 0, 0, 0, time.UTC)
	place := daylight.Place{Latitude: 41.6 * units.Degree, Longitude: -93.6 * units.Degree}
	for b.Loop() {
		daylight.At(moment, place)
	}
}
