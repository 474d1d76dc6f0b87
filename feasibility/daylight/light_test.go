package daylight

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tractcheck/feasibility/units"
)

// modelTolerance is the stated accuracy of the sun's place (Meeus 1998, ch. 25, low accuracy).
const modelTolerance = 0.01 * units.Degree

// assertEvent compares the time of an event. The tolerance is half the printed unit, half a
// second for our own rounding, and the time the sun needs at that place and event to move
// through the stated accuracy of the model.
func assertEvent(t *testing.T, name string, place Place, want, got *time.Time, printed time.Duration) {
	t.Helper()
	if want == nil || got == nil {
		assert.Equal(t, want == nil, got == nil, "%s: published %v, got %v", name, want, got)
		return
	}
	before, after := look(want.Add(-30*time.Second), place), look(want.Add(30*time.Second), place)
	perSecond := math.Abs(float64(after.elevation-before.elevation)) / 60
	tolerance := printed.Seconds()/2 + 0.5 + modelTolerance.SI()/perSecond
	assert.InDelta(t, 0, got.Sub(*want).Seconds(), tolerance, "%s: published %v, got %v (seconds apart)", name, want, got)
}

func TestIndependentEphemeris(t *testing.T) {
	t.Parallel()
	rows := published(t, "sun-events.csv")
	require.Len(t, rows, 275)
	for _, r := range rows {
		moment, place := *r.moment(t, "moment"), r.place(t)
		t.Run(r["place"]+" "+r["moment"], func(t *testing.T) {
			light := At(moment, place)
			assert.InDelta(t, r.number(t, "elevation"), light.SunElevation.In(units.Degree), 0.00005+0.01, "elevation, degrees")
			// The same error of place swings the azimuth by more the nearer the sun is to overhead.
			azimuth := units.Bearing(r.number(t, "azimuth")) * units.BearingDegree
			assert.LessOrEqual(t, light.SunAzimuth.Between(azimuth).In(units.Degree)*math.Cos(light.SunElevation.SI()), 0.00005+0.01,
				"azimuth %v, published %v, degrees on the sky", light.SunAzimuth.In(units.BearingDegree), r["azimuth"])
			assertEvent(t, "civil dawn", place, r.moment(t, "civil_dawn"), light.CivilDawn, time.Second)
			assertEvent(t, "sunrise", place, r.moment(t, "sunrise"), light.Sunrise, time.Second)
			assertEvent(t, "sunset", place, r.moment(t, "sunset"), light.Sunset, time.Second)
			assertEvent(t, "civil dusk", place, r.moment(t, "civil_dusk"), light.CivilDusk, time.Second)
		})
	}
}

func TestSolarPositionAlgorithmExample(t *testing.T) {
	t.Parallel()
	for _, r := range published(t, "nrel-solar-position.csv") {
		light := At(*r.moment(t, "moment"), r.place(t))
		assert.InDelta(t, r.number(t, "elevation"), light.SunElevation.In(units.Degree), 5e-7+0.01, "elevation, degrees")
		assert.InDelta(t, r.number(t, "azimuth"), light.SunAzimuth.In(units.BearingDegree), 5e-7+0.01/math.Cos(light.SunElevation.SI()), "azimuth, degrees")
		assertEvent(t, "sunrise", r.place(t), r.moment(t, "sunrise"), light.Sunrise, time.Second)
	}
}

func TestNavalObservatoryEvents(t *testing.T) {
	t.Parallel()
	for _, r := range published(t, "usno-sun-events.csv") {
		t.Run(r["place"], func(t *testing.T) {
			place := r.place(t)
			light := At(*r.moment(t, "noon"), place)
			assertEvent(t, "civil dawn", place, r.moment(t, "civil_dawn"), light.CivilDawn, time.Minute)
			assertEvent(t, "sunrise", place, r.moment(t, "sunrise"), light.Sunrise, time.Minute)
			assertEvent(t, "sunset", place, r.moment(t, "sunset"), light.Sunset, time.Minute)
			assertEvent(t, "civil dusk", place, r.moment(t, "civil_dusk"), light.CivilDusk, time.Minute)
			if transit := r.moment(t, "transit"); transit != nil {
				noon := noonOf(*r.moment(t, "noon"), place)
				assert.InDelta(t, 0, noon.Sub(*transit).Seconds(), 30+0.5+2.4, "transit: published %v, got %v", transit, noon)
			}
		})
	}
}

func TestLightOutsideItsRange(t *testing.T) {
	t.Parallel()
	noon := time.Date(2026, 6, 1, 18, 0, 0, 0, time.UTC)
	field := Place{Latitude: 41 * units.Degree, Longitude: -93 * units.Degree}
	cases := []struct {
		name   string
		moment time.Time
		place  Place
	}{
		{"latitude past the pole", noon, Place{Latitude: 90.01 * units.Degree}},
		{"latitude past the south pole", noon, Place{Latitude: -91 * units.Degree}},
		{"latitude not a number", noon, Place{Latitude: units.Angle(math.NaN())}},
		{"longitude infinite", noon, Place{Longitude: units.Angle(math.Inf(1))}},
		{"no time", time.Time{}, field},
		{"long ago", noon.AddDate(-300, 0, 0), field},
		{"far ahead", noon.AddDate(300, 0, 0), field},
	}
	for _, tc := range cases {
		t.Run(tc.name, func(t *testing.T) {
			light := At(tc.moment, tc.place)
			assert.Equal(t, Unknown, light.Phase)
			assert.Equal(t, Unknown, light.AlaskaPhase())
			assert.Nil(t, light.Sunrise)
			assert.True(t, light.NightForStability(tc.moment), "unknown is read as night")
			assert.True(t, light.InversionHours(tc.moment), "unknown is read as inversion hours")
		})
	}
}

func TestPolesAndWrappedLongitudes(t *testing.T) {
	t.Parallel()
	noon := time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC)
	for _, latitude := range []units.Angle{-90, 90} {
		light := At(noon, Place{Latitude: latitude * units.Degree})
		require.True(t, units.Finite(light.SunElevation))
		require.True(t, units.Finite(light.SunAzimuth))
		assert.Nil(t, light.Sunrise)
		assert.Nil(t, light.Sunset)
	}
	east := At(noon, Place{Latitude: 35 * units.Degree, Longitude: 260 * units.Degree})
	west := At(noon, Place{Latitude: 35 * units.Degree, Longitude: -100 * units.Degree})
	assert.Equal(t, *west.Sunrise, *east.Sunrise)
	assert.Equal(t, *west.Sunset, *east.Sunset)
}

func TestPoleSunriseOfTheYear(t *testing.T) {
	t.Parallel()
	// Half a degree from the pole the sun comes up once a year, at any hour of the day, and stays.
	place := Place{Latitude: 89.95 * units.Degree, Longitude: 20 * units.Degree}
	rises, sets := 0, 0
	for day := range 30 {
		light := At(time.Date(2026, 3, 8+day, 10, 40, 0, 0, time.UTC), place)
		if light.Sunrise != nil {
			rises++
		}
		if light.Sunset != nil {
			sets++
		}
	}
	assert.GreaterOrEqual(t, rises, 1)
	assert.Equal(t, rises, sets+1, "it comes up once more than it goes down")
}

func TestEventsKeepTheCallersZone(t *testing.T) {
	t.Parallel()
	zone := time.FixedZone("", -5*3600)
	light := At(time.Date(2024, 3, 5, 23, 50, 0, 0, zone), Place{Latitude: 38.889444 * units.Degree, Longitude: -77.035278 * units.Degree})
	require.NotNil(t, light.Sunset)
	_, offset := light.Sunset.Zone()
	assert.Equal(t, -5*3600, offset)
	assert.Equal(t, 5, light.Sunset.Day(), "of the solar day that holds the moment")
	assert.Zero(t, light.Sunset.Nanosecond(), "whole seconds")
}

// Between three places of the sun its altitude agrees with the sun looked up at every moment, far
// closer than the series is good to.
func TestArcAgreesWithTheSunLookedUp(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(r *rapid.T) {
		moment, place := anywhere(r)
		a := newArc(moment, place)
		at := rapid.Float64Range(-node, node).Draw(r, "seconds")
		want := look(moment.Add(time.Duration(at*float64(time.Second))), place).elevation
		require.InDelta(r, want.In(units.Degree), a.altitude(at).In(units.Degree), 1e-5)
	})
}

func TestSourcesAreCited(t *testing.T) {
	t.Parallel()
	seen := map[string]bool{}
	for _, source := range Sources() {
		assert.True(t, source.Cited())
		assert.False(t, seen[source.ID], source.ID)
		seen[source.ID] = true
	}
}
