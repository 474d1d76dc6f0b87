package air

import (
	"math"
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// found reports the first finding with a code, or nil.
func found(s State, code finding.Code) *finding.Finding {
	for _, f := range s.Findings {
		if f.Code == code {
			return &f
		}
	}
	return nil
}

// assumes reports whether a fact was assumed.
func assumes(s State, subject string) bool {
	for _, a := range s.Assumptions {
		if a.Subject == subject {
			return true
		}
	}
	return false
}

// fairDay is a fully stated observation with nothing wrong: noon, 8 mph, half a sky of cloud.
func fairDay() Observation {
	return Observation{
		Temperature:      units.FromFahrenheit(75),
		RelativeHumidity: 55 * units.Percent,
		Pressure:         new(14.2 * units.PoundPerSquareInchAbsolute),
		Elevation:        new(950 * units.Foot),
		WindSpeed:        8 * units.MilePerHour,
		WindHeight:       new(10 * units.Foot),
		Gust:             new(11 * units.MilePerHour),
		CropHeight:       new(3 * units.Foot),
		CloudCover:       new(40 * units.Percent),
		Sun:              &Sun{Elevation: 55 * units.Degree},
	}
}

// maybe draws nil or a value.
func maybe[Q ~float64](r *rapid.T, name string, low, high float64) *Q {
	if rapid.Bool().Draw(r, name+" stated") {
		return new(Q(rapid.Float64Range(low, high).Draw(r, name)))
	}
	return nil
}

// someObservation draws weather that can occur.
func someObservation(r *rapid.T) Observation {
	o := Observation{
		Temperature:      units.FromCelsius(rapid.Float64Range(-30, 55).Draw(r, "temperature")),
		RelativeHumidity: units.Proportion(rapid.Float64Range(0, 1).Draw(r, "humidity")),
		WindSpeed:        units.Speed(rapid.Float64Range(0, 15).Draw(r, "wind")),
		Pressure:         maybe[units.AbsolutePressure](r, "pressure", 60e3, 108e3),
		WindHeight:       maybe[units.Length](r, "wind height", 0.5, 15),
		Gust:             maybe[units.Speed](r, "gust", 0, 25),
		CropHeight:       maybe[units.Length](r, "crop", 0, 5),
		CloudCover:       maybe[units.Proportion](r, "cloud", 0, 1),
	}
	if rapid.Bool().Draw(r, "sun known") {
		night := rapid.Bool().Draw(r, "night")
		o.Sun = &Sun{
			Elevation:         units.Angle(rapid.Float64Range(-90, 90).Draw(r, "sun")) * units.Degree,
			NightForStability: night,
			InversionHours:    night || rapid.Bool().Draw(r, "inversion hours"),
		}
	}
	if rapid.Bool().Draw(r, "lapse measured") {
		o.Lapse = &Lapse{
			LowerTemperature: o.Temperature,
			UpperTemperature: o.Temperature + units.Temperature(rapid.Float64Range(-3, 3).Draw(r, "upper warmer by")),
			LowerHeight:      units.Length(rapid.Float64Range(0.1, 5).Draw(r, "lower height")),
			UpperHeight:      units.Length(rapid.Float64Range(0.1, 20).Draw(r, "upper height")),
		}
	}
	return o
}

// absurd draws any positive value that the wire could admit.
func absurd(r *rapid.T, name string) float64 {
	return math.Pow(10, rapid.Float64Range(-9, 9).Draw(r, name))
}

// requireFinite walks a state and fails on any number that is not one.
func requireFinite(t require.TestingT, v reflect.Value) {
	switch v.Kind() {
	case reflect.Float64:
		require.True(t, units.Finite(v.Float()), "%v is no number", v.Type())
	case reflect.Struct:
		for i := range v.NumField() {
			requireFinite(t, v.Field(i))
		}
	case reflect.Slice:
		for i := range v.Len() {
			requireFinite(t, v.Index(i))
		}
	case reflect.Interface, reflect.Pointer:
		if !v.IsNil() {
			requireFinite(t, v.Elem())
		}
	}
}

func TestAnyWeatherGivesAFiniteState(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(r *rapid.T) {
		o := Observation{
			Temperature:      units.Temperature(absurd(r, "temperature")),
			RelativeHumidity: units.Proportion(absurd(r, "humidity")),
			WindSpeed:        units.Speed(absurd(r, "wind")),
			Pressure:         new(units.AbsolutePressure(absurd(r, "pressure"))),
			Elevation:        new(units.Length(absurd(r, "elevation"))),
			WindHeight:       new(units.Length(absurd(r, "wind height"))),
			Gust:             new(units.Speed(absurd(r, "gust"))),
			CropHeight:       new(units.Length(absurd(r, "crop"))),
			CloudCover:       new(units.Proportion(absurd(r, "cloud"))),
			Sun:              &Sun{Elevation: 10 * units.Degree, NightForStability: rapid.Bool().Draw(r, "night")},
			Lapse: &Lapse{
				units.Temperature(absurd(r, "lower")), units.Temperature(absurd(r, "upper")),
				units.Length(absurd(r, "lower height")), units.Length(absurd(r, "upper height")),
			},
		}
		s := Observe(o)
		requireFinite(r, reflect.ValueOf(s))
		for _, f := range s.Findings {
			require.NotRegexp(r, `[0-9]e[+-]|%!`, f.Message, "plain decimals for a grower")
		}
		require.Positive(r, s.Density)
		require.GreaterOrEqual(r, s.FrictionVelocity, units.Speed(0))
		require.True(r, units.Finite(s.WindAt(units.Length(absurd(r, "height")))))
	})
}

func TestNotNumbersAreHeld(t *testing.T) {
	t.Parallel()
	nan := math.NaN()
	s := Observe(Observation{
		Temperature: units.Temperature(nan), RelativeHumidity: units.Proportion(math.Inf(1)), WindSpeed: units.Speed(nan),
		Lapse: &Lapse{LowerTemperature: units.Temperature(nan), LowerHeight: 1, UpperHeight: 5},
	})
	assert.True(t, units.Finite(s.Density))
	assert.True(t, units.Finite(s.WetBulb))
	assert.NotNil(t, found(s, CodeWeatherImplausible))
	assert.NotNil(t, found(s, CodeLapseUnusable))
}

func TestImplausibleWeatherIsHeldAndSaidSo(t *testing.T) {
	t.Parallel()
	cases := []struct {
		name, subject string
		change        func(*Observation)
	}{
		{"hotter than any field", "/weather/temperature", func(o *Observation) { o.Temperature = units.FromFahrenheit(400) }},
		{"75 kelvin", "/weather/temperature", func(o *Observation) { o.Temperature = 75 }},
		{"more than saturated", "/weather/relative_humidity", func(o *Observation) { o.RelativeHumidity = 55 }},
		{"faster than a storm", "/weather/wind_speed", func(o *Observation) { o.WindSpeed = 500 }},
		{"nearly no pressure", "/weather/pressure", func(o *Observation) { o.Pressure = new(units.AbsolutePressure(14.2)) }},
		{"above all farmland", "/field/elevation", func(o *Observation) { o.Elevation = new(90000 * units.Foot) }},
		{"a meter in the clouds", "/weather/wind_height", func(o *Observation) { o.WindHeight = new(10 * units.Mile) }},
		{"a gust of light", "/weather/gust", func(o *Observation) { o.Gust = new(units.Speed(3e8)) }},
		{"a mile of corn", "/field/crop_height", func(o *Observation) { o.CropHeight = new(units.Mile) }},
		{"more than the whole sky", "/weather/cloud_cover", func(o *Observation) { o.CloudCover = new(units.Proportion(40)) }},
	}
	for _, tc := range cases {
		t.Run(tc.name, func(t *testing.T) {
			o := fairDay()
			tc.change(&o)
			f := found(Observe(o), CodeWeatherImplausible)
			require.NotNil(t, f)
			assert.Equal(t, tc.subject, f.Subject)
			assert.Equal(t, finding.Needed, f.Severity)
			assert.Equal(t, f.Measured.Dimension(), f.Limit.Dimension())
			assert.True(t, f.Source.Cited())
		})
	}
}

func TestFairDayHasNothingToSay(t *testing.T) {
	t.Parallel()
	s := Observe(fairDay())
	assert.Empty(t, s.Findings)
	assert.Empty(t, s.Assumptions)
	assert.Equal(t, InversionAbsent, s.Inversion)
	assert.True(t, s.StabilityInferred)
	assert.NotEmpty(t, s.Sources)
}

func TestEveryMissingFactIsAnAssumption(t *testing.T) {
	t.Parallel()
	s := Observe(Observation{Temperature: units.FromFahrenheit(75), RelativeHumidity: 0.5, WindSpeed: 3})
	for _, subject := range []string{"/field/elevation", "/field/crop_height", "/weather/wind_height", "/weather/gust", "/weather/at"} {
		assert.True(t, assumes(s, subject), subject)
	}
	o := fairDay()
	o.CloudCover = nil
	assert.True(t, assumes(Observe(o), "/weather/cloud_cover"))
	for _, a := range s.Assumptions {
		assert.NotEmpty(t, a.Assumed)
		assert.NotEmpty(t, a.Settle)
		assert.True(t, a.Source.Cited())
	}
}

func TestSources(t *testing.T) {
	t.Parallel()
	position := map[string]int{}
	require.LessOrEqual(t, len(Sources()), mostSources)
	for i, source := range Sources() {
		require.True(t, source.Cited())
		_, twice := position[source.ID]
		require.False(t, twice, source.ID)
		position[source.ID] = i
	}
	used := map[string]bool{}
	rapid.Check(t, func(r *rapid.T) {
		s := Observe(someObservation(r))
		last := -1
		for _, source := range s.Sources {
			i, known := position[source.ID]
			require.True(r, known, source.ID)
			require.Greater(r, i, last, "each once, in the order of the table")
			last = i
			used[source.ID] = true
		}
		for _, f := range s.Findings {
			require.True(r, f.Source.Cited())
			require.NotEmpty(r, f.Subject)
			require.NotEmpty(r, f.Message)
			require.Contains(r, position, f.Source.ID)
		}
	})
	for id := range position {
		assert.True(t, used[id], "source %s is never used", id)
	}
}

func TestSameWeatherSameState(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(r *rapid.T) {
		o := someObservation(r)
		require.Equal(r, Observe(o), Observe(o))
	})
}
