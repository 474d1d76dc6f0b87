package permits

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/units"
)

// The caution points at the place that is near, and names it in words.
func TestExclusionZone_pointsAtTheNearestPlace(t *testing.T) {
	t.Parallel()
	f := fullJob(false)
	f.Neighbors = []Neighbor{{Kind: "road", Distance: 90 * units.Foot}, {Kind: "other", Distance: 30 * units.Foot}}
	for _, found := range Check(f).Findings {
		if found.Code == CodeOf("exclusion-zone") {
			assert.Equal(t, "/field/neighbors/1", found.Subject)
			assert.Contains(t, found.Message, "the place 30 ft away is inside the 100 ft zone")
			return
		}
	}
	require.Fail(t, "no caution for a place 30 ft away")
}

func TestWeightLine_exactlyOnIt(t *testing.T) {
	t.Parallel()
	f := fullJob(true)
	f.TakeoffWeight = 24*units.Pound + 10.5*units.Pound + units.Mass(2.5*8.2)*units.Pound
	c := Check(f)
	assert.Equal(t, "weight-small-limit", c.Items[0].ID)
	assert.Equal(t, NeededNow, c.Items[0].Status)
	assert.Contains(t, c.Items[0].Because, "55 lb on takeoff, exactly on the line")
}

func TestFinding_expiredIsNotCalledMissing(t *testing.T) {
	t.Parallel()
	f := fullJob(false)
	f.Holds = []string{"exemption-small-agricultural"}
	f.Expiries = []Expiry{{ID: "exemption-small-agricultural", Date: f.At.AddDate(0, -1, 0)}}
	for _, found := range Check(f).Findings {
		if found.Code == CodeOf("exemption-small-agricultural") {
			assert.Contains(t, found.Message, "needed, because what you hold has expired")
			assert.NotContains(t, found.Message, "not in your holds")
			return
		}
	}
	require.Fail(t, "an expired exemption is not reported")
}
