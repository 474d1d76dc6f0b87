package daylight

import "time"

// The stretches around sunrise and sunset in which the air is apt to be stable.
const (
	// afterSunrise ends both: an hour after sunrise the ground has warmed.
	// Source: NOAA Air Resources Laboratory, Pasquill Stability Classes; GRDC 2025, module 10.8.
	afterSunrise = time.Hour
	// beforeSunsetClass begins the "night" of the stability classes.
	// Source: NOAA Air Resources Laboratory, Pasquill Stability Classes.
	beforeSunsetClass = time.Hour
	// beforeSunsetInversion begins the hours in which inversions are usual. The source says one
	// to two hours; the longer is taken.
	// Source: GRDC 2025, Spray Application Manual, module 10.8.
	beforeSunsetInversion = 2 * time.Hour
)

// NightForStability reports whether a moment lies in the "night" of the Pasquill stability
// classes, from one hour before sunset to one hour after sunrise. Where the sun stays up all day
// it is false, and where it stays down all day it is true. For an Unknown light it is true, the
// careful reading.
//
// Source: NOAA Air Resources Laboratory, Pasquill Stability Classes.
func (l Light) NightForStability(moment time.Time) bool {
	return l.nearNight(moment, beforeSunsetClass)
}

// InversionHours reports whether a moment lies in the hours in which temperature inversions are
// usual, from two hours before sunset to one hour after sunrise. It reads polar days and Unknown
// lights as NightForStability does.
//
// Source: GRDC 2025, Spray Application Manual, module 10.8.
func (l Light) InversionHours(moment time.Time) bool {
	return l.nearNight(moment, beforeSunsetInversion)
}

// nearNight reports whether the sun is down, or sets within a stretch after the moment, or rose
// less than an hour before it.
func (l Light) nearNight(moment time.Time, beforeSunset time.Duration) bool {
	if !l.known {
		return true
	}
	if moment.Before(l.official.start) || !moment.Before(l.official.end) {
		l = At(moment, l.place)
		if !l.known {
			return true
		}
	}
	if !l.official.above(moment) {
		return true
	}
	for _, event := range l.official.events {
		before, after := event.at.Sub(moment), moment.Sub(event.at)
		if event.direction == setting && before > 0 && before <= beforeSunset ||
			event.direction == rising && after >= 0 && after < afterSunrise {
			return true
		}
	}
	return false
}
