package permits

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tractcheck/feasibility/units"
)

// raceDetector is true where the race detector runs, which asks for memory itself.
var raceDetector = false

// A check asks for memory about once a finding; before the table was built once it did so for every
// text.
func TestACheckAsksForLittleMemory(t *testing.T) {
	if raceDetector {
		t.Skip("the race detector allocates")
	}
	f := fullJob(false)
	f.Holds = []string{"remote-pilot-certificate", "recurrent-training", "registration-small", "remote-id"}
	var c Checklist
	assert.LessOrEqual(t, testing.AllocsPerRun(20, func() { c = Check(f) }), 100.0)
	assert.LessOrEqual(t, testing.AllocsPerRun(20, func() { across(c, f, 60*units.Pound) }), 40.0)
}

// A row that is unknown only because the side of the line is may be one to have first, so it is listed.
func TestCheck_openSideListsWhatToHaveFirst(t *testing.T) {
	t.Parallel()
	f := fullJob(false)
	f.Holds = nil
	f.OtherSide, f.Unweighed = new(70*units.Pound), []string{"/load/fill"}
	c := Check(f)
	assert.Equal(t, Unknown, itemOf(t, c, "registration-large").Status)
	assert.Equal(t, []string{"registration-small", "registration-large"}, itemOf(t, c, "remote-id").DependsOn)
}
