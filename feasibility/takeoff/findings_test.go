package takeoff_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/takeoff"
	"tractcheck/feasibility/units"
)

// heavy is a mission of 56.5 lb: 34.5 lb dry and 2.75 gal of 8 lb/gal.
func heavy() takeoff.Input {
	in := sprayer(24, 10.5)
	in.Load.Density = new(8 * units.PoundPerGallon)
	in.Load.Fill = new(2.75 * units.Gallon)
	return in
}

func TestOverTheSmallLine(t *testing.T) {
	t.Parallel()
	t.Run("a smaller fill stays under", func(t *testing.T) {
		f := findingOf(t, takeoff.Weigh(heavy()), takeoff.CodeOverSmallLimit)
		assert.Equal(t, finding.Needed, f.Severity)
		assert.Equal(t, "/load/fill", f.Subject)
		assert.Contains(t, f.Message, "no more than 2.56 gal", "20.5/8 = 2.5625, cut")
		assert.InDelta(t, -1.5, f.Margin.SI()/units.Pound.SI(), 1e-9)
	})
	t.Run("no fill stays under", func(t *testing.T) {
		in := heavy()
		in.Aircraft.EmptyWeight = 50 * units.Pound
		f := findingOf(t, takeoff.Weigh(in), takeoff.CodeOverSmallLimit)
		assert.Contains(t, f.Message, "No fill stays under it")
		assert.Equal(t, "/aircraft/empty_weight", f.Subject)
	})
	t.Run("with the authority for large aircraft", func(t *testing.T) {
		in := heavy()
		in.LargeAllowed = true
		got := takeoff.Weigh(in)
		assert.Equal(t, finding.Note, findingOf(t, got, takeoff.CodeOverSmallLimit).Severity)
		assert.False(t, got.Small, "the line is still reported")
	})
}

func TestUnstatedPartsNearTheLine(t *testing.T) {
	t.Parallel()
	in := heavy()
	in.Load.Fill = new(2.5 * units.Gallon) // 54.5 lb
	assert.NotContains(t, codes(takeoff.Weigh(in)), takeoff.CodeUnstatedPartsNearLimit, "other weight was stated")
	in.Aircraft.OtherOnboard = nil
	f := findingOf(t, takeoff.Weigh(in), takeoff.CodeUnstatedPartsNearLimit)
	assert.Equal(t, finding.Caution, f.Severity)
	assert.Contains(t, f.Message, "0.50 lb")
	in.Load.Fill = nil
	assert.Contains(t, findingOf(t, takeoff.Weigh(in), takeoff.CodeUnstatedPartsNearLimit).Message, "Next to nothing")
	in.Load.Fill = new(2.4375 * units.Gallon) // exactly 54 lb: a whole pound is left
	assert.NotContains(t, codes(takeoff.Weigh(in)), takeoff.CodeUnstatedPartsNearLimit)
	in.Load.Fill = new(3 * units.Gallon)
	assert.NotContains(t, codes(takeoff.Weigh(in)), takeoff.CodeUnstatedPartsNearLimit, "over the line the other finding speaks")
}

func TestOverTheMakersMaximum(t *testing.T) {
	t.Parallel()
	in := heavy()
	in.Aircraft.MaxTakeoffWeight = 54.5 * units.Pound
	f := findingOf(t, takeoff.Weigh(in), takeoff.CodeOverMakerMaximum)
	assert.Equal(t, finding.Stop, f.Severity)
	assert.Contains(t, f.Message, "no more than 2.50 gal")
	in.Aircraft.MaxTakeoffWeight = 30 * units.Pound
	got := takeoff.Weigh(in)
	assert.Contains(t, findingOf(t, got, takeoff.CodeOverMakerMaximum).Message, "No fill fits")
	assert.Equal(t, finding.Stop, findingOf(t, got, takeoff.CodeNoFillPossible).Severity)
}

func TestThinAirIsAnEstimate(t *testing.T) {
	t.Parallel()
	in := heavy()
	in.Load.Fill = new(2 * units.Gallon) // 50.5 lb
	in.Aircraft.MaxTakeoffWeight = 55 * units.Pound
	in.Air = &takeoff.Air{DensityRatio: 0.9, DensityAltitude: 3540 * units.Foot}
	got := takeoff.Weigh(in)
	f := findingOf(t, got, takeoff.CodeOverDensityAltitudeLimit)
	assert.Equal(t, finding.Needed, f.Severity, "an estimate from memory stops nothing, and the load is over what it leaves")
	assert.Equal(t, finding.FromMemory, f.Source.Standing)
	assert.Contains(t, f.Message, "3500 ft")
	assert.Contains(t, f.Message, "Ask the maker for its limit at this height and heat, or load no more than 1.87 gal.")
	assert.Contains(t, f.Message, "49.50 lb")
	assert.InDelta(t, 49.5, limitOf(t, got, takeoff.DensityAltitude).Limit.In(units.Pound), 1e-9)

	in.Air.DensityRatio = 0.5
	assert.Equal(t, finding.Needed, findingOf(t, takeoff.Weigh(in), takeoff.CodeOverDensityAltitudeLimit).Severity, "nor where no fill is left")

	in.Air.DensityRatio = 1.05
	got = takeoff.Weigh(in)
	assert.NotContains(t, codes(got), takeoff.CodeOverDensityAltitudeLimit)
	assert.Equal(t, 55*units.Pound, limitOf(t, got, takeoff.DensityAltitude).Limit)

	in.Air.DensityRatio = 0.5 // 27.5 lb is left, less than the empty machine
	in.Load.Fill = nil
	f = findingOf(t, takeoff.Weigh(in), takeoff.CodeNoFillPossible)
	assert.Equal(t, finding.Needed, f.Severity, "the estimate alone stops nothing")
	assert.Contains(t, f.Message, "our estimate")
}

func TestNoFillUnderTheLine(t *testing.T) {
	t.Parallel()
	in := heavy()
	in.Aircraft.EmptyWeight = 44.49999 * units.Pound // 54.99999 lb dry: less is left than the hair
	in.Load.Fill = nil
	got := takeoff.Weigh(in)
	assert.True(t, got.Small)
	assert.Zero(t, got.Fill)
	f := findingOf(t, got, takeoff.CodeNoFillPossible)
	assert.Equal(t, finding.Needed, f.Severity)
	assert.Contains(t, f.Message, "55 lb line")
}

func TestOverTheTank(t *testing.T) {
	t.Parallel()
	in := heavy()
	in.Load.Fill = new(2.4 * units.Gallon)
	in.Aircraft.TankCapacity = 2.3 * units.Gallon
	f := findingOf(t, takeoff.Weigh(in), takeoff.CodeOverTankCapacity)
	assert.Equal(t, finding.Stop, f.Severity)
	assert.Contains(t, f.Message, "2.40 gal")
	assert.Contains(t, f.Message, "2.30 gal")
	in.Aircraft.TankCapacity = 0
	f = findingOf(t, takeoff.Weigh(in), takeoff.CodeNoFillPossible)
	assert.Equal(t, "/aircraft/tank_capacity", f.Subject)
	assert.Equal(t, finding.Stop, f.Severity)
}

// Densities of University of Nebraska-Lincoln CropWatch 2016, table 1.
func TestHeavyAndOddLiquids(t *testing.T) {
	t.Parallel()
	cases := []struct {
		name       string
		lbPerGal   float64
		heavy, odd bool
	}{
		{"kerosene", 6.6, false, false},
		{"water", 8.34, false, false},
		{"at the warning line", 9.0, false, false},
		{"28-0-0", 10.65, true, false},
		{"32-0-0", 11.06, true, false},
		{"10-34-0", 11.4, true, false},
		{"the heaviest listed", 12.0, true, false},
		{"28-0-0 in kg/L sent as lb/gal", 1.276, false, true},
		{"too heavy to be a spray", 16, true, true},
	}
	for _, tc := range cases {
		t.Run(tc.name, func(t *testing.T) {
			in := sprayer(24, 10.5)
			in.Load.Fill = new(0.5 * units.Gallon)
			in.Load.Density = new(units.Density(tc.lbPerGal) * units.PoundPerGallon)
			got := codes(takeoff.Weigh(in))
			assert.Equal(t, tc.heavy, contains(got, takeoff.CodeHeavyLiquid))
			assert.Equal(t, tc.odd, contains(got, takeoff.CodeDensityUnusual))
		})
	}
	in := sprayer(24, 10.5)
	in.Load.Density = new(10.65 * units.PoundPerGallon)
	in.Aircraft.TankCapacity = 10 * units.Liter
	f := findingOf(t, takeoff.Weigh(in), takeoff.CodeHeavyLiquid)
	assert.Equal(t, finding.Note, f.Severity)
	assert.Contains(t, f.Message, "28 percent more than water")
	assert.Contains(t, f.Message, "28.13 lb")
}

func contains(list []finding.Code, code finding.Code) bool {
	for _, c := range list {
		if c == code {
			return true
		}
	}
	return false
}

func TestFindingsAreWhole(t *testing.T) {
	t.Parallel()
	in := heavy()
	in.Load.Density = new(16 * units.PoundPerGallon)
	in.Load.Fill = new(500 * units.Gallon)
	in.Aircraft.MaxTakeoffWeight = 20 * units.Pound
	in.Air = &takeoff.Air{DensityRatio: 0.7, DensityAltitude: 11000 * units.Foot}
	got := takeoff.Weigh(in)
	assert.Equal(t, []finding.Code{
		takeoff.CodeOverSmallLimit, takeoff.CodeOverMakerMaximum, takeoff.CodeOverDensityAltitudeLimit,
		takeoff.CodeOverTankCapacity, takeoff.CodeNoFillPossible, takeoff.CodeHeavyLiquid, takeoff.CodeDensityUnusual,
	}, codes(got))
	for _, f := range got.Findings {
		assert.NotEmpty(t, f.Message)
		assert.NotEmpty(t, f.Subject)
		assert.True(t, f.Source.Cited(), "%s cites", f.Code)
		assert.NotNil(t, f.Measured)
		assert.Equal(t, f.Measured.Dimension(), f.Limit.Dimension())
		assert.Equal(t, f.Measured.Dimension(), f.Margin.Dimension())
	}
}
