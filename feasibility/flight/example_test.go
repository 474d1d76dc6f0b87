package flight_test

import (
	"fmt"
	"testing"

	"tractcheck/feasibility/flight"
	"tractcheck/feasibility/units"
)

// invented is a made-up sprayer with a measured hover of 10 minutes at 54 lb.
func invented() flight.Machine {
	return flight.Machine{
		Rotors:        &flight.Rotors{Count: 6, Diameter: 33 * units.Inch},
		BatteryEnergy: 450 * units.WattHour,
		EmptyMass:     30 * units.Pound,
		FullMass:      54 * units.Pound,
		FullEndurance: new(10 * units.Minute),
	}
}

func ExampleNew() {
	model := flight.New(invented(), 1.1*units.KilogramPerCubicMeter)
	fmt.Printf("hover at 54 lb: %.0f W\n", model.Hover(54*units.Pound).In(units.Watt))
	fmt.Printf("at 15 mph: %.0f W\n", model.Forward(54*units.Pound, 15*units.MilePerHour).In(units.Watt))
	fmt.Printf("endurance with reserve: %.1f min\n", model.Endurance(54*units.Pound).In(units.Minute))
	energy := model.Spraying(54*units.Pound, 34*units.Pound, 15*units.MilePerHour, 4*units.Minute)
	fmt.Printf("spraying 20 lb in 4 min: %.0f Wh of %.0f\n", energy.In(units.WattHour), model.Usable.In(units.WattHour))
	// Output:
	// hover at 54 lb: 2849 W
	// at 15 mph: 2329 W
	// endurance with reserve: 7.6 min
	// spraying 20 lb in 4 min: 119 Wh of 360
}

func BenchmarkNew(b *testing.B) {
	machine := invented()
	b.ReportAllocs()
	for b.Loop() {
		flight.New(machine, 1.1*units.KilogramPerCubicMeter)
	}
}

func BenchmarkForward(b *testing.B) {
	model := flight.New(invented(), 1.1*units.KilogramPerCubicMeter)
	b.ReportAllocs()
	for b.Loop() {
		model.Forward(54*units.Pound, 15*units.MilePerHour)
	}
}

func BenchmarkSpraying(b *testing.B) {
	model := flight.New(invented(), 1.1*units.KilogramPerCubicMeter)
	b.ReportAllocs()
	for b.Loop() {
		model.Spraying(54*units.Pound, 34*units.Pound, 15*units.MilePerHour, 4*units.Minute)
	}
}

func BenchmarkSprayTime(b *testing.B) {
	model := flight.New(invented(), 1.1*units.KilogramPerCubicMeter)
	b.ReportAllocs()
	for b.Loop() {
		model.SprayTime(54*units.Pound, 34*units.Pound, 1*units.GallonPerMinute, 8.345*units.PoundPerGallon, 15*units.MilePerHour, 100*units.WattHour)
	}
}
