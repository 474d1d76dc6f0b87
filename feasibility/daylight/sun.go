package daylight

import (
	"math"
	"time"

	"tractcheck/feasibility/units"
)

// Julian dates of the two epochs in use.
// Source: Meeus 1998, ch. 7.
const (
	julianOfUnixEpoch = 2440587.5 // 1970 January 1, 0 h
	julianOfJ2000     = 2451545.0 // 2000 January 1, 12 h
	secondsPerDay     = 86400
	daysPerCentury    = 36525
)

// earthLag is dynamical time less universal time, taken as its value of 2017 to 2025. The sun
// moves 0.04" in a second, so even a minute of error here shifts an event by 0.2 s only.
// Source: IERS Bulletin A, difference TT - UT1 (from memory).
const earthLag = 69.0 // s

// solarParallax is the angle under which the sun sees the radius of the earth at one
// astronomical unit.
// Source: Meeus 1998, ch. 40 (8.794 seconds of arc).
const solarParallax = 8.794 / 3600 // degrees

// sight is the sun as seen from a place.
type sight struct {
	elevation units.Angle
	azimuth   units.Bearing
	hourAngle float64 // degrees, positive after the passage of the meridian, within -180 to 180
}

// look reports where the sun stands, seen from the ground and without refraction.
// Accurate to 0.01 degree. Source: Meeus 1998, ch. 13 and 40.
func look(moment time.Time, place Place) sight {
	days := julianDays(moment)
	sun := sunAt(days + earthLag/secondsPerDay)
	// Meeus 1998, ch. 13: local hour angle = sidereal time at Greenwich + east longitude - right ascension.
	hour := turn(siderealTime(days, sun) + place.Longitude.In(units.Degree) - sun.rightAscension)
	sinLat, cosLat := math.Sincos(place.Latitude.SI())
	sinDec, cosDec := math.Sincos(radians(sun.declination))
	sinHour, cosHour := math.Sincos(radians(hour))
	// Meeus 1998, eq. 13.6.
	sinAltitude := sinLat*sinDec + cosLat*cosDec*cosHour
	altitude := math.Asin(max(-1, min(1, sinAltitude)))
	// Meeus 1998, eq. 13.5, turned by 180 degrees to count from north.
	azimuth := math.Atan2(-sinHour*cosDec, cosLat*sinDec-sinLat*cosDec*cosHour)
	// Meeus 1998, ch. 40: parallax in altitude.
	altitude -= radians(solarParallax/sun.distance) * math.Cos(altitude)
	return sight{
		elevation: units.Angle(altitude),
		azimuth:   units.Bearing(azimuth).Normal(),
		hourAngle: hour,
	}
}

// sunPlace is the apparent place of the sun among the stars, in degrees and astronomical units.
type sunPlace struct {
	rightAscension, declination, distance float64
	nutation, obliquity                   float64
}

// sunAt reports the apparent place of the sun at a number of days since J2000 in dynamical time.
// Accurate to 0.01 degree. Source: Meeus 1998, ch. 25, "low accuracy".
func sunAt(days float64) sunPlace {
	t := days / daysPerCentury
	// Meeus 1998, eq. 25.2 to 25.4: mean longitude, mean anomaly, eccentricity.
	longitude := 280.46646 + t*(36000.76983+t*0.0003032)
	anomaly := 357.52911 + t*(35999.05029-t*0.0001537)
	eccentricity := 0.016708634 - t*(0.000042037+t*0.0000001267)
	// Meeus 1998, ch. 25: equation of the center.
	m := radians(anomaly)
	center := (1.914602-t*(0.004817+t*0.000014))*math.Sin(m) +
		(0.019993-t*0.000101)*math.Sin(2*m) + 0.000289*math.Sin(3*m)
	// Meeus 1998, eq. 25.5: distance.
	distance := 1.000001018 * (1 - eccentricity*eccentricity) / (1 + eccentricity*math.Cos(m+radians(center)))
	// Meeus 1998, ch. 25: apparent longitude; -0.00569 is aberration, -0.00478 sin(node) nutation.
	sinNode, cosNode := math.Sincos(radians(125.04 - 1934.136*t))
	nutation := -0.00478 * sinNode
	sinLon, cosLon := math.Sincos(radians(longitude + center - 0.00569 + nutation))
	// Meeus 1998, eq. 22.2 and 25.8: obliquity of the ecliptic.
	obliquity := 23 + 26.0/60 + (21.448-t*(46.8150+t*(0.00059-t*0.001813)))/3600 + 0.00256*cosNode
	sinObl, cosObl := math.Sincos(radians(obliquity))
	// Meeus 1998, eq. 25.6 and 25.7.
	return sunPlace{
		rightAscension: degrees(math.Atan2(cosObl*sinLon, cosLon)),
		declination:    degrees(math.Asin(sinObl * sinLon)),
		distance:       distance,
		nutation:       nutation,
		obliquity:      obliquity,
	}
}

// siderealTime reports the apparent sidereal time at Greenwich, in degrees.
// Source: Meeus 1998, eq. 12.4 and the correction for nutation of ch. 12.
func siderealTime(days float64, sun sunPlace) float64 {
	t := days / daysPerCentury
	// The whole days are taken apart from the turn of the earth to keep the digits.
	whole, part := math.Modf(days)
	mean := 280.46061837 + 0.98564736629*whole + 360.98564736629*part + t*t*(0.000387933-t/38710000)
	return mean + sun.nutation*math.Cos(radians(sun.obliquity))
}

// julianDays reports the days since J2000 in universal time.
func julianDays(moment time.Time) float64 {
	seconds := float64(moment.Unix()) + float64(moment.Nanosecond())/1e9
	return seconds/secondsPerDay + (julianOfUnixEpoch - julianOfJ2000)
}

// turn reports an angle in degrees brought to within -180 to 180.
func turn(angle float64) float64 { return math.Remainder(angle, 360) }

func radians(angle float64) float64 { return angle * (math.Pi / 180) }

func degrees(angle float64) float64 { return angle * (180 / math.Pi) }
