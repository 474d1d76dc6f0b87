package daylight

import (
	"time"

	"tractcheck/feasibility/units"
)

// Place is a point on the ground, WGS 84, latitude positive north and longitude positive east.
type Place struct {
	Latitude  units.Angle
	Longitude units.Angle
}

// Light is the daylight at a moment and place.
type Light struct {
	Phase        Phase
	SunElevation units.Angle // geometric, above the horizon, without refraction
	SunAzimuth   units.Bearing
	Sunrise      *time.Time // official, of the local solar day that holds the moment; nil where the sun does not rise
	Sunset       *time.Time
	CivilDawn    *time.Time // sun 6 degrees down, rising
	CivilDusk    *time.Time

	known    bool
	place    Place
	moment   time.Time
	official track // the sun against the horizon
	civil    track // the sun against 6 degrees below the horizon
}

// The years within which the series for the sun are used.
const (
	firstYear = 1800
	lastYear  = 2200
)

// At reports the daylight at a moment and place: the sun's position, the events of the local
// solar day (from one passage of the sun under the pole to the next) in the time zone of the
// moment and to the whole second, and the phase of the day outside Alaska.
//
// Latitude runs from -90 to 90 degrees; longitude may be any angle. A latitude outside that, or a
// year outside 1800 to 2200, gives the phase Unknown and nothing else. Accuracy is 0.01 degree of
// position, about 3 s of time at 40 degrees of latitude.
//
// Source: Meeus 1998, ch. 12, 13, 25, 40; USNO, Almanac for Computers 1990; 14 CFR 107.29, 14 CFR 1.1.
func At(moment time.Time, place Place) Light {
	if !computable(moment, place) {
		return Light{Phase: Unknown}
	}
	light := Light{known: true, place: place, moment: moment}
	now := look(moment, place)
	light.SunElevation, light.SunAzimuth = now.elevation, now.azimuth

	sky := over(moment, place, now.hourAngle)
	light.official = sky.crossings(officialAltitude)
	light.civil = sky.crossings(civilAltitude)
	light.Sunrise, light.Sunset = light.official.ofDay(rising), light.official.ofDay(setting)
	light.CivilDawn, light.CivilDusk = light.civil.ofDay(rising), light.civil.ofDay(setting)
	light.Phase = light.phase(light.withinRule)
	return light
}

func computable(moment time.Time, place Place) bool {
	year := moment.UTC().Year()
	return year >= firstYear && year <= lastYear &&
		units.Finite(place.Longitude) && units.AtMost(max(place.Latitude, -place.Latitude), 90*units.Degree)
}
