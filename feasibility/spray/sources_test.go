package spray

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestSourcesAreThoseUsedOnceInOrder(t *testing.T) {
	t.Parallel()
	r := Hold(fan(), twoGallons(20))
	place := map[string]int{}
	for i, s := range sources() {
		_, twice := place[s.ID]
		require.False(t, twice, "%s is listed twice", s.ID)
		require.True(t, s.Cited())
		place[s.ID] = i
	}
	last := -1
	for _, s := range r.Sources {
		at, there := place[s.ID]
		require.True(t, there, "%s is not in the list", s.ID)
		assert.Greater(t, at, last)
		last = at
	}
	for _, f := range r.Findings {
		assert.Contains(t, r.Sources, f.Source)
	}
	for _, a := range r.Assumptions {
		assert.Contains(t, r.Sources, a.Source)
		assert.NotEmpty(t, a.Settle)
	}
}

// TestEverySourceIsUsed keeps the list free of sources that stand for nothing.
func TestEverySourceIsUsed(t *testing.T) {
	t.Parallel()
	var systems []System
	for _, family := range []NozzleType{FlatFan, PreOrifice, AirInduction, HollowCone} {
		s := fan()
		s.Hydraulic.Type = family
		bare := s
		bare.Pump = nil
		systems = append(systems, s, bare)
	}
	measured := fan()
	measured.Hydraulic = new(measuredNozzle())
	measured.Hydraulic.Spectra = measured.Hydraulic.Spectra[:1]
	measured.Hydraulic.Spectra[0].Dv01 = nil
	systems = append(systems, measured, spinning())
	used := map[string]bool{}
	for _, s := range systems {
		for _, mph := range []float64{10, 20, 100} {
			job := twoGallons(mph)
			job.Density = 0
			for _, source := range Hold(s, job).Sources {
				used[source.ID] = true
			}
		}
	}
	for _, source := range sources() {
		assert.True(t, used[source.ID], "%s is never used", source.ID)
	}
}

func TestTheLedgerHasRoomForEverySource(t *testing.T) {
	assert.LessOrEqual(t, len(sourceTable), mostSources)
}
