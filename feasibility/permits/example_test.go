package permits_test

import (
	"fmt"

	"tractcheck/feasibility/daylight"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/units"
)

// An invented job: a private grower sprays own crop at exactly 55 lb.
func ExampleCheck() {
	f := permits.Facts{
		Country: "US", TakeoffWeight: 55 * units.Pound, Small: units.StrictlyBelow(55*units.Pound, 55*units.Pound),
		Pesticide: true, Purpose: permits.Private, OwnInterest: new(true), Paid: new(false), CongestedArea: new(false),
		Airspace: permits.AirspaceG, Phase: daylight.Day, LineOfSight: true, Aircraft: 1,
		Holds: []string{"remote-pilot-certificate", "recurrent-training", "exemption-large-agricultural"},
	}
	c := permits.Check(f)
	fmt.Println("regime:", c.Regime)
	for _, item := range c.Items {
		switch item.ID {
		case "weight-small-limit", "agricultural-operator-certificate", "private-operator-limits", "label-aerial":
			fmt.Printf("%s: %s (%s)\n", item.Title, item.Status, item.Citation)
		}
	}
	// Output:
	// regime: large
	// Weight line of 55 lb: held (14 CFR 1.1, 107.3; 49 USC 44807)
	// Agricultural aircraft operator certificate: needed (14 CFR 137.11(a), 137.15, 137.19, 137.21)
	// Limits of private agricultural flying: not_needed (14 CFR 137.35)
	// Label on aerial application: unknown (7 USC 136j(a)(2)(G); 14 CFR 137.39(a))
}
