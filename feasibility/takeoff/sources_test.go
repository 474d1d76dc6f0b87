package takeoff

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tractcheck/feasibility/units"
)

// Every source of the room is named by some mission, and no mission names another.
func TestEverySourceIsUsed(t *testing.T) {
	t.Parallel()
	ids := map[string]bool{}
	for _, s := range sources() {
		assert.True(t, s.Cited() && s.Standing != "", "%s cites and says how it was checked", s.ID)
		assert.False(t, ids[s.ID], "%s is listed twice", s.ID)
		ids[s.ID] = true
	}
	bare := Weigh(Input{Aircraft: Aircraft{EmptyWeight: 20 * units.Pound, TankCapacity: 3 * units.Gallon, MaxTakeoffWeight: 60 * units.Pound}})
	full := Weigh(Input{
		Aircraft: Aircraft{EmptyWeight: 20 * units.Pound, TankCapacity: 3 * units.Gallon, MaxTakeoffWeight: 60 * units.Pound},
		Load:     Load{Fill: new(9 * units.Gallon), Density: new(10.65 * units.PoundPerGallon)},
		Air:      &Air{DensityRatio: 0.9},
	})
	used := map[string]bool{}
	for _, r := range []Result{bare, full} {
		for _, s := range r.Sources {
			assert.True(t, ids[s.ID], "%s is in the room's table", s.ID)
			used[s.ID] = true
		}
	}
	assert.Equal(t, ids, used)
}

func TestWording(t *testing.T) {
	t.Parallel()
	cases := []struct{ name, got, want string }{
		{"two decimals", pounds(51.19 * units.Pound), "51.19 lb"},
		{"nothing", pounds(0), "0.00 lb"},
		{"too small for two decimals", pounds(0.0000123 * units.Pound), "1.23e-05 lb"},
		{"too large for plain digits", gallons(1.5e9 * units.Gallon), "1.5e+09 gal"},
		{"a limit is cut, not rounded", gallonsDown(2.4599 * units.Gallon), "2.45 gal"},
		{"a stated figure is not cut", gallonsDown(2.3 * units.Gallon), "2.30 gal"},
		{"a very small fill", gallonsDown(0.001239 * units.Gallon), "0.00123 gal"},
		{"height to the nearest hundred", feet(3540 * units.Foot), "3500 ft"},
		{"some left", leftOver(0.5 * units.Pound), "Only 0.50 lb is left"},
		{"a hair left", leftOver(0.00005 * units.Pound), "Next to nothing is left"},
		{"line", plainName(SmallUnmannedAircraft), "the 55 lb line of small aircraft"},
		{"tank", plainName(TankCapacity), "the tank"},
	}
	for _, tc := range cases {
		t.Run(tc.name, func(t *testing.T) {
			assert.Equal(t, tc.want, tc.got)
		})
	}
	_, known := find(nil, MakerMaximum)
	assert.False(t, known)
}
