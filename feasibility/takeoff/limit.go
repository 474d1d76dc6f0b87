package takeoff

import "tractcheck/feasibility/units"

// LimitCode names a limit on the takeoff weight or the fill.
type LimitCode string

// The limits.
const (
	SmallUnmannedAircraft LimitCode = "small_unmanned_aircraft"
	MakerMaximum          LimitCode = "maker_maximum"
	DensityAltitude       LimitCode = "density_altitude"
	TankCapacity          LimitCode = "tank_capacity"
)

// SmallLine is the weight a small unmanned aircraft must stay under on takeoff, everything on
// board or otherwise attached: 55 lb = 24.94758035 kg exactly. 14 CFR 107.3.
const SmallLine = 55 * units.Pound

// hair is how far under a strict limit the largest fill stops, as a part of the limit: one part
// in a million, 0.000055 lb (25 mg) at the 55 lb line. Own choice: far above the shared tolerance
// of one part in a billion, far below what any scale shows.
const hair = 1e-6

// Limit is one limit and how the load stands to it. For tank_capacity Limit and Margin are the
// mass of the liquid the tank holds; FillLimit is always the largest fill under this limit alone.
type Limit struct {
	Code      LimitCode
	Limit     units.Mass
	Margin    units.Mass // positive on the safe side
	Strict    bool       // the weight must be less than the limit, not equal to it
	Within    bool
	FillLimit units.Volume // not below zero; for a strict limit, a hair under it
}

// load is one state of the scale.
type load struct {
	dry     units.Mass // everything but the liquid
	density units.Density
	fill    units.Volume
}

// liquid reports the mass of the liquid.
func (l load) liquid() units.Mass { return l.density.Mass(l.fill) }

// total reports the mass of everything.
func (l load) total() units.Mass { return l.dry + l.liquid() }

// limits reports every limit that can be stated for the input, in the fixed order small aircraft,
// maker, density altitude (only where the air is known), tank, as they stand to a load.
func limits(in Input, l load) []Limit {
	all := make([]Limit, 0, 4)
	all = append(all,
		weightLimit(SmallUnmannedAircraft, SmallLine, true, l),
		weightLimit(MakerMaximum, in.Aircraft.MaxTakeoffWeight, false, l))
	if ratio, known := in.ratio(); known {
		all = append(all, weightLimit(DensityAltitude, derated(in.Aircraft.MaxTakeoffWeight, ratio), false, l))
	}
	return append(all, tankLimit(in.Aircraft.TankCapacity, l))
}

// derated reports what thin air leaves of the maker's maximum: at a fixed rotor speed thrust goes
// as air density, so a maximum declared at sea level falls by the density ratio. Dense air adds
// nothing to it. An estimate (from memory; blade-element theory), labeled so wherever it is used.
func derated(maximum units.Mass, ratio units.Proportion) units.Mass {
	return units.Mass(float64(maximum) * float64(min(units.Whole, ratio)))
}

// weightLimit holds the total against a limit on the total.
func weightLimit(code LimitCode, limit units.Mass, strict bool, l load) Limit {
	within := units.AtMost(l.total(), limit)
	if strict {
		within = units.StrictlyBelow(l.total(), limit)
	}
	return Limit{
		Code:      code,
		Limit:     limit,
		Margin:    limit - l.total(),
		Strict:    strict,
		Within:    within,
		FillLimit: fillUnder(limit, strict, l),
	}
}

// fillUnder reports the largest fill under one limit on the total, never below zero.
func fillUnder(limit units.Mass, strict bool, l load) units.Volume {
	if strict {
		limit = units.Mass(float64(limit) * (1 - hair))
	}
	// Largest fill = (limit - everything else) / density.
	return max(0, l.density.Volume(limit-l.dry))
}

// tankLimit holds the fill against the tank.
func tankLimit(capacity units.Volume, l load) Limit {
	holds := l.density.Mass(capacity)
	return Limit{
		Code:      TankCapacity,
		Limit:     holds,
		Margin:    holds - l.liquid(),
		Within:    units.AtMost(l.fill, capacity),
		FillLimit: max(0, capacity),
	}
}

// find reports the limit of a code; the zero Limit where the input states none.
func find(all []Limit, code LimitCode) (Limit, bool) {
	for _, limit := range all {
		if limit.Code == code {
			return limit, true
		}
	}
	return Limit{}, false
}
