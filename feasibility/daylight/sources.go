package daylight

import "tractcheck/feasibility/finding"

// Sources lists what the daylight stands on, in a fixed order.
func Sources() []finding.Source {
	return []finding.Source{
		{
			ID:       "meeus-1998",
			Citation: "Meeus 1998, Astronomical Algorithms, 2nd edition, ch. 3, 12, 13, 25 and 40",
			Standing: finding.FromMemory, // checked against an independent ephemeris, testdata/published/sun-events.csv
		},
		{
			ID:       "usno-almanac-1990",
			Citation: "U.S. Naval Observatory 1990, Almanac for Computers: zenith distances 90 deg 50' and 96 deg",
			Standing: finding.Read,
		},
		{
			ID:       "14-cfr-107.29",
			Citation: "14 CFR 107.29, Operation at night: civil twilight is 30 minutes before official sunrise and after official sunset, in Alaska that of the almanac",
			Standing: finding.Read,
		},
		{
			ID:       "14-cfr-1.1",
			Citation: "14 CFR 1.1, General definitions: night, from the end of evening to the beginning of morning civil twilight",
			Standing: finding.Read,
		},
		{
			ID:       "noaa-arl-pasquill",
			Citation: "NOAA Air Resources Laboratory, Pasquill Stability Classes, after Pasquill 1961: night runs from 1 h before sunset to 1 h after sunrise",
			Standing: finding.Read,
		},
		{
			ID:       "grdc-2025-10.8",
			Citation: "GRDC 2025, Spray Application Manual, module 10.8: inversions from 1-2 h before sunset until about 1 h after sunrise",
			Standing: finding.Read,
		},
	}
}
