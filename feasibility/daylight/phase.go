package daylight

import "time"

// Phase is the part of the day that the aviation rules tell apart.
type Phase string

// The phases of the day.
const (
	Day      Phase = "day"      // from official sunrise to official sunset
	Twilight Phase = "twilight" // within 30 minutes before sunrise or after sunset (14 CFR 107.29)
	Night    Phase = "night"    // either definition of night holds (14 CFR 1.1 or 107.29)
	Unknown  Phase = "unknown"  // time or place is missing
)

// ruleTwilight is the length of twilight before sunrise and after sunset, outside Alaska.
// Source: 14 CFR 107.29(c)(1) and (2).
const ruleTwilight = 30 * time.Minute

// AlaskaPhase reports the phase of the day by the rule for Alaska, where twilight is the whole
// of civil twilight as the almanac publishes it. It differs from Phase only while the sun is down.
//
// Source: 14 CFR 107.29(c)(3).
func (l Light) AlaskaPhase() Phase {
	if !l.known {
		return Unknown
	}
	return l.phase(func() bool { return true })
}

// phase reports Day while the sun is up, Night while it is more than 6 degrees down (14 CFR 1.1),
// and between the two Twilight where the rule in force says so, otherwise Night. So the two
// definitions of night are joined: night begins as soon as either says so.
func (l Light) phase(twilight func() bool) Phase {
	switch {
	case l.official.above(l.moment):
		return Day
	case l.civil.above(l.moment) && twilight():
		return Twilight
	default:
		return Night
	}
}

// withinRule reports whether the moment lies within the 30 minutes of 14 CFR 107.29(c): from
// 30 minutes before official sunrise, or less than 30 minutes after official sunset.
func (l Light) withinRule() bool {
	for _, event := range l.official.events {
		before, after := event.at.Sub(l.moment), l.moment.Sub(event.at)
		if event.direction == rising && before > 0 && before <= ruleTwilight ||
			event.direction == setting && after >= 0 && after < ruleTwilight {
			return true
		}
	}
	return false
}
