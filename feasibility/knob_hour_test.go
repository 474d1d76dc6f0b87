package feasibility_test

import (
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility"
	"tractcheck/feasibility/air"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// otherHour is the remedy by the hour alone, its start, and whether there is one.
func otherHour(t *testing.T, a feasibility.Answer) (feasibility.Remedy, time.Time, bool) {
	t.Helper()
	for _, r := range a.Remedies {
		if len(r.Changes) == 1 && r.Changes[0].Pointer == "/weather/at" {
			start, err := time.Parse(time.RFC3339, r.Changes[0].ToWord)
			require.NoError(t, err)
			return r, start, true
		}
	}
	return feasibility.Remedy{}, time.Time{}, false
}

// The start that is offered is the nearest to come whose hours hold the whole job.
func TestAnotherHourHoldsTheWholeJob(t *testing.T) {
	morning := june(7, 0).AddDate(0, 0, 1)
	for name, tc := range map[string]struct {
		at   time.Time
		want time.Time
	}{
		"at dusk":         {june(20, 0), morning},
		"at night":        {june(23, 30), morning},
		"before midnight": {june(23, 59), morning},
		"before dawn":     {june(3, 0), june(7, 0)},
		"after sunrise":   {june(6, 10), june(7, 0)},
	} {
		t.Run(name, func(t *testing.T) {
			m := clearEvening(tc.at)
			a := assess(t, m)
			require.Contains(t, codes(a, finding.Stop), air.CodeInversionPresumed)
			r, start, found := otherHour(t, a)
			require.True(t, found)
			assert.True(t, tc.want.Equal(start), "%s", start)
			assert.Contains(t, a.Headline, "start at "+tc.want.Format("15:04 on 2 January"))
			assert.NotContains(t, a.Headline, "you must stop")
			then := assess(t, applied(t, m, r))
			assert.Equal(t, r.AnswerThen, then.Verdict)
			_, late := pastDusk(then)
			assert.False(t, late)
		})
	}
}

// Where no hours hold the whole job the longest to come are offered, and remedy and headline say so.
func TestTheLongestHoursWhereNoneHoldTheJob(t *testing.T) {
	m := clearEvening(june(20, 0))
	m.Field.Ground.Area, m.Crew.WorkHours = new(150*units.Acre), nil
	a := assess(t, m)
	require.Greater(t, a.Elapsed.In(units.Hour), 13.0)
	r, start, found := otherHour(t, a)
	require.True(t, found)
	assert.True(t, june(7, 0).AddDate(0, 0, 1).Equal(start), "%s", start)
	assert.Contains(t, r.Costs, "the job does not end before 19:14, when it must stop")
	assert.Contains(t, a.Headline, "By 19:14 you must stop, before the job is done.")
	then := assess(t, applied(t, m, r))
	f, late := pastDusk(then)
	require.True(t, late)
	assert.Contains(t, f.Message, "but by 19:14")
	assert.Contains(t, then.Headline, "By 19:14 you must stop")
}

// Held to a search of every quarter hour of the day to come: a start that holds the whole job is offered
// wherever there is one, the first that does, and never one that is past.
func TestAnotherHourIsTheNearestOfAll(t *testing.T) {
	r, wanted := draws(t, 10)
	offered := 0
	for tries := 0; offered < wanted && tries < 10*wanted; tries++ {
		at := june(0, 0).Add(time.Duration(r.IntN(24*60)) * time.Minute)
		m := clearEvening(at)
		m.Field.Ground.Area = new(units.Area(5+70*r.Float64()) * units.Acre)
		m.Weather.CloudCover = new(units.Proportion(r.Float64()))
		m.Weather.WindSpeed = units.Speed(2.5+4*r.Float64()) * units.MilePerHour
		a := assess(t, m)
		remedy, start, found := otherHour(t, a)
		if !slices.Contains(codes(a, finding.Stop), air.CodeInversionPresumed) {
			continue
		}
		require.True(t, found, "%s %v", at, codes(a, finding.Stop))
		offered++
		assert.True(t, start.After(at), "%s is past", start)
		_, late := pastDusk(assess(t, applied(t, m, remedy)))
		m.MayChange = []feasibility.Knob{}
		for t0 := at.Truncate(15 * time.Minute).Add(15 * time.Minute); t0.Sub(at) <= 24*time.Hour; t0 = t0.Add(15 * time.Minute) {
			weather := *m.Weather
			weather.At = &t0
			m.Weather = &weather
			there := assess(t, m)
			if _, past := pastDusk(there); past || len(codes(there, finding.Stop)) > 0 || len(duskOpens(there)) > 0 {
				continue
			}
			assert.False(t, late, "%s holds the whole job, and %s does not", t0, start)
			assert.True(t, t0.Equal(start), "%s holds the whole job sooner than %s", t0, start)
			break
		}
	}
	assert.Positive(t, offered)
}
