package crew_test

import (
	"fmt"

	"tractcheck/feasibility/crew"
	"tractcheck/feasibility/tract"
	"tractcheck/feasibility/units"
)

// Forty invented sorties of seven minutes on one aircraft, flown with three batteries.
func ExamplePlan() {
	people, have := units.Count(2), units.Count(3)
	refill, swap, charge := 90*units.Second, 60*units.Second, 15*units.Minute
	area := 160 * units.Acre
	out := crew.Plan(crew.Input{
		Crew: crew.Crew{People: &people, Batteries: &have, RefillTime: &refill, BatterySwapTime: &swap, ChargeTime: &charge},
		Plan: tract.Plan{
			Area: area, Accounting: tract.Accounting{Tract: area, Sprayed: area}, Treated: area,
			Sorties: 40, SortiesPerBattery: 1, SprayTime: 200 * units.Minute, FlightTime: 280 * units.Minute,
			EnergyEach: 700 * units.WattHour, Feasible: true,
		},
		Aircraft: 1, BatteryEnergy: 1000 * units.WattHour,
	})
	fmt.Println("batteries needed:", out.Batteries)
	fmt.Printf("%.1f hours with three, %.0f minutes of it waiting\n", out.Elapsed.In(units.Hour), out.Waiting.In(units.Minute))
	fmt.Printf("%.1f acres per hour\n", out.WorkRate.In(units.AcrePerHour))
	// Output:
	// batteries needed: 4
	// 6.6 hours with three, 57 minutes of it waiting
	// 24.2 acres per hour
}
