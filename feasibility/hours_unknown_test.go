package feasibility_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility"
	"tractcheck/feasibility/air"
	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// What an hour leaves open, or its cold, forbids that hour and no other.
func TestWhatAnHourLeavesOpenForbidsIt(t *testing.T) {
	m := leveeStrip()
	require.True(t, agrees(t, m, steady(june(9, 0))).Hours[0].Go)
	for name, tc := range map[string]struct {
		code   finding.Code
		hour   int
		change func(*feasibility.Weather)
	}{
		"freezing":               {air.CodeAirFreezing, 10, func(w *feasibility.Weather) { w.Temperature = units.FromFahrenheit(31.9) }},
		"no cloud cover at dusk": {air.CodeInversionPossible, 20, func(w *feasibility.Weather) { w.CloudCover = nil }},
		"a lapse that hardly cools": {air.CodeInversionPossible, 10, func(w *feasibility.Weather) {
			w.Lapse = &air.Lapse{LowerTemperature: 295, UpperTemperature: 294.99, LowerHeight: 2.5, UpperHeight: 10}
		}},
	} {
		t.Run(name, func(t *testing.T) {
			f := steady(june(9, 0), june(tc.hour, 0))
			tc.change(&f[1].Weather)
			a := agrees(t, m, f)
			assert.True(t, a.Hours[0].Go)
			assert.False(t, a.Hours[1].Go)
			assert.Contains(t, a.Hours[1].BoundBy, tc.code)
		})
	}
}

// Neighbors that were not stated are the job's to settle, not the hour's, and are said once.
func TestNeighborsNotStatedForbidNoHour(t *testing.T) {
	m := leveeStrip()
	m.Field.Neighbors = nil
	f := steady(june(9, 0), june(10, 0))
	f[1].WindSpeed = 25 * units.MilePerHour
	f[1].Gust = nil
	a := agrees(t, m, f)
	assert.NotContains(t, a.Hours[0].BoundBy, drift.CodeNeighborsNotStated)
	said := false
	for _, g := range a.Findings {
		said = said || g.Code == drift.CodeNeighborsNotStated && g.Severity == finding.Needed
	}
	assert.True(t, said)
	for _, h := range a.Hours {
		for _, g := range h.Findings {
			assert.NotEqual(t, drift.CodeNeighborsNotStated, g.Code)
		}
	}
}
