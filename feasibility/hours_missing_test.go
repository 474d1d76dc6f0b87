package feasibility_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility"
	"tractcheck/feasibility/daylight"
	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// placeless takes the place out of some hours, and out of the mission.
func placeless(f []feasibility.Forecast, which ...int) ([]feasibility.Forecast, feasibility.Mission) {
	for _, i := range which {
		f[i].Latitude, f[i].Longitude = nil, nil
	}
	m := leveeStrip()
	m.Weather = nil
	return f, m
}

// Without a place nobody knows whether it is dark: no such hour is good, and the headline says what to send.
func TestAnHourWithoutAPlaceIsNotGood(t *testing.T) {
	f, m := placeless(steady(june(1, 0), june(10, 0), june(11, 0), june(23, 0)), 0, 1, 2, 3)
	a := agrees(t, m, f)
	for _, h := range a.Hours {
		assert.False(t, h.Go, "%s", h.At)
		assert.Equal(t, daylight.Unknown, h.Phase)
		assert.Contains(t, h.BoundBy, feasibility.CodeLightNotKnown)
		assert.Contains(t, h.BoundBy, finding.Code("permit_night_training"))
	}
	assert.Empty(t, a.Windows)
	assert.Nil(t, a.Best)
	assert.Contains(t, a.Headline, "Send the latitude and longitude")

	// What a pilot has for the dark does not make a light known.
	m.Operation.Lights3SM, m.Operation.NightTrained = new(true), new(true)
	for _, h := range agrees(t, m, f).Hours {
		assert.False(t, h.Go, "%s", h.At)
	}

	f, m = placeless(steady(june(9, 0), june(10, 0), june(11, 0)), 2)
	a = agrees(t, m, f)
	require.True(t, a.Hours[0].Go && a.Hours[1].Go)
	assert.False(t, a.Hours[2].Go)
	assert.Contains(t, a.Headline, "In 1 hour the light is not known: send the latitude and longitude.")
}

// A humidity that was taken, because none was sent, is asked for and stops nothing.
func TestAHumidityThatWasTakenStopsNothing(t *testing.T) {
	m := leveeStrip()
	f := steady(june(9, 0), june(10, 0), june(20, 0))
	for i := range f {
		f[i].HumidityMissing, f[i].RelativeHumidity = true, 0
		f[i].Temperature = units.FromFahrenheit(95)
	}
	a := assessHours(t, m, f)
	for _, h := range a.Hours {
		require.Contains(t, h.BoundBy, drift.CodeDeltaTTooHigh)
		assert.False(t, h.Go, "what is needed is not there yet")
	}
	for _, all := range [][]finding.Finding{a.Findings, a.Hours[0].Findings, a.Hours[1].Findings, a.Hours[2].Findings} {
		for _, f := range all {
			if f.Code != drift.CodeDeltaTTooHigh {
				continue
			}
			assert.Equal(t, finding.Needed, f.Severity)
			assert.Contains(t, f.Message, "The relative humidity of this hour is missing: send it.")
			assert.Contains(t, f.Message, "With 20 percent, taken instead, the air is too dry and hot")
			assert.Contains(t, f.Message, "mission's own weather does not count")
		}
	}
	assert.Contains(t, a.Headline, "The relative humidity of this hour is missing: send it.")

	// The same air, measured, is a stop.
	f[0].HumidityMissing, f[0].RelativeHumidity = false, 20*units.Percent
	a = assessHours(t, m, f[:1])
	i := slices.IndexFunc(a.Hours[0].Findings, func(f finding.Finding) bool { return f.Code == drift.CodeDeltaTTooHigh })
	require.GreaterOrEqual(t, i, 0)
	assert.Equal(t, finding.Stop, a.Hours[0].Findings[i].Severity)

	// Where other hours are good, the headline says how many wait for nothing else.
	f = steady(june(9, 0), june(10, 0), june(17, 0))
	f[2].HumidityMissing, f[2].RelativeHumidity, f[2].Temperature = true, 0, units.FromFahrenheit(95)
	a = assessHours(t, m, f)
	require.True(t, a.Hours[0].Go)
	require.Equal(t, []finding.Code{drift.CodeDeltaTTooHigh}, a.Hours[2].BoundBy)
	assert.Contains(t, a.Headline, "In 1 hour only the missing humidity stands in the way: send the relative humidity.")
}

// More than a neighbor tolerates, figured with a humidity that was taken, is asked about likewise.
func TestADepositFromATakenHumidityStopsNothing(t *testing.T) {
	m := leveeStrip()
	m.Field.Neighbors[0].Distance, m.Field.Neighbors[0].Tolerance = 30*units.Foot, new(0.05*units.Percent)
	f := steady(june(10, 0))
	f[0].Temperature = units.FromFahrenheit(55) // cool enough for its Delta T to pass
	require.Contains(t, assessHours(t, m, f).Hours[0].BoundBy, drift.CodeDepositOverTolerance)
	f[0].HumidityMissing, f[0].RelativeHumidity = true, 0
	a := assessHours(t, m, f)
	assert.False(t, a.Hours[0].Go)
	assert.Contains(t, a.Hours[0].BoundBy, drift.CodeDepositOverTolerance)
	for _, found := range slices.Concat(a.Findings, a.Hours[0].Findings) {
		if found.Code == drift.CodeDepositOverTolerance {
			assert.Equal(t, finding.Needed, found.Severity)
			assert.Contains(t, found.Message, "The relative humidity of this hour is missing: send it.")
		}
	}
}
