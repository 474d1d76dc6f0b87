// Package daylight works out where the sun stands and what the clock means for flying and
// spraying: sunrise, sunset, civil twilight, the phases of the day that the aviation rules tell
// apart, and the hours in which the air is apt to be stable.
//
// In goes a moment and a [Place]; out comes a [Light]. The sun's place is that of Meeus,
// Astronomical Algorithms, 2nd edition 1998, chapters 3, 12, 13, 25 and 40; the zenith distances of
// the events are those of the U.S. Naval Observatory, Almanac for Computers 1990.
//
// Conditions held throughout: WGS 84 latitude, a level horizon at sea level, standard refraction
// of 34' and a solar radius of 16' at sunrise and sunset, no refraction in SunElevation, and
// universal time taken as UTC (they differ by less than 0.9 s). Accuracy is 0.01 degree, which is
// about 3 s in the time of an event at 40 degrees of latitude and more where the sun crosses the
// horizon at a slant. Hills, trees and weather move the moment the sun is really seen by minutes.
//
// In the polar summer a low sun can let the air grow stable without a sunset; no hour says so here.
//
// Where the sun does not cross an altitude on the day, the event is nil. Years before 1800 or
// after 2200, and a latitude that is none, give the phase [Unknown].
//
// The air room takes the sun's elevation and the two stability hours from here, and the permits
// room takes the phase.
package daylight
