package feasibility_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility"
)

// raceDetector is true where the race detector runs, which asks for memory itself.
var raceDetector = false

// mostAllocations is how often an answer to the standing mission may ask for memory: what was reached,
// and a little.
const mostAllocations = 262

// Time on a busy machine says little; how often memory is asked for says the same everywhere.
func TestAnAnswerAsksForLittleMemory(t *testing.T) {
	if raceDetector {
		t.Skip("the race detector allocates")
	}
	m := leveeStrip()
	count := testing.AllocsPerRun(20, func() {
		_, err := feasibility.Assess(m)
		require.NoError(t, err)
	})
	t.Logf("%.0f allocations", count)
	assert.LessOrEqual(t, count, float64(mostAllocations))
}

// mostForHours is how often judging a fortnight of hours may ask for memory: what was reached, and a little.
const mostForHours = 30_000

func TestAFortnightOfHoursAsksForLittleMemory(t *testing.T) {
	if raceDetector {
		t.Skip("the race detector allocates")
	}
	m, f := leveeStrip(), forecasts(336)
	count := testing.AllocsPerRun(3, func() {
		_, err := feasibility.AssessHours(m, f)
		require.NoError(t, err)
	})
	t.Logf("%.0f allocations", count)
	assert.LessOrEqual(t, count, float64(mostForHours))
}
