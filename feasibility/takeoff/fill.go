package takeoff

import "tractcheck/feasibility/units"

// Largest is the largest fill under every limit that applies, and the one that binds.
type Largest struct {
	Volume  units.Volume
	BoundBy LimitCode
}

// largest reports the smallest of the fill limits that apply. Where two agree within the shared
// tolerance the earlier one binds, so that processors whose last bits differ name the same limit.
func largest(in Input, dry units.Mass, all []Limit) Largest {
	var least Largest
	for _, limit := range all {
		if limit.Code == SmallUnmannedAircraft && !smallLineApplies(in, dry) ||
			limit.Code == DensityAltitude && !thinAirBinds(in) {
			continue
		}
		if least.BoundBy == "" || units.StrictlyBelow(limit.FillLimit, least.Volume) {
			least = Largest{Volume: limit.FillLimit, BoundBy: limit.Code}
		}
	}
	return least
}

// smallLineApplies reports whether the small-aircraft line bounds the fill. It does not where the
// caller holds the authority for large aircraft, nor where the aircraft is over the line with an
// empty tank: no fill brings it back, and the answer then is what the machine can lift.
func smallLineApplies(in Input, dry units.Mass) bool {
	return !in.LargeAllowed && units.StrictlyBelow(dry, SmallLine)
}

// hotDayRatio is the density ratio of dry air of 40 C at sea level: 101325/(287.05 x 313.15)/1.225
// = 0.920 (gas constant and sea-level density of the U.S. Standard Atmosphere 1976). Makers commonly
// declare their maximum up to about that temperature (0 to 40 C, from memory), so down to this
// ratio the declared maximum is taken to hold as it stands. Own choice.
const hotDayRatio units.Proportion = 0.92

// thinAirBinds reports whether the air is so thin that the estimate of what it leaves of the
// maker's maximum bounds the fill. In denser air the estimate is listed beside the other limits and
// cautioned about, but it is too rough to overrule the maker's own figure.
func thinAirBinds(in Input) bool {
	ratio, known := in.ratio()
	return known && units.StrictlyBelow(ratio, hotDayRatio)
}
