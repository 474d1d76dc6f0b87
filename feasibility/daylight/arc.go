package daylight

import (
	"math"
	"time"

	"tractcheck/feasibility/units"
)

// turnPerSecond is how fast the sky turns over a place, in degrees a second.
// Source: Meeus 1998, eq. 12.4 (360.98564736629 degrees a day).
const turnPerSecond = 360.98564736629 / secondsPerDay

// arc is the sun's way over one place for a day and a bit, without looking the sun up at every
// moment: among the stars it moves so evenly that three places, a node apart, tell all between.
//
// Source: Meeus 1998, ch. 3, interpolation from three values. Its error is below 0.00001 degree.
type arc struct {
	middle         time.Time
	sinLat, cosLat float64
	hour           [3]float64 // hour angle at the nodes, the even turn of the sky taken off, degrees
	declination    [3]float64 // radians
	parallax       float64    // radians
}

// node is the time between two of the places, in seconds: the search for events reaches 14 h to
// either side of noon.
const node = 14 * 3600

// newArc reports the arc around a moment.
func newArc(middle time.Time, place Place) arc {
	a := arc{middle: middle}
	a.sinLat, a.cosLat = math.Sincos(place.Latitude.SI())
	days := julianDays(middle)
	for i := range a.hour {
		at := float64(i-1) * node
		sun := sunAt(days + (at+earthLag)/secondsPerDay)
		hour := siderealTime(days+at/secondsPerDay, sun) + place.Longitude.In(units.Degree) - sun.rightAscension
		a.hour[i] = hour - turnPerSecond*at
		a.declination[i] = radians(sun.declination)
		if i == 1 {
			a.parallax = radians(solarParallax / sun.distance)
		}
	}
	// One turn for all three, so that they lie beside each other.
	a.hour[1] = turn(a.hour[1])
	a.hour[0] = a.hour[1] + turn(a.hour[0]-a.hour[1])
	a.hour[2] = a.hour[1] + turn(a.hour[2]-a.hour[1])
	return a
}

// moment reports the time of a place on the arc, in seconds from its middle.
func (a *arc) moment(at float64) time.Time {
	return a.middle.Add(time.Duration(at * float64(time.Second)))
}

// altitude reports the altitude of the sun's center at a place on the arc: look's elevation.
func (a *arc) altitude(at float64) units.Angle {
	n := at / node
	sinDec, cosDec := math.Sincos(between(&a.declination, n))
	cosHour := math.Cos(radians(between(&a.hour, n) + turnPerSecond*at))
	// Meeus 1998, eq. 13.6; ch. 40: parallax in altitude.
	altitude := math.Asin(max(-1, min(1, a.sinLat*sinDec+a.cosLat*cosDec*cosHour)))
	return units.Angle(altitude - a.parallax*math.Cos(altitude))
}

// between reports a value between three, -1 at the first and 1 at the last. Meeus 1998, eq. 3.3.
func between(y *[3]float64, n float64) float64 {
	a, b := y[1]-y[0], y[2]-y[1]
	return y[1] + n/2*(a+b+n*(b-a))
}
