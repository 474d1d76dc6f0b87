package feasibility

import (
	"cmp"
	"slices"
	"time"

	"tractcheck/feasibility/daylight"
)

// hours are other times, within a day either way, at which the light changes its kind: the nearest
// quarter hour inside each bound of day, twilight, night and the hours of inversions. The weather is
// taken as stated; the costs of the remedy say so.
func hours() choice {
	return choice{knob: KnobHour, moves: everyRoom, options: hourOptions}
}

// Bounds of the hours in which the air room presumes inversions: see air and daylight.
const (
	afterSunrise = time.Hour
	beforeSunset = 2 * time.Hour
)

func hourOptions(r *rooms) []option {
	at, light := r.m.Weather.At, r.light()
	if at == nil || light.Phase == daylight.Unknown {
		return nil
	}
	var times []time.Time
	for _, event := range []struct {
		at    *time.Time
		later time.Duration
		to    func(time.Time) time.Time
	}{
		{light.CivilDawn, 0, quarterAfter}, {light.Sunrise, 0, quarterAfter}, {light.Sunrise, afterSunrise, quarterAfter},
		{light.Sunset, -beforeSunset, quarterBefore}, {light.Sunset, -time.Hour, quarterBefore},
		{light.Sunset, 0, quarterBefore}, {light.CivilDusk, 0, quarterBefore},
	} {
		if event.at == nil {
			continue
		}
		for _, day := range []time.Duration{-24 * time.Hour, 0, 24 * time.Hour} {
			t := event.to(event.at.Add(event.later + day))
			if away := t.Sub(*at).Abs(); away > 0 && away <= 24*time.Hour {
				times = append(times, t.In(at.Location()))
			}
		}
	}
	slices.SortStableFunc(times, func(a, b time.Time) int { // the nearest first; of two, the later
		return cmp.Or(cmp.Compare(a.Sub(*at).Abs(), b.Sub(*at).Abs()), b.Compare(a))
	})
	options := make([]option, 0, len(times))
	for _, t := range times {
		options = append(options, option{[]Change{{
			Pointer: "/weather/at", FromWord: at.Format(time.RFC3339Nano), ToWord: t.Format(time.RFC3339),
		}}, func(m Mission) Mission {
			weather := *m.Weather
			weather.At = &t
			m.Weather = &weather
			return m
		}})
	}
	return options
}

const quarter = 15 * time.Minute

func quarterBefore(t time.Time) time.Time { return t.Truncate(quarter) }

func quarterAfter(t time.Time) time.Time {
	if early := t.Truncate(quarter); early.Before(t) {
		return early.Add(quarter)
	}
	return t
}
