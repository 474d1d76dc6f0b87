package air

import (
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
		{"cloud unknown under a low sun", with(fairDay(), func(o *Observation) { o.CloudCover, o.Sun = nil, &Sun{Elevation: 14 * units.Degree} }), InversionPossible, CodeInversionPossible},
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
	assert.Equal(t, finding.Caution, f.Severity)
	assert.Equal(t, "/weather/at", f.Subject)

	o = fairDay()
	o.Lapse = &Lapse{units.FromFahrenheit(60), units.FromFahrenheit(62), 8 * units.Foot, 8.5 * units.Foot}
	f = found(Observe(o), CodeLapseUnusable)
	require.NotNil(t, f)
	assert.Equal(t, finding.Caution, f.Severity)
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
