package takeoff_test

import (
	"fmt"
	"testing"

	"tractcheck/feasibility/takeoff"
	"tractcheck/feasibility/units"
)

// An invented small sprayer with 2 gallons of a water-like mix.
func ExampleWeigh() {
	result := takeoff.Weigh(takeoff.Input{
		Aircraft: takeoff.Aircraft{
			EmptyWeight:      24 * units.Pound,
			BatteryWeight:    10.5 * units.Pound,
			BatteriesOnBoard: 1,
			OtherOnboard:     new(units.Mass(0)),
			TankCapacity:     2.6 * units.Gallon,
			MaxTakeoffWeight: 58 * units.Pound,
		},
		Load: takeoff.Load{Fill: new(2 * units.Gallon), Density: new(8.345 * units.PoundPerGallon)},
	})
	fmt.Printf("takeoff weight %.2f lb, small: %t\n", result.Total.In(units.Pound), result.Small)
	fmt.Printf("largest fill %.3f gal, held by %s\n", result.LargestFill.Volume.In(units.Gallon), result.LargestFill.BoundBy)
	// Output:
	// takeoff weight 51.19 lb, small: true
	// largest fill 2.457 gal, held by small_unmanned_aircraft
}

func BenchmarkWeigh(b *testing.B) {
	in := sprayer(24, 10.5)
	in.Air = &takeoff.Air{DensityRatio: 0.93, DensityAltitude: 2450 * units.Foot}
	in.Load.Fill = new(2.75 * units.Gallon)
	b.ReportAllocs()
	for b.Loop() {
		takeoff.Weigh(in)
	}
}
