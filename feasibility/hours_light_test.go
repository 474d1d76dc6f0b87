package feasibility_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility"
	"tractcheck/feasibility/air"
	"tractcheck/feasibility/daylight"
	"tractcheck/feasibility/units"
)

// The same moments in another time zone give the same hours, told in that zone.
func TestTimeZonesDoNotMoveTheSun(t *testing.T) {
	here := steady(june(5, 0), june(8, 0), june(9, 0), june(20, 0))
	there := steady(june(5, 0).UTC(), june(8, 0).In(time.FixedZone("", 9*3600)), june(9, 0).UTC(), june(20, 0).UTC())
	a, b := assessHours(t, leveeStrip(), here), assessHours(t, leveeStrip(), there)
	for i := range a.Hours {
		assert.Equal(t, a.Hours[i].Go, b.Hours[i].Go)
		assert.Equal(t, a.Hours[i].Phase, b.Hours[i].Phase)
		assert.Equal(t, a.Hours[i].BoundBy, b.Hours[i].BoundBy)
	}
	require.Len(t, b.Windows, 1)
	assert.Equal(t, "2026-06-12T22:00:00+09:00", b.Windows[0].From.Format(time.RFC3339))
	assert.Nil(t, a.Best, "two hours are too short for the job")
	assert.Contains(t, a.Headline, "too short")
}

// With a clear sky and a light wind the hours of inversions begin two hours before sunset, at 20:08 on
// the levee: the window closes then, not at the full hour.
func TestAWindowClosesWithTheLight(t *testing.T) {
	f := steady(june(15, 0), june(16, 0), june(17, 0), june(18, 0), june(19, 0))
	for i := range f {
		f[i].WindSpeed, f[i].Gust, f[i].CloudCover = 4*units.MilePerHour, nil, new(units.Proportion(0.1))
	}
	sunset := *daylight.At(june(17, 0), daylight.Place{Latitude: *f[0].Latitude, Longitude: *f[0].Longitude}).Sunset
	a := agrees(t, leveeStrip(), f)
	require.Len(t, a.Windows, 1)
	closes := a.Windows[0].To
	assert.True(t, closes.Equal(sunset.Add(-time.Hour)) || closes.Equal(sunset.Add(-2*time.Hour)), "closes at %s, the sun sets at %s", closes, sunset)
	m := leveeStrip()
	m.Weather = &f[0].Weather
	m.Weather.At = new(closes.Add(time.Second))
	assert.Equal(t, air.InversionPresumed, assessHours(t, m, []feasibility.Forecast{{Weather: *m.Weather}}).Hours[0].Inversion)
	m.Weather.At = new(closes.Add(-time.Minute))
	assert.True(t, assessHours(t, m, []feasibility.Forecast{{Weather: *m.Weather}}).Hours[0].Go)
}

// Dawn and dusk: an inversion is presumed under a clear sky, and the light is told apart.
func TestDawnAndDusk(t *testing.T) {
	f := steady(june(3, 0), june(5, 35), june(6, 10), june(9, 0), june(20, 20), june(22, 0))
	for i := range f {
		f[i].WindSpeed, f[i].Gust, f[i].CloudCover = 4*units.MilePerHour, nil, new(units.Proportion(0.1))
	}
	a := agrees(t, leveeStrip(), f)
	var phases []daylight.Phase
	for i, h := range a.Hours {
		phases = append(phases, h.Phase)
		assert.Equal(t, i == 3, h.Go, "%s", h.At)
		if !h.Go {
			assert.Contains(t, h.BoundBy, air.CodeInversionPresumed)
		}
	}
	assert.Equal(t, []daylight.Phase{daylight.Night, daylight.Twilight, daylight.Day, daylight.Day, daylight.Twilight, daylight.Night}, phases)
}

// North of the circle the June sun does not set, and the December sun does not rise.
func TestPolarDayAndNight(t *testing.T) {
	for month, want := range map[time.Month]daylight.Phase{time.June: daylight.Day, time.December: daylight.Night} {
		var f []feasibility.Forecast
		for hour := range 24 {
			f = append(f, steady(time.Date(2026, month, 20, hour, 0, 0, 0, time.UTC))...)
			f[hour].Latitude, f[hour].Longitude = new(80*units.Degree), new(20*units.Degree)
		}
		a := agrees(t, leveeStrip(), f)
		for _, h := range a.Hours {
			assert.Equal(t, want, h.Phase)
			assert.Equal(t, want == daylight.Day, h.Go, "%s: %v", h.At, h.BoundBy)
		}
		if want == daylight.Day {
			require.Len(t, a.Windows, 1)
			assert.InDelta(t, 24, a.Windows[0].Length.In(units.Hour), 1e-9)
		}
	}
}

// Whoever has the light and not the training flies until the night begins, and it begins with the end of
// civil twilight where that is sooner than 30 minutes after sunset.
func TestAWindowClosesWithCivilTwilight(t *testing.T) {
	m := leveeStrip()
	m.Operation.Lights3SM, m.Operation.NightTrained = new(true), new(false)
	f := steady(june(20, 15))
	f[0].CloudCover = new(units.Whole)
	light := daylight.At(june(20, 15), daylight.Place{Latitude: *f[0].Latitude, Longitude: *f[0].Longitude})
	require.True(t, light.CivilDusk.Before(light.Sunset.Add(30*time.Minute)))
	a := agrees(t, m, f)
	require.Len(t, a.Windows, 1)
	assert.True(t, a.Windows[0].To.Equal(*light.CivilDusk), "%s", a.Windows[0].To)
	f[0].At = light.CivilDusk
	assert.False(t, agrees(t, m, f).Hours[0].Go)
}
