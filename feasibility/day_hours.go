package feasibility

import (
	"slices"
	"time"

	"tractcheck/feasibility/daylight"
)

// hoursOfDay is a span of time in which the time of day is good for the job.
type hoursOfDay struct{ from, to time.Time }

func (h hoursOfDay) length() time.Duration { return h.to.Sub(h.from) }

// stretchOfDay is the time from one turn of light and air to the next.
type stretchOfDay struct {
	hoursOfDay
	conditions conditions
}

// stretchesOf parts a span of time at the turns of light and air, and judges each part. The mission's time
// and place must be known.
func (r *rooms) stretchesOf(from, to time.Time) []stretchOfDay {
	place := daylight.Place{Latitude: *r.m.Weather.Latitude, Longitude: *r.m.Weather.Longitude}
	turns := []time.Time{from}
	for day := from; !day.After(to.Add(startWithin)); day = day.Add(startWithin) {
		light := daylight.At(day, place)
		turns = append(append(turns, turnsAtDawn(light)...), turnsAtDusk(light)...)
	}
	turns = slices.DeleteFunc(turns, func(t time.Time) bool { return t.Before(from) || !t.Before(to) })
	slices.SortFunc(turns, time.Time.Compare)
	turns = slices.CompactFunc(turns, time.Time.Equal)
	parts := make([]stretchOfDay, len(turns))
	for i, t := range turns {
		end := to
		if i+1 < len(turns) {
			end = turns[i+1]
		}
		parts[i] = stretchOfDay{hoursOfDay{t, end}, r.conditionsAt(t)}
	}
	return parts
}

// joinedHours are the hours that parts of a time make which are good, joined where they touch.
func joinedHours(parts []stretchOfDay, good func(conditions) bool) []hoursOfDay {
	var all []hoursOfDay
	for _, p := range parts {
		switch last := len(all) - 1; {
		case !good(p.conditions):
		case last >= 0 && all[last].to.Equal(p.from):
			all[last].to = p.to
		default:
			all = append(all, p.hoursOfDay)
		}
	}
	return all
}
