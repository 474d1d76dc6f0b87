package air

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// evening is a fair day turned to the evening: two hours before sunset, or within the last.
func evening(late bool, wind units.Speed, cloud units.Proportion) Observation {
	o := fairDay()
	o.WindSpeed, o.CloudCover = wind, &cloud
	o.Gust = nil
	o.Sun = &Sun{Elevation: 12 * units.Degree, InversionHours: true, NightForStability: late}
	return o
}

func TestInversion(t *testing.T) {
	t.Parallel()
	warm := &Lapse{units.FromFahrenheit(60), units.FromFahrenheit(62), 8 * units.Foot, 33 * units.Foot}
	cool := &Lapse{units.FromFahrenheit(62), units.FromFahrenheit(60), 8 * units.Foot, 33 * units.Foot}
	even := &Lapse{units.FromFahrenheit(60), units.FromFahrenheit(60), 8 * units.Foot, 33 * units.Foot}
	hardly := &Lapse{units.FromFahrenheit(70), units.FromFahrenheit(69.99), 8 * units.Foot, 33 * units.Foot}
	// Over 25 ft g/cp comes to 0.07468 K.
	under := &Lapse{units.FromCelsius(20), units.FromCelsius(20 - 0.0746), 8 * units.Foot, 33 * units.Foot}
	over := &Lapse{units.FromCelsius(20), units.FromCelsius(20 - 0.0748), 8 * units.Foot, 33 * units.Foot}
	overTurned := &Lapse{units.FromCelsius(20 - 0.0748), units.FromCelsius(20), 33 * units.Foot, 8 * units.Foot}
	oneHeight := &Lapse{units.FromFahrenheit(60), units.FromFahrenheit(62), 8 * units.Foot, 8 * units.Foot}
	with := func(o Observation, change func(*Observation)) Observation { change(&o); return o }
	mph := func(v float64) units.Speed { return units.Speed(v) * units.MilePerHour }

	cases := []struct {
		name string
		o    Observation
		want InversionState
		code finding.Code
	}{
		{"fair day", fairDay(), InversionAbsent, ""},
		{"seen", with(fairDay(), func(o *Observation) { o.InversionObserved = new(true) }), InversionObserved, CodeInversionObserved},
		{"measured at noon", with(fairDay(), func(o *Observation) { o.Lapse = warm }), InversionObserved, CodeInversionObserved},
		{"measured, though none seen", with(fairDay(), func(o *Observation) { o.Lapse, o.InversionObserved = warm, new(false) }), InversionObserved, CodeInversionObserved},
		{"seen, though measured absent", with(fairDay(), func(o *Observation) { o.Lapse, o.InversionObserved = cool, new(true) }), InversionObserved, CodeInversionObserved},
		{"measured absent on a clear night", with(evening(true, mph(2), 0), func(o *Observation) { o.Lapse = cool }), InversionAbsent, ""},
		{"measured absent, time unknown", with(fairDay(), func(o *Observation) { o.Lapse, o.Sun = cool, nil }), InversionAbsent, ""},
		{"as warm above as below", with(fairDay(), func(o *Observation) { o.Lapse = even }), InversionPossible, CodeInversionPossible},
		{"a hair cooler above", with(fairDay(), func(o *Observation) { o.Lapse = hardly }), InversionPossible, CodeInversionPossible},
		{"a hair cooler above, none seen", with(fairDay(), func(o *Observation) { o.Lapse, o.InversionObserved = hardly, new(false) }), InversionPossible, CodeInversionPossible},
		{"a hair cooler above, time unknown", with(fairDay(), func(o *Observation) { o.Lapse, o.Sun = hardly, nil }), InversionPossible, CodeInversionPossible},
		{"a hair cooler above does not lift what is presumed", with(evening(true, mph(2), 0), func(o *Observation) { o.Lapse = hardly }), InversionPresumed, CodeInversionPresumed},
		{"a hair cooler above does not lift what the class presumes", with(evening(true, mph(5), 0.3), func(o *Observation) { o.Lapse = hardly }), InversionPresumed, CodeInversionPresumed},
		{"as warm above as below on a clear night", with(evening(true, mph(2), 0), func(o *Observation) { o.Lapse = even }), InversionPresumed, CodeInversionPresumed},
		{"cooler than air that mixes, by less than a thousandth", with(fairDay(), func(o *Observation) { o.Lapse = under }), InversionPossible, CodeInversionPossible},
		{"as cool as air that mixes", with(fairDay(), func(o *Observation) { o.Lapse = over }), InversionAbsent, ""},
		{"as cool as air that mixes, on a clear night", with(evening(true, mph(2), 0), func(o *Observation) { o.Lapse = over }), InversionAbsent, ""},
		{"the same, written down the other way round", with(fairDay(), func(o *Observation) { o.Lapse = overTurned }), InversionAbsent, ""},
		{"two readings at one height say nothing", with(fairDay(), func(o *Observation) { o.Lapse = oneHeight }), InversionAbsent, ""},
		{"clear calm night", evening(true, mph(2), 0.1), InversionPresumed, CodeInversionPresumed},
		{"clear night, some wind", evening(true, mph(6), 0.1), InversionPresumed, CodeInversionPresumed},
		{"cloudy night, little wind", evening(true, mph(3), 0.8), InversionPresumed, CodeInversionPresumed},
		{"overcast night", evening(true, mph(2), 1), InversionAbsent, ""},
		{"windy night", evening(true, mph(12), 0), InversionAbsent, ""},
		{"none seen does not lift what is presumed", with(evening(true, mph(2), 0.1), func(o *Observation) { o.InversionObserved = new(false) }), InversionPresumed, CodeInversionPresumed},
		{"early evening, calm and clear", evening(false, mph(2.9), 0.5), InversionPresumed, CodeInversionPresumed},
		{"early evening, at 3 mph", evening(false, mph(3), 0.5), InversionAbsent, ""},
		{"early evening, calm and cloudy", evening(false, mph(2), 0.51), InversionAbsent, ""},
		{"time unknown", with(fairDay(), func(o *Observation) { o.Sun = nil }), InversionPossible, CodeInversionPossible},
		{"time unknown in a strong wind", with(fairDay(), func(o *Observation) { o.Sun, o.WindSpeed, o.Gust = nil, mph(20), nil }), InversionPossible, CodeInversionPossible},
		{"cloud unknown at night", with(evening(true, mph(2), 0), func(o *Observation) { o.CloudCover = nil }), InversionPossible, CodeInversionPossible},
		{"cloud unknown in the early evening", with(evening(false, mph(9), 0), func(o *Observation) { o.CloudCover = nil }), InversionPossible, CodeInversionPossible},
		{"cloud unknown at noon in a calm", with(fairDay(), func(o *Observation) { o.CloudCover, o.WindSpeed = nil, mph(2.9) }), InversionPossible, CodeInversionPossible},
		{"cloud unknown under a low sun by day", with(fairDay(), func(o *Observation) { o.CloudCover, o.Sun = nil, &Sun{Elevation: 6 * units.Degree} }), InversionAbsent, ""},
		{"cloud unknown, high sun and wind", with(fairDay(), func(o *Observation) { o.CloudCover = nil }), InversionAbsent, ""},
	}
	for _, tc := range cases {
		t.Run(tc.name, func(t *testing.T) {
			s := Observe(tc.o)
			assert.Equal(t, tc.want, s.Inversion, s.InversionBasis)
			assert.NotEmpty(t, s.InversionBasis)
			for _, code := range []finding.Code{CodeInversionObserved, CodeInversionPresumed, CodeInversionPossible} {
				assert.Equal(t, code == tc.code, found(s, code) != nil, "finding %s", code)
			}
		})
	}
}

func TestInversionFindings(t *testing.T) {
	t.Parallel()
	o := fairDay()
	o.Lapse = &Lapse{units.FromFahrenheit(60), units.FromFahrenheit(62), 8 * units.Foot, 33 * units.Foot}
	f := found(Observe(o), CodeInversionObserved)
	require.NotNil(t, f)
	assert.Equal(t, finding.Stop, f.Severity)
	assert.Equal(t, finding.Read, f.Source.Standing, "a stop rests on a source that was read")
	assert.InDelta(t, 2, f.Measured.SI()*1.8, 1e-9)
	assert.InDelta(t, -2, f.Margin.SI()*1.8, 1e-9, "on the unsafe side")
	assert.Contains(t, f.Message, "2 °F warmer at 33 ft than at 8 ft")

	f = found(Observe(evening(true, 1, 0.1)), CodeInversionPresumed)
	require.NotNil(t, f)
	assert.Equal(t, finding.Stop, f.Severity)
	assert.Equal(t, finding.Read, f.Source.Standing)
	assert.Contains(t, f.Message, "inferred, not measured")

	o = fairDay()
	o.Sun = nil
	f = found(Observe(o), CodeInversionPossible)
	require.NotNil(t, f)
	assert.Equal(t, finding.Needed, f.Severity)
	assert.Equal(t, "/weather/at", f.Subject)

	o = fairDay()
	o.Lapse = &Lapse{units.FromFahrenheit(60), units.FromFahrenheit(62), 8 * units.Foot, 8.5 * units.Foot}
	f = found(Observe(o), CodeLapseUnusable)
	require.NotNil(t, f)
	assert.Equal(t, finding.Caution, f.Severity)
}

// Whatever leaves an inversion open is asked for, and what is not known is not graded in silence.
func TestAPossibleInversionIsNeeded(t *testing.T) {
	t.Parallel()
	for name, tc := range map[string]struct {
		subject string
		change  func(*Observation)
	}{
		"sun not known":   {"/weather/at", func(o *Observation) { o.Sun = nil }},
		"cloud not known": {"/weather/cloud_cover", func(o *Observation) { o.CloudCover, o.WindSpeed = nil, 1 }},
		"lapse undecided": {"/weather/lapse", func(o *Observation) {
			o.Lapse = &Lapse{units.FromFahrenheit(70), units.FromFahrenheit(69.99), 8 * units.Foot, 33 * units.Foot}
		}},
	} {
		o := fairDay()
		tc.change(&o)
		f := found(Observe(o), CodeInversionPossible)
		require.NotNil(t, f, name)
		assert.Equal(t, finding.Needed, f.Severity, name)
		assert.Equal(t, tc.subject, f.Subject)
		assert.Contains(t, f.Message, "under an inversion the drift risk is severe, whatever grade is shown")
	}
}

func TestAPairThatHardlyCools(t *testing.T) {
	t.Parallel()
	o := fairDay()
	o.Lapse = &Lapse{units.FromFahrenheit(70), units.FromFahrenheit(69.99), 8 * units.Foot, 33 * units.Foot}
	f := found(Observe(o), CodeInversionPossible)
	require.NotNil(t, f)
	assert.Contains(t, f.Message, "only 0.01 °F cooler, and air that mixes is at least 0.13 °F cooler")
	assert.Equal(t, finding.FromMemory, f.Source.Standing)
	assert.InDelta(t, 7.62*9.8e-3, f.Limit.SI(), 1e-9)
	assert.Less(t, f.Margin.SI(), 0.0)

	o.Lapse.UpperTemperature = units.FromCelsius(units.FromFahrenheit(70).Celsius() - 0.0746)
	assert.Contains(t, found(Observe(o), CodeInversionPossible).Message, "only 0.1343 °F cooler, and air that mixes is at least 0.1344 °F")

	night := evening(true, 1, 0.1)
	night.Lapse = o.Lapse
	f = found(Observe(night), CodeInversionPresumed)
	require.NotNil(t, f)
	assert.Equal(t, finding.Stop, f.Severity)
	assert.Equal(t, finding.Read, f.Source.Standing, "the hour stops the job, not the pair")
	assert.Contains(t, f.Message, "The two temperatures that you sent do not show that: the upper air was only")
}

// Air measured less cool above is never judged the safer.
func TestLessCoolAboveIsNeverSafer(t *testing.T) {
	t.Parallel()
	order := []InversionState{InversionAbsent, InversionPossible, InversionPresumed, InversionObserved}
	rapid.Check(t, func(r *rapid.T) {
		o := someObservation(r)
		o.InversionObserved = nil
		o.Lapse = &Lapse{
			LowerTemperature: o.Temperature, UpperTemperature: o.Temperature + units.Temperature(rapid.Float64Range(-0.3, 0.1).Draw(r, "upper warmer by")),
			LowerHeight: 2.5, UpperHeight: units.Length(rapid.Float64Range(5, 20).Draw(r, "upper height")),
		}
		before := Observe(o).Inversion
		warmer := *o.Lapse
		warmer.UpperTemperature += units.Temperature(rapid.Float64Range(0, 0.3).Draw(r, "and warmer by"))
		o.Lapse = &warmer
		require.GreaterOrEqual(r, slices.Index(order, Observe(o).Inversion), slices.Index(order, before))
	})
}

func TestMissingFactsNeverRuleAnInversionOut(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(r *rapid.T) {
		// Weather in which an inversion is presumed when all is told.
		wind := units.Speed(rapid.Float64Range(0, 2.9).Draw(r, "wind, mph")) * units.MilePerHour
		o := evening(rapid.Bool().Draw(r, "late"), wind, units.Proportion(rapid.Float64Range(0, 0.5).Draw(r, "cloud")))
		o.WindHeight, o.CropHeight = maybe[units.Length](r, "wind height", 1, 10), maybe[units.Length](r, "crop", 0, 3)
		require.Equal(r, InversionPresumed, Observe(o).Inversion)
		hidden := o
		if rapid.Bool().Draw(r, "hide the time") {
			hidden.Sun = nil
		} else {
			hidden.CloudCover = nil
		}
		require.NotEqual(r, InversionAbsent, Observe(hidden).Inversion)
	})
}

func TestClearerSkyNeverLiftsAPresumedInversion(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(r *rapid.T) {
		wind := units.Speed(rapid.Float64Range(0, 8).Draw(r, "wind"))
		cloud := units.Proportion(rapid.Float64Range(0, 1).Draw(r, "cloud"))
		late := rapid.Bool().Draw(r, "late")
		if Observe(evening(late, wind, cloud)).Inversion != InversionPresumed {
			r.Skip("not presumed")
		}
		clearer := cloud * units.Proportion(rapid.Float64Range(0, 1).Draw(r, "share of the cloud"))
		require.Equal(r, InversionPresumed, Observe(evening(late, wind, clearer)).Inversion, "a clearer sky")
		calmer := wind * units.Speed(rapid.Float64Range(0, 1).Draw(r, "share of the wind"))
		require.Equal(r, InversionPresumed, Observe(evening(late, calmer, cloud)).Inversion, "a calmer wind")
	})
}
