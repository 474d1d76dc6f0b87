package takeoff_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/takeoff"
	"tractcheck/feasibility/units"
)

// nearTheMakersMaximum is a machine whose maker's maximum lies just under the 55 lb line, in air of a density
// ratio.
func nearTheMakersMaximum(ratio units.Proportion) takeoff.Input {
	return takeoff.Input{
		Aircraft: takeoff.Aircraft{
			EmptyWeight: 24 * units.Pound, BatteryWeight: 10.5 * units.Pound, BatteriesOnBoard: 1,
			OtherOnboard: new(units.Mass(0)), TankCapacity: 4 * units.Gallon, MaxTakeoffWeight: 54 * units.Pound,
		},
		Load: takeoff.Load{Density: new(8.345 * units.PoundPerGallon)},
		Air:  &takeoff.Air{DensityRatio: ratio, DensityAltitude: 3000 * units.Foot},
	}
}

// A stated fill past the estimate waits for the maker's figure exactly where the estimate bounds the
// largest fill: a fill over the largest one is never only cautioned about.
func TestAFillPastThinAirIsNeededWhereThinAirBinds(t *testing.T) {
	for _, tc := range []struct {
		ratio    units.Proportion
		severity finding.Severity
	}{
		{0.95, finding.Caution},
		{0.92, finding.Caution},
		{0.9199, finding.Needed},
		{0.8, finding.Needed},
	} {
		in := nearTheMakersMaximum(tc.ratio)
		in.Load.Fill = new(2.3 * units.Gallon)
		got := takeoff.Weigh(in)
		f := findingOf(t, got, takeoff.CodeOverDensityAltitudeLimit)
		assert.Equal(t, tc.severity, f.Severity, "ratio %v", tc.ratio)
		assert.Equal(t, tc.severity == finding.Needed, units.StrictlyBelow(got.LargestFill.Volume, got.Fill),
			"ratio %v: needed exactly where the fill passes the largest", tc.ratio)
	}
}

// Where the maker's maximum and thin air both lie under the 55 lb line, the estimate binds only in
// air thinner than that of a hot day at sea level.
func TestThinAirBindsTheFillOnlyBeyondAHotDay(t *testing.T) {
	for _, tc := range []struct {
		ratio units.Proportion
		bound takeoff.LimitCode
	}{
		{1, takeoff.MakerMaximum},
		{0.95, takeoff.MakerMaximum},
		{0.92, takeoff.MakerMaximum},
		{0.91, takeoff.DensityAltitude},
		{0.8, takeoff.DensityAltitude},
	} {
		got := takeoff.Weigh(nearTheMakersMaximum(tc.ratio))
		assert.Equal(t, tc.bound, got.LargestFill.BoundBy, "ratio %v", tc.ratio)
		assert.Equal(t, got.LargestFill.Volume, got.Fill)
	}
}
