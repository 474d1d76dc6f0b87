package feasibility_test

import (
	"fmt"

	"tractcheck/feasibility"
	"tractcheck/feasibility/units"
)

// An invented mission, answered.
func ExampleAssess() {
	answer, err := feasibility.Assess(leveeStrip())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(answer.Verdict)
	fmt.Printf("%.2f lb on takeoff\n", answer.TakeoffWeight.Total.In(units.Pound))
	fmt.Printf("%.1f psi at the nozzles\n", answer.RatePressure.Pressure.In(units.PoundPerSquareInch))
	// Output:
	// yes_if
	// 51.19 lb on takeoff
	// 30.7 psi at the nozzles
}
