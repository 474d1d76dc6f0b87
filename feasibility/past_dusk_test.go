package feasibility_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tractcheck/feasibility"
	"tractcheck/feasibility/air"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// clearEvening is the levee strip, grown to a job of some hours, under a nearly clear sky in a light breeze.
func clearEvening(at time.Time) feasibility.Mission {
	m := leveeStrip()
	m.Field.Ground.Length, m.Field.Ground.Width, m.Field.Ground.Area = nil, nil, new(20*units.Acre)
	m.Weather.At, m.Weather.CloudCover = new(at), new(30*units.Percent)
	m.Weather.WindSpeed, m.Weather.Gust = 5*units.MilePerHour, new(7*units.MilePerHour)
	return m
}

// pastDusk is the caution that a job runs past dusk, and whether there is one.
func pastDusk(a feasibility.Answer) (finding.Finding, bool) {
	i := slices.IndexFunc(a.Findings, func(f finding.Finding) bool { return f.Code == feasibility.CodeJobRunsPastDusk })
	if i < 0 {
		return finding.Finding{}, false
	}
	return a.Findings[i], true
}

// stopOf is when a job must stop: the time left is the finding's limit.
func stopOf(at time.Time, f finding.Finding) time.Time {
	return at.Add(time.Duration(f.Limit.(units.Duration).In(units.Second) * float64(time.Second)).Round(time.Second))
}

// The sun sets at 20:13:40 there, and an hour before, under such a sky and wind, an inversion is likely.
func TestAJobThatRunsPastDuskSaysWhenToStop(t *testing.T) {
	a := assess(t, clearEvening(june(19, 8)))
	f, told := pastDusk(a)
	require.True(t, told)
	assert.Equal(t, finding.Caution, f.Severity, "what is flown before is sound")
	assert.NotContains(t, codes(a, finding.Stop), air.CodeInversionPresumed)
	assert.Contains(t, f.Message, "but by 19:13 an inversion is likely")
	assert.Contains(t, f.Message, "Stop by then, or start by ")
	assert.Equal(t, "/weather/at", f.Subject)
	assert.Less(t, f.Margin.SI(), 0.0)
	assert.Contains(t, a.Headline, "By 19:13 you must stop, before the job is done.")

	// It is the time at which a window of hours closes.
	hours := []feasibility.Forecast{{Weather: *clearEvening(june(19, 8)).Weather}}
	window := assessHours(t, clearEvening(june(19, 8)), hours).Windows[0]
	assert.True(t, window.To.Equal(stopOf(june(19, 8), f)), "%s", window.To)

	// Started when it says, the job ends in time.
	_, by, _ := strings.Cut(f.Message, "start by ")
	start, err := time.ParseInLocation("2006-01-02 15:04", "2026-06-12 "+by[:5], chicago)
	require.NoError(t, err)
	a = assess(t, clearEvening(start))
	_, told = pastDusk(a)
	assert.False(t, told)
	assert.NotContains(t, a.Headline, "you must stop")
	_, told = pastDusk(assess(t, clearEvening(start.Add(time.Minute))))
	assert.True(t, told, "a minute later it does not")
}

func TestWhatEndsAJobAtDusk(t *testing.T) {
	overcast := func(m *feasibility.Mission) { m.Weather.CloudCover = new(units.Whole) }
	for name, tc := range map[string]struct {
		at     time.Time
		change func(*feasibility.Mission)
		says   string // empty: nothing
	}{
		"a morning":             {june(9, 40), func(*feasibility.Mission) {}, ""},
		"cloud cover not known": {june(17, 30), func(m *feasibility.Mission) { m.Weather.CloudCover = nil }, "by 18:13 an inversion cannot be ruled out any more"},
		"hardly any wind":       {june(17, 30), func(m *feasibility.Mission) { m.Weather.WindSpeed, m.Weather.Gust = 2.5*units.MilePerHour, nil }, "by 18:13 an inversion is likely"},
		"overcast, no light":    {june(19, 8), overcast, "by 20:13 it is twilight, and what that asks for is not there, or not stated (Anti-collision light in twilight)"},
		"overcast, in twilight": {june(20, 20), overcast, "it is night, and what that asks for"},
		"overcast, equipped": {june(19, 8), func(m *feasibility.Mission) {
			overcast(m)
			m.Operation.Lights3SM, m.Operation.NightTrained = new(true), new(true)
		}, ""},
		"overcast, light, untrained": {june(19, 8), func(m *feasibility.Mission) { overcast(m); m.Operation.Lights3SM = new(true) }, "by 20:42 it is night"},
		"an inversion already":       {june(20, 0), func(*feasibility.Mission) {}, ""},
		"a job of days":              {june(9, 0), func(m *feasibility.Mission) { m.Field.Ground.Area, m.Crew.WorkHours = new(300*units.Acre), nil }, "no start on this day leaves enough time"},
		"a job of days, ended by the crew's hours": {june(9, 0), func(m *feasibility.Mission) {
			m.Field.Ground.Area, m.Crew.WorkHours = new(300*units.Acre), new(8*units.Hour)
		}, ""},
		"a day's work too late": {june(13, 0), func(m *feasibility.Mission) {
			m.Field.Ground.Area, m.Crew.WorkHours = new(300*units.Acre), new(8*units.Hour)
		}, "A day's work on this job takes about 8.0 hours, but by 19:13"},
		"no time":  {june(19, 8), func(m *feasibility.Mission) { m.Weather.At = nil }, ""},
		"no place": {june(19, 8), func(m *feasibility.Mission) { m.Weather.Latitude = nil }, ""},
	} {
		t.Run(name, func(t *testing.T) {
			m := clearEvening(tc.at)
			tc.change(&m)
			a := assess(t, m)
			f, told := pastDusk(a)
			require.Equal(t, tc.says != "", told, "%s", f.Message)
			assert.Contains(t, f.Message, tc.says)
			assert.Equal(t, told, strings.Contains(a.Headline, "you must stop") || len(codes(a, finding.Stop)) > 0 && told, a.Headline)
		})
	}
}

// duskOpens lists what of an assessment an evening brings: an inversion that is likely, or not ruled out,
// and what the light asks for.
func duskOpens(a feasibility.Answer) (found []finding.Code) {
	for _, f := range a.Findings {
		inversion := f.Code == air.CodeInversionPresumed || f.Code == air.CodeInversionPossible
		if inversion || f.Severity != finding.Caution && slices.Contains([]finding.Code{"permit_night_training", "permit_night_lights", "permit_twilight_lights"}, f.Code) {
			found = append(found, f.Code)
		}
	}
	return found
}

// Whatever the weather, an assessment made for the moment it must stop finds what it says, and one made for
// any moment before finds nothing that the start did not have.
func TestPastDuskIsWhatLaterAssessmentsFind(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := june(rapid.IntRange(7, 20).Draw(t, "hour"), rapid.IntRange(0, 59).Draw(t, "minute"))
		// A low winter sun and a high summer one, near and far from the equator.
		months := rapid.SampledFrom([]int{0, 3, 6}).Draw(t, "months later")
		at = at.AddDate(0, months, 0)
		m := clearEvening(at)
		m.Weather.Latitude = new(rapid.SampledFrom([]units.Angle{33.4 * units.Degree, 50 * units.Degree, 60 * units.Degree}).Draw(t, "latitude"))
		m.Weather.WindSpeed = units.Speed(rapid.Float64Range(2, 9).Draw(t, "wind")) * units.MilePerHour
		m.Weather.Gust = nil
		m.Weather.CloudCover = rapid.SampledFrom([]*units.Proportion{nil, new(units.Proportion(0)), new(0.3 * units.Whole), new(0.7 * units.Whole), new(units.Whole)}).Draw(t, "cloud")
		m.Operation.Lights3SM, m.Operation.NightTrained = perhapsTrue(t, "lights"), perhapsTrue(t, "trained")
		m.MayChange = []feasibility.Knob{}
		when := func(moment time.Time) feasibility.Answer {
			then, weather := m, *m.Weather
			weather.At = new(moment)
			then.Weather = &weather
			a, err := feasibility.Assess(then)
			if err != nil {
				t.Fatal(err)
			}
			return a
		}
		a := when(at)
		before := duskOpens(a)
		if slices.Contains(before, air.CodeInversionPresumed) || months > 0 && len(before) > 0 {
			return // the start is stopped itself, or may lie before dawn
		}
		more := func(moment time.Time) bool {
			return slices.ContainsFunc(duskOpens(when(moment)), func(c finding.Code) bool { return !slices.Contains(before, c) })
		}
		f, told := pastDusk(a)
		end := at.Add(time.Duration(a.Elapsed.In(units.Second) * float64(time.Second)))
		if told {
			end = stopOf(at, f)
			if !more(end.Add(time.Second)) {
				t.Fatalf("at %s nothing is worse than at %s: %s", end, at, f.Message)
			}
		}
		for moment := at; moment.Before(end); moment = moment.Add(17 * time.Minute) {
			if more(moment) {
				t.Fatalf("%v at %s, and only then: %s", duskOpens(when(moment)), moment, f.Message)
			}
		}
	})
}
