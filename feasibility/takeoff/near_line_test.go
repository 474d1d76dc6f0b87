package takeoff_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/takeoff"
	"tractcheck/feasibility/units"
)

// Under the line by less than a scale's step is said, at or over it is another finding's business.
func TestALoadWithinTheScalesErrorOfTheLineIsSaid(t *testing.T) {
	for _, tc := range []struct {
		total units.Mass
		near  bool
	}{
		{54.4 * units.Pound, false},
		{54.5 * units.Pound, false},
		{54.51 * units.Pound, true},
		{54.99 * units.Pound, true},
		{55 * units.Pound, false},
		{55.1 * units.Pound, false},
	} {
		density := 8 * units.PoundPerGallon
		fill := density.Volume(tc.total - 34.5*units.Pound)
		got := takeoff.Weigh(takeoff.Input{
			Aircraft: takeoff.Aircraft{
				EmptyWeight: 24 * units.Pound, BatteryWeight: 10.5 * units.Pound, BatteriesOnBoard: 1,
				OtherOnboard: new(units.Mass(0)), TankCapacity: 4 * units.Gallon, MaxTakeoffWeight: 80 * units.Pound,
			},
			Load: takeoff.Load{Fill: &fill, Density: &density},
		})
		var said []finding.Code
		for _, f := range got.Findings {
			said = append(said, f.Code)
		}
		if tc.near {
			assert.Contains(t, said, takeoff.CodeNearSmallLimit, "%.2f lb", tc.total.In(units.Pound))
		} else {
			assert.NotContains(t, said, takeoff.CodeNearSmallLimit, "%.2f lb", tc.total.In(units.Pound))
		}
	}
}
