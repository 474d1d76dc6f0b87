package daylight

import (
	"math"
	"time"

	"tractcheck/feasibility/units"
)

// The altitudes of the sun's center that make the events, at zenith distances 90 degrees 50'
// (refraction 34', radius 16') and 96 degrees.
// Source: USNO, Almanac for Computers 1990.
const (
	officialAltitude = -units.Degree * 50 / 60
	civilAltitude    = -6 * units.Degree
)

const (
	halfDay = 12 * time.Hour
	// margin is how far the search for events reaches past the solar day on either side: the
	// longest stretch that any rule here counts from a sunrise or a sunset.
	margin = 2 * time.Hour
	// step is the spacing of the samples. The altitude is close to a sine of one turn a day, so
	// it has at most one turning point between neighbors.
	step = time.Hour
	// sharpness is how closely a crossing is enclosed, in seconds.
	sharpness = 1e-3
	// exact is an altitude off by so little, in radians, that the sun passes it within a microsecond
	// or two; after quick steps the search only halves.
	exact = 1e-10
	quick = 20
)

// direction is the way the sun crosses an altitude.
type direction int

const (
	rising direction = iota
	setting
)

// crossing is one passage of the sun through an altitude, to the whole second.
type crossing struct {
	at        time.Time
	direction direction
}

// track is all passages through one altitude over the solar day and its margins, in order.
type track struct {
	events     []crossing
	start, end time.Time // of the solar day
	high       bool      // above the altitude at the start of the search
}

// above reports whether the sun stands above the altitude at a moment of the search. A moment
// that is an event counts to what comes after it.
func (k track) above(moment time.Time) bool {
	high := k.high
	for _, event := range k.events {
		if moment.Before(event.at) {
			break
		}
		high = event.direction == rising
	}
	return high
}

// ofDay reports the first passage in a direction within the solar day, or nil.
func (k track) ofDay(d direction) *time.Time {
	for i, event := range k.events {
		if event.direction == d && !event.at.Before(k.start) && event.at.Before(k.end) {
			return &k.events[i].at
		}
	}
	return nil
}

// noonOf reports the passage of the meridian in the solar day that holds the moment, within a
// second: the sun's hour angle grows by 15 degrees an hour, but for the drift of the equation of
// time of up to 30 s a day, which the rounds after the first take up.
func noonOf(moment time.Time, place Place) time.Time {
	noon := moment
	for range 3 {
		noon = noon.Add(-toNoon(look(noon, place).hourAngle))
	}
	return noon
}

// toNoon reports how long ago the sun passed the meridian, from its hour angle in degrees.
func toNoon(hourAngle float64) time.Duration {
	return time.Duration(hourAngle / 15 * float64(time.Hour))
}

// glance is the sun's altitude at a moment.
type glance struct {
	at       float64 // s from the sky's middle
	altitude units.Angle
}

// sky is the sun over a solar day and its margins.
type sky struct {
	arc        arc
	zone       *time.Location
	start, end time.Time // of the solar day
	samples    [samples]glance
}

// samples is how many glances reach over the solar day and its margins.
const samples = int((2*halfDay+2*margin)/step) + 1

// over readies the sky around a moment: its solar day runs from half a day before the passage of
// the meridian to half a day after. The sun there is the hour angle at the moment, in degrees.
func over(moment time.Time, place Place, hourAngle float64) sky {
	near := newArc(moment.Add(-toNoon(hourAngle)), place)
	// The equation of time moved on by seconds since the moment; this takes it up.
	noon := near.middle.Add(-toNoon(near.hour[1])).Round(time.Minute)
	s := sky{arc: near, zone: moment.Location(), start: noon.Add(-halfDay), end: noon.Add(halfDay)}
	first := noon.Sub(near.middle) - halfDay - margin
	for i := range s.samples {
		s.samples[i] = s.glance((first + time.Duration(i)*step).Seconds())
	}
	return s
}

func (s *sky) glance(at float64) glance { return glance{at, s.arc.altitude(at)} }

// crossings finds every passage of the sun through an altitude. Short arcs that rise above and
// fall below it between two samples are found too: where a sample is the highest or lowest of
// its neighbors, the turning point itself is looked up.
func (s *sky) crossings(altitude units.Angle) track {
	k := track{start: s.start, end: s.end, high: s.samples[0].altitude >= altitude, events: make([]crossing, 0, 4)}
	from := s.samples[0]
	for i, to := range s.samples[1:] {
		if around := s.samples[i:]; turnsUnseen(around, altitude) {
			turn := s.turningPoint(from.at, around[2].at, to.altitude < altitude)
			k.events = s.passage(from, turn, altitude, k.events)
			from = turn
		}
		if from.at < to.at {
			k.events = s.passage(from, to, altitude, k.events)
			from = to
		}
	}
	return k
}

// turnsUnseen reports whether the second of three samples is a peak below the altitude or a
// trough above it, so that the sun may cross the altitude twice without any sample showing it.
func turnsUnseen(around []glance, altitude units.Angle) bool {
	if len(around) < 3 {
		return false
	}
	before, here, after := around[0].altitude, around[1].altitude, around[2].altitude
	peak := here < altitude && here >= before && here > after
	trough := here >= altitude && here <= before && here < after
	return peak || trough
}

// turningPoint finds the highest (or lowest) altitude between two moments, within a second, by
// golden section.
func (s *sky) turningPoint(from, to float64, highest bool) glance {
	sign := units.Angle(1)
	if !highest {
		sign = -1
	}
	for to-from > 1 {
		part := (to - from) / math.Phi
		left, right := to-part, from+part
		if sign*s.glance(left).altitude > sign*s.glance(right).altitude {
			to = right
		} else {
			from = left
		}
	}
	return s.glance((from + to) / 2)
}

// passage adds the moment between two glances, within which the altitude only rises or only
// falls, at which the sun passes it; nothing where both lie on one side. It closes in by the
// Illinois form of the false-position method, halving where that is slow.
func (s *sky) passage(from, to glance, altitude units.Angle, events []crossing) []crossing {
	falling := from.altitude >= altitude
	if falling == (to.altitude >= altitude) {
		return events
	}
	before, after := float64(from.altitude-altitude), float64(to.altitude-altitude)
	kept := 0 // the end that stayed last time: -1 from, 1 to
	for i := 0; to.at-from.at > sharpness; i++ {
		at := (from.at*after - to.at*before) / (after - before)
		if i > quick || !(at > from.at && at < to.at) {
			at = (from.at + to.at) / 2
		}
		here := s.glance(at)
		off := float64(here.altitude - altitude)
		if math.Abs(off) < exact {
			from, to = here, here
			break
		}
		if (off >= 0) == falling {
			from, before = here, off
			if kept > 0 {
				after /= 2
			}
			kept = 1
		} else {
			to, after = here, off
			if kept < 0 {
				before /= 2
			}
			kept = -1
		}
	}
	c := crossing{at: s.arc.moment((from.at + to.at) / 2).Round(time.Second).In(s.zone), direction: rising}
	if falling {
		c.direction = setting
	}
	return append(events, c)
}
