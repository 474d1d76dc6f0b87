package daylight

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tractcheck/feasibility/units"
)

var (
	prairie = Place{Latitude: 41.6 * units.Degree, Longitude: -93.6 * units.Degree}
	gulf    = Place{Latitude: 25 * units.Degree, Longitude: -81 * units.Degree}
	north   = Place{Latitude: 64.8 * units.Degree, Longitude: -147.7 * units.Degree}
)

func phaseAt(moment time.Time, place Place) Phase { return At(moment, place).Phase }

func TestPhaseAtTheEdges(t *testing.T) {
	t.Parallel()
	noon := time.Date(2026, 7, 1, 18, 0, 0, 0, time.UTC)
	day := At(noon, prairie)
	require.NotNil(t, day.Sunrise)
	require.NotNil(t, day.Sunset)
	// In early July at 41.6 N civil twilight lasts about 33 minutes, so the 30 minutes end first.
	require.Greater(t, day.CivilDusk.Sub(*day.Sunset), ruleTwilight)
	cases := []struct {
		name   string
		moment time.Time
		want   Phase
	}{
		{"noon", noon, Day},
		{"the second of sunrise", *day.Sunrise, Day},
		{"a second before sunrise", day.Sunrise.Add(-time.Second), Twilight},
		{"30 minutes before sunrise", day.Sunrise.Add(-ruleTwilight), Twilight},
		{"a second earlier", day.Sunrise.Add(-ruleTwilight - time.Second), Night},
		{"a second before sunset", day.Sunset.Add(-time.Second), Day},
		{"the second of sunset", *day.Sunset, Twilight},
		{"just short of 30 minutes after", day.Sunset.Add(ruleTwilight - time.Second), Twilight},
		{"30 minutes after sunset", day.Sunset.Add(ruleTwilight), Night},
		{"solar midnight", noon.Add(12 * time.Hour), Night},
	}
	for _, tc := range cases {
		t.Run(tc.name, func(t *testing.T) { assert.Equal(t, tc.want, phaseAt(tc.moment, prairie)) })
	}
}

func TestNightAsSoonAsEitherDefinitionSaysSo(t *testing.T) {
	t.Parallel()
	// Near the tropics civil twilight is shorter than 30 minutes: 14 CFR 1.1 says night first.
	day := At(time.Date(2026, 3, 20, 17, 0, 0, 0, time.UTC), gulf)
	require.Less(t, day.CivilDusk.Sub(*day.Sunset), ruleTwilight)
	assert.Equal(t, Twilight, phaseAt(day.CivilDusk.Add(-time.Second), gulf))
	assert.Equal(t, Night, phaseAt(*day.CivilDusk, gulf), "6 degrees down, though within 30 minutes")
	assert.Equal(t, Night, phaseAt(day.CivilDawn.Add(-time.Second), gulf))
	assert.Equal(t, Twilight, phaseAt(*day.CivilDawn, gulf))
}

func TestAlaskaTakesTheWholeOfCivilTwilight(t *testing.T) {
	t.Parallel()
	day := At(time.Date(2026, 5, 1, 22, 0, 0, 0, time.UTC), north)
	require.NotNil(t, day.Sunset)
	late := day.Sunset.Add(45 * time.Minute)
	light := At(late, north)
	assert.Equal(t, Night, light.Phase, "outside Alaska 45 minutes after sunset is night")
	assert.Equal(t, Twilight, light.AlaskaPhase())
	assert.Equal(t, Day, day.AlaskaPhase())
	winter := At(time.Date(2026, 12, 21, 10, 0, 0, 0, time.UTC), north)
	assert.Equal(t, Night, winter.AlaskaPhase())
}

func TestPolarDays(t *testing.T) {
	t.Parallel()
	place := Place{Latitude: 70 * units.Degree}
	winterNoon := At(time.Date(2025, 12, 21, 12, 0, 0, 0, time.UTC), place)
	assert.Equal(t, Night, winterNoon.Phase, "no sunrise, so no 30 minutes before one")
	assert.Equal(t, Twilight, winterNoon.AlaskaPhase())
	assert.True(t, winterNoon.NightForStability(time.Date(2025, 12, 21, 12, 0, 0, 0, time.UTC)))
	summerMidnight := At(time.Date(2025, 6, 21, 0, 0, 0, 0, time.UTC), place)
	assert.Equal(t, Day, summerMidnight.Phase)
	assert.False(t, summerMidnight.InversionHours(time.Date(2025, 6, 21, 0, 0, 0, 0, time.UTC)))
}

func TestShortNightLooksBeyondSolarMidnight(t *testing.T) {
	t.Parallel()
	// Just south of the polar day the sun sets shortly before solar midnight and rises shortly
	// after: both lie within 30 minutes of it, on two solar days.
	place := Place{Latitude: 65.7 * units.Degree}
	found := false
	for day := range 40 {
		light := At(time.Date(2026, 6, 1+day, 12, 0, 0, 0, time.UTC), place)
		if light.Sunset == nil {
			continue
		}
		next := At(light.Sunset.Add(3*time.Hour), place)
		night := next.Sunrise.Sub(*light.Sunset)
		if night >= time.Hour {
			continue
		}
		found = true
		middle := light.Sunset.Add(night / 2)
		assert.Equal(t, Twilight, phaseAt(middle, place))
		assert.Equal(t, Twilight, phaseAt(next.Sunrise.Add(-time.Second), place))
	}
	assert.True(t, found, "no short night in the search")
}

func TestStabilityHours(t *testing.T) {
	t.Parallel()
	light := At(time.Date(2026, 7, 1, 18, 0, 0, 0, time.UTC), prairie)
	rise, set := *light.Sunrise, *light.Sunset
	cases := []struct {
		name             string
		moment           time.Time
		night, inversion bool
	}{
		{"noon", rise.Add(7 * time.Hour), false, false},
		{"just over two hours before sunset", set.Add(-2*time.Hour - time.Second), false, false},
		{"two hours before sunset", set.Add(-2 * time.Hour), false, true},
		{"just over one hour before sunset", set.Add(-time.Hour - time.Second), false, true},
		{"one hour before sunset", set.Add(-time.Hour), true, true},
		{"sunset", set, true, true},
		{"the middle of the night", set.Add(5 * time.Hour), true, true},
		{"sunrise", rise, true, true},
		{"just short of an hour after sunrise", rise.Add(time.Hour - time.Second), true, true},
		{"an hour after sunrise", rise.Add(time.Hour), false, false},
		{"noon three days on", rise.Add(79 * time.Hour), false, false},
		{"night three days on", set.Add(76 * time.Hour), true, true},
		{"beyond the years of the sun", rise.AddDate(900, 0, 0), true, true},
	}
	for _, tc := range cases {
		t.Run(tc.name, func(t *testing.T) {
			assert.Equal(t, tc.night, light.NightForStability(tc.moment), "night of the stability classes")
			assert.Equal(t, tc.inversion, light.InversionHours(tc.moment), "inversion hours")
		})
	}
}

// anywhere draws a moment within the years of the sun and a place on the ground.
func anywhere(r *rapid.T) (time.Time, Place) {
	moment := time.Unix(rapid.Int64Range(-5e9, 7e9).Draw(r, "unix"), 0).UTC()
	return moment, Place{
		Latitude:  units.Angle(rapid.Float64Range(-90, 90).Draw(r, "latitude")) * units.Degree,
		Longitude: units.Angle(rapid.Float64Range(-180, 180).Draw(r, "longitude")) * units.Degree,
	}
}

func TestLightIsConsistent(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(r *rapid.T) {
		moment, place := anywhere(r)
		light := At(moment, place)
		require.True(r, units.Finite(light.SunElevation))
		require.True(r, units.Finite(light.SunAzimuth))
		// Events are at the altitudes that define them: to the second they are printed to the
		// sun moves less than 15 seconds of arc.
		for _, event := range []struct {
			at       *time.Time
			altitude units.Angle
		}{{light.Sunrise, officialAltitude}, {light.Sunset, officialAltitude}, {light.CivilDawn, civilAltitude}, {light.CivilDusk, civilAltitude}} {
			if event.at != nil {
				require.InDelta(r, event.altitude.In(units.Degree), look(*event.at, place).elevation.In(units.Degree), 15.0/3600)
				require.LessOrEqual(r, moment.Sub(*event.at).Abs(), 24*time.Hour)
			}
		}
		// The phase agrees with the altitude wherever the sun is clear of the edges.
		edge := 15 * units.Degree / 3600
		switch {
		case light.SunElevation > officialAltitude+edge:
			require.Equal(r, Day, light.Phase)
		case light.SunElevation < civilAltitude-edge:
			require.Equal(r, Night, light.Phase)
		case light.SunElevation < officialAltitude-edge:
			require.NotEqual(r, Day, light.Phase)
		}
		// The stability night lies within the inversion hours, and night lies within both.
		if light.NightForStability(moment) {
			require.True(r, light.InversionHours(moment))
		}
		if light.Phase != Day {
			require.True(r, light.NightForStability(moment))
		}
		// Alaska's twilight holds the other twilight.
		if light.Phase == Twilight {
			require.Equal(r, Twilight, light.AlaskaPhase())
		}
	})
}

func TestOneDayHasOneSunrise(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(r *rapid.T) {
		noon := time.Date(2026, 1, rapid.IntRange(1, 365).Draw(r, "day"), 12, 0, 0, 0, time.UTC)
		place := Place{Latitude: units.Angle(rapid.Float64Range(-60, 60).Draw(r, "latitude")) * units.Degree}
		other := noon.Add(time.Duration(rapid.IntRange(-11*60, 11*60).Draw(r, "minutes")) * time.Minute)
		a, b := At(noon, place), At(other, place)
		require.LessOrEqual(r, a.Sunrise.Sub(*b.Sunrise).Abs(), time.Second)
		require.LessOrEqual(r, a.Sunset.Sub(*b.Sunset).Abs(), time.Second)
	})
}

func TestDaysGrowTowardTheSummerPole(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(r *rapid.T) {
		june := time.Date(2026, 6, 21, 12, 0, 0, 0, time.UTC)
		south := rapid.Float64Range(-60, 59).Draw(r, "latitude")
		farther := south + rapid.Float64Range(0.5, 5).Draw(r, "north by")
		length := func(latitude float64) time.Duration {
			light := At(june, Place{Latitude: units.Angle(latitude) * units.Degree})
			return light.Sunset.Sub(*light.Sunrise)
		}
		require.Greater(r, length(farther), length(south))
	})
}
