package feasibility

import (
	"cmp"
	"slices"
	"time"

	"tractcheck/feasibility/daylight"
)

// hours are other times to start at, within a day either way, where light and the presumption of stable
// air allow it. The weather is taken as stated; the costs of the remedy say so.
func hours() choice {
	return choice{knob: KnobHour, moves: everyRoom, options: hourOptions}
}

// hourOptions lists the starts, the best first: the nearest to come whose hours hold the whole job, else
// the one with the longest hours to come. What is past is offered only where nothing is to come.
func hourOptions(r *rooms) []option {
	at := r.m.Weather.At
	if at == nil || r.light().Phase == daylight.Unknown {
		return nil
	}
	var options []option
	for _, t := range r.starts() {
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

const (
	quarter     = 15 * time.Minute
	startWithin = 24 * time.Hour
	longestDay  = 12 * time.Hour // that hours to come are followed past the last start; own choice
)

// starts lists the times to start at. Hours in which the time of day asks for nothing count before those in
// which only no inversion is likely.
func (r *rooms) starts() []time.Time {
	at := *r.m.Weather.At
	sound := func(c conditions) bool { return c.sound() }
	settled := func(c conditions) bool { return !c.inverted() }
	later := r.stretchesOf(at, at.Add(startWithin+longestDay))
	earlier := func() []stretchOfDay { return r.stretchesOf(at.Add(-startWithin), at) }
	for _, times := range []func() []time.Time{
		func() []time.Time { return r.toCome(joinedHours(later, sound)) },
		func() []time.Time { return r.toCome(joinedHours(later, settled)) },
		func() []time.Time { return r.past(joinedHours(earlier(), sound)) },
		func() []time.Time { return r.past(joinedHours(earlier(), settled)) },
	} {
		if found := times(); len(found) > 0 {
			return found
		}
	}
	return nil
}

// toCome lists the starts in hours to come, the best first.
func (r *rooms) toCome(hours []hoursOfDay) []time.Time {
	at, takes := *r.m.Weather.At, r.session()
	var all []hoursOfDay
	for _, h := range hours {
		start := quarterAfter(h.from)
		if !h.from.After(at) || start.Sub(at) > startWithin || !start.Before(h.to) {
			continue
		}
		all = append(all, hoursOfDay{start, h.to})
	}
	slices.SortStableFunc(all, func(a, b hoursOfDay) int { return compareHours(a, b, takes) })
	return startsOf(all, at)
}

// past lists the starts in hours gone by, the best first: as late as the job allows.
func (r *rooms) past(hours []hoursOfDay) []time.Time {
	at, takes := *r.m.Weather.At, r.session()
	var all []hoursOfDay
	for _, h := range hours {
		start := quarterAfter(h.from)
		if latest := quarterBefore(h.to.Add(-takes)); takes > 0 && latest.After(start) {
			start = latest
		}
		if start.Before(h.to) && start.Before(at) {
			all = append(all, hoursOfDay{start, h.to})
		}
	}
	slices.Reverse(all) // the latest is the nearest
	slices.SortStableFunc(all, func(a, b hoursOfDay) int { return compareHours(a, b, takes) })
	return startsOf(all, at)
}

// compareHours puts hours that hold the whole job first, and of the others the longest. A job whose time is
// not known is held by none.
func compareHours(a, b hoursOfDay, takes time.Duration) int {
	short := func(h hoursOfDay) time.Duration {
		if takes > 0 && h.length() >= takes {
			return 0
		}
		return longestDay*4 - h.length()
	}
	return cmp.Compare(short(a), short(b))
}

// startsOf lists where hours begin, in the time zone of the request.
func startsOf(all []hoursOfDay, at time.Time) []time.Time {
	times := make([]time.Time, 0, len(all))
	for _, h := range all {
		times = append(times, h.from.In(at.Location()))
	}
	return times
}

func quarterBefore(t time.Time) time.Time { return t.Truncate(quarter) }

func quarterAfter(t time.Time) time.Time {
	if early := t.Truncate(quarter); early.Before(t) {
		return early.Add(quarter)
	}
	return t
}
