package permits

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"tractcheck/feasibility/units"
)

// Across evaluates only the rows that the weight can change; the whole table must say the same.
func TestAcross_isTheDifferenceOfTwoChecklists(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		here := anyFacts(t)
		there := here
		there.Small, there.TakeoffWeight = !here.Small, 80*units.Pound
		if there.Small {
			there.TakeoffWeight = 54 * units.Pound
		}
		before := Check(here)
		want := Differences(before, Check(there))
		got := across(before, here, there.TakeoffWeight)
		assert.Len(t, got, len(want))
		for i := range want {
			assert.Equal(t, want[i], got[i])
		}
	})
}
