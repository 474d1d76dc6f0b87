// Package air works out the state of the air at a job from what is known of the weather: station
// pressure, density and density altitude, wet bulb and its depression, stability, temperature
// inversion, and the wind at any height.
//
// In goes an [Observation], with nil for what was not stated; out comes a [State] with its
// findings, its assumptions and its sources. Each method carries its own reference; the sources
// are listed in sources.go. In short: the U.S. Standard Atmosphere 1976; the ideal mixture of dry
// air and vapor; saturation over water by Buck 1996; the psychrometric equation of WMO No. 8;
// stability by Pasquill 1961 and Turner 1964, or by the stability ratio of Yates, Akesson and
// Coutts where two temperatures were measured; Golder 1972 for the Obukhov length; and the
// surface-layer profiles of Businger, Dyer and Webb for the wind.
//
// # Conditions
//
// The standard atmosphere up to 11 km; -40 to 60 C; a level field with one crop, long enough for
// the wind to settle to it. Values outside what can occur on farmland are held at the nearest
// value that can, and a finding asks for the right one.
//
// # Cautions
//
// A stability class is inferred, not measured, and is about one class uncertain. An inversion is
// judged in this order: what was measured, what the caller saw, the class, the hour. Where a fact
// that would settle it is missing, or the two temperatures measured hardly differ, the answer is
// [InversionPossible], never [InversionAbsent], and the fact is needed before the job.
// The stability ratio steers only the wind profile; it decides no stop, because its bounds were
// not read again in the source. The wind profile holds over a long level field: beside a tree
// line, a levee or a building the true wind swirls and is not described here.
//
// Limits of wind and of wet-bulb depression belong to the drift room, which comes next with spray.
package air
