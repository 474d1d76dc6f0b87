package tract_test

import (
	"fmt"

	"tractcheck/feasibility/flight"
	"tractcheck/feasibility/tract"
	"tractcheck/feasibility/units"
)

// A quarter-quarter section of 40 acres, flown by an invented machine with a 30-liter tank.
func ExampleFly() {
	area, ferry := 40*units.Acre, 150*units.Meter
	hover := 468 * units.Second // measured, full
	machine := flight.Machine{
		BatteryEnergy: 1500 * units.WattHour, FullEndurance: &hover,
		EmptyMass: 36.5 * units.Kilogram, FullMass: 66.5 * units.Kilogram,
	}
	plan := tract.Fly(tract.Field{Area: &area, FerryDistance: &ferry}, tract.Job{
		Swath: 7 * units.Meter, Speed: 7 * units.MeterPerSecond, Height: 3 * units.Meter,
		Rate: 2 * units.GallonPerAcre, Fill: 30 * units.Liter, Density: units.KilogramPerLiter,
		DryMass: 36.5 * units.Kilogram, Aircraft: 1,
		Power: flight.New(machine, 1.225*units.KilogramPerCubicMeter),
	})
	fmt.Println(plan.Passes, "passes,", plan.Sorties, "sorties, bound by the", plan.BoundBy)
	fmt.Printf("%.1f minutes of spraying, then line %v from %.0f m on\n",
		plan.List[0].SprayTime.In(units.Minute), plan.List[0].ResumeLine, plan.List[0].ResumeAlong.SI())
	// Output:
	// 58 passes, 11 sorties, bound by the tank
	// 5.5 minutes of spraying, then line 6 from 279 m on
}
