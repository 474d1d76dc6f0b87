package units_test

import (
	"fmt"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"

	"tractcheck/feasibility/units"
)

func TestStrictLimitTreatsEqualWithinToleranceAsAtTheLimit(t *testing.T) {
	limit := 55 * units.Pound
	for name, tc := range map[string]struct {
		weight units.Mass
		below  bool
	}{
		"clearly below":            {54.9 * units.Pound, true},
		"one part in 1e8 below":    {limit * (1 - 1e-8), true},
		"within tolerance below":   {limit * (1 - 1e-10), false},
		"exactly at":               {limit, false},
		"within tolerance above":   {limit * (1 + 1e-10), false},
		"clearly above":            {55.1 * units.Pound, false},
		"24.94 kg is 54.983 pound": {24.94 * units.Kilogram, true},
		"24.95 kg is 55.005 pound": {24.95 * units.Kilogram, false},
	} {
		t.Run(name, func(t *testing.T) {
			assert.Equal(t, tc.below, units.StrictlyBelow(tc.weight, limit))
		})
	}
}

// Five weights in tenths of a pound that add up to 55.0 lb, summed in kilograms, fall a few units
// in the last place to either side of the constant limit. None may pass a strict limit.
func TestTenthsOfAPoundThatAddUpToTheLimitNeverPassIt(t *testing.T) {
	source := rand.New(rand.NewSource(1))
	limit := 55 * units.Pound
	naive := 0
	for range 200_000 {
		left, total := 550, units.Mass(0)
		for range 4 {
			part := source.Intn(left - 4)
			left -= part
			total += units.Mass(float64(part)/10) * units.Pound
		}
		total += units.Mass(float64(left)/10) * units.Pound
		if total < limit {
			naive++
		}
		if units.StrictlyBelow(total, limit) {
			t.Fatalf("total %.17g kg passed the strict limit %.17g kg", total.SI(), limit.SI())
		}
		if !units.AtMost(total, limit) || !units.AtLeast(total, limit) {
			t.Fatalf("total %.17g kg is not at the limit", total.SI())
		}
	}
	assert.Positive(t, naive, "the plain < should fail at times, else this test proves nothing")
}

func TestCeilForgivesOnePartInABillion(t *testing.T) {
	for _, tc := range []struct {
		x    float64
		want int
	}{{3, 3}, {3 + 1e-10, 3}, {3 + 1e-6, 4}, {2.2, 3}, {0, 0}, {1e-12, 0}, {0.4, 1}} {
		assert.Equal(t, tc.want, units.Ceil(tc.x), "ceil of %v", tc.x)
	}
}

func ExampleStrictlyBelow() {
	weight := 24*units.Pound + 10.5*units.Pound + (8.2 * units.PoundPerGallon).Mass(2.5*units.Gallon)
	fmt.Printf("%.1f lb, under 55 lb: %v\n", weight.In(units.Pound), units.StrictlyBelow(weight, 55*units.Pound))
	// Output: 55.0 lb, under 55 lb: false
}
