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
	// sharpness is how closely a crossing or a turning point is enclosed.
	sharpness = 50 * time.Millisecond
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
	for _, event := range k.events {
		if event.direction == d && !event.at.Before(k.start) && event.at.Before(k.end) {
			return new(event.at)
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
		noon = noon.Add(-time.Duration(look(noon, place).hourAngle / 15 * float64(time.Hour)))
	}
	return noon
}

// glance is the sun's altitude at a moment.
type glance struct {
	at       time.Time
	altitude units.Angle
}

// sky is the sun's altitude sampled over a solar day and its margins.
type sky struct {
	place      Place
	zone       *time.Location
	start, end time.Time // of the solar day
	samples    []glance
}

func sample(moment time.Time, place Place, noon time.Time) sky {
	s := sky{place: place, zone: moment.Location(), start: noon.Add(-halfDay), end: noon.Add(halfDay)}
	s.samples = make([]glance, 0, int((2*halfDay+2*margin)/step)+1)
	for t := s.start.Add(-margin); !t.After(s.end.Add(margin)); t = t.Add(step) {
		s.samples = append(s.samples, s.glance(t))
	}
	return s
}

func (s sky) glance(t time.Time) glance { return glance{t, look(t, s.place).elevation} }

// crossings finds every passage of the sun through an altitude. Short arcs that rise above and
// fall below it between two samples are found too: where a sample is the highest or lowest of
// its neighbors, the turning point itself is looked up.
func (s sky) crossings(altitude units.Angle) track {
	k := track{start: s.start, end: s.end, high: s.samples[0].altitude >= altitude}
	from := s.samples[0]
	for i, to := range s.samples[1:] {
		if around := s.samples[i:]; turnsUnseen(around, altitude) {
			turn := s.turningPoint(from.at, around[2].at, to.altitude < altitude)
			k.events = append(k.events, s.passage(from, turn, altitude)...)
			from = turn
		}
		if from.at.Before(to.at) {
			k.events = append(k.events, s.passage(from, to, altitude)...)
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

// turningPoint finds the highest (or lowest) altitude between two moments by golden section.
func (s sky) turningPoint(from, to time.Time, highest bool) glance {
	sign := units.Angle(1)
	if !highest {
		sign = -1
	}
	for to.Sub(from) > time.Second {
		part := time.Duration(float64(to.Sub(from)) / math.Phi)
		left, right := to.Add(-part), from.Add(part)
		if sign*s.glance(left).altitude > sign*s.glance(right).altitude {
			to = right
		} else {
			from = left
		}
	}
	return s.glance(from.Add(to.Sub(from) / 2))
}

// passage finds the moment between two glances, within which the altitude only rises or only
// falls, at which the sun passes it, by halving. It is empty where both lie on one side.
func (s sky) passage(from, to glance, altitude units.Angle) []crossing {
	falling := from.altitude >= altitude
	if falling == (to.altitude >= altitude) {
		return nil
	}
	for to.at.Sub(from.at) > sharpness {
		middle := s.glance(from.at.Add(to.at.Sub(from.at) / 2))
		if (middle.altitude >= altitude) == falling {
			from = middle
		} else {
			to = middle
		}
	}
	c := crossing{at: to.at.Round(time.Second).In(s.zone), direction: rising}
	if falling {
		c.direction = setting
	}
	return []crossing{c}
}
