package air

import "tractcheck/feasibility/units"

// The strengths of the sun, as indices of a row's day classes.
const (
	weakSun = iota
	slightSun
	moderateSun
	strongSun
	sunStrengths
)

// sunTable gives the strength of the sun by its elevation; the first row that it stands above holds.
var sunTable = []struct {
	above    units.Angle
	strength int
	source   string
}{
	{60 * units.Degree, strongSun, "Turner 1964"},
	{35 * units.Degree, moderateSun, "Turner 1964"},
	{15 * units.Degree, slightSun, "Turner 1964"},
}

// sunStrength reports the strength of the sun at an elevation; below the table it is weak.
func sunStrength(elevation units.Angle) int {
	for _, row := range sunTable {
		if !units.AtMost(elevation, row.above) {
			return row.strength
		}
	}
	return weakSun
}

// windRow is a row of the stability table. Where the table names two classes (A-B) the more
// stable one is taken, because spray stays thicker in stabler air (own design).
type windRow struct {
	below                   units.Speed // at 10 m over open ground
	day                     [sunStrengths]Stability
	cloudyNight, clearNight Stability // over 4/8, and up to 4/8, of cloud
	source                  string
}

// pasquillTable is the table of Pasquill 1961. Its weak-sun column, for a sun below 15 degrees,
// is net radiation index 1 of Turner 1964 (from memory).
var pasquillTable = []windRow{
	{2 * units.MeterPerSecond, [...]Stability{SlightlyUnstable, Unstable, Unstable, VeryUnstable}, SlightlyStable, Stable, "NOAA ARL, Pasquill Stability Classes"},
	{3 * units.MeterPerSecond, [...]Stability{Neutral, SlightlyUnstable, Unstable, Unstable}, SlightlyStable, Stable, "NOAA ARL, Pasquill Stability Classes"},
	{5 * units.MeterPerSecond, [...]Stability{Neutral, SlightlyUnstable, SlightlyUnstable, Unstable}, Neutral, SlightlyStable, "NOAA ARL, Pasquill Stability Classes"},
	{6 * units.MeterPerSecond, [...]Stability{Neutral, Neutral, Neutral, SlightlyUnstable}, Neutral, Neutral, "NOAA ARL, Pasquill Stability Classes"},
}

// strongestWind is the row of winds of 6 m/s and over.
var strongestWind = windRow{0, [...]Stability{Neutral, Neutral, Neutral, SlightlyUnstable}, Neutral, Neutral, "NOAA ARL, Pasquill Stability Classes"}

// pasquillRow reports the row of a wind at 10 m. A wind at the edge of two rows is in the upper
// one, so 2.0 m/s is in "2 to 3".
func pasquillRow(wind units.Speed) windRow {
	for _, row := range pasquillTable {
		if units.StrictlyBelow(wind, row.below) {
			return row
		}
	}
	return strongestWind
}

// golderRoughest is the roughness up to which Golder's fit holds.
const golderRoughest = 50 * units.Centimeter

// golderTable holds the constants of 1/L = a + b log10(z0), 1/L in 1/m and z0 in m.
var golderTable = []struct {
	class  Stability
	a, b   float64
	source string
}{
	{VeryUnstable, -0.096, 0.029, "Golder 1972"},
	{Unstable, -0.037, 0.029, "Golder 1972"},
	{SlightlyUnstable, -0.002, 0.018, "Golder 1972"},
	{Neutral, 0, 0, "Golder 1972"},
	{SlightlyStable, 0.004, -0.018, "Golder 1972"},
	{Stable, 0.035, -0.036, "Golder 1972"},
}
