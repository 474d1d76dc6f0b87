package drift

import (
	"math"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

const (
	// defaultNonvolatile is the volume share of the spray that never evaporates where none is stated.
	// Own design, low: tank mixes at 2 to 5 gal/ac hold more, and less residue makes smaller drops.
	defaultNonvolatile = 0.02
	// defaultLength is the field's extent along the wind where neither it nor the area is stated: a
	// quarter mile. Own design.
	defaultLength = 0.25 * units.Mile
	// longest is the extent along the wind beyond which more field adds nothing that is computed.
	longest = 5000.0
	// lowest and highest bound the release heights the room computes, m above the crop.
	lowest  = 0.2
	highest = 50.0
)

// nonvolatileShare is the share of the spray that stays when the water is gone.
func nonvolatileShare(s Spray) float64 {
	if s.Nonvolatile == nil {
		return defaultNonvolatile
	}
	return hold(s.Nonvolatile.SI(), 1e-4, 1, 1e-4)
}

// extent is the field's length along the wind, m: at least one swath. A calm has no direction to count
// on, and the field then counts as lying the long way along it.
func extent(in Input) float64 {
	swath := hold(in.Release.Swath.SI(), 0.5, longest, 0.5)
	switch g := in.Ground; {
	case g.Along != nil && (!isCalm(in) || g.Longest == nil):
		return hold(g.Along.SI(), swath, longest, swath)
	case g.Longest != nil:
		return hold(g.Longest.SI(), swath, longest, swath)
	case g.Area != nil:
		return hold(math.Sqrt(max(0, g.Area.SI())), swath, longest, swath)
	default:
		return max(swath, defaultLength.SI())
	}
}

// acrossWind reports whether the lines are known to run across the wind: as stated, or by the
// course within 45 degrees of square to it.
func acrossWind(in Input) bool {
	if in.Release.Crosswind != nil {
		return *in.Release.Crosswind
	}
	if in.Release.Course == nil {
		return false
	}
	off := in.Release.Course.Between(in.WindFrom)
	return off > 45*units.Degree && off < 135*units.Degree
}

// stateAssumptions says what was taken for facts that are missing.
func stateAssumptions(in Input, book *ledger) {
	if in.Spray.Nonvolatile == nil {
		book.assume(finding.Assumption{Subject: atLoad, Source: sourceFormulation,
			Assumed: "2 % of the spray volume does not evaporate",
			Settle:  "a richer mix shrinks less and drifts a little less; the product labels give the solids and oils in it"})
	}
	if in.Release.UnderRotors == nil && in.Release.Mass != nil && in.Release.DiscArea != nil {
		book.assume(finding.Assumption{Subject: atPlacement, Source: sourceDesign,
			Assumed: "nozzles on a boom, where more spray misses the rotor wake",
			Settle:  "send whether the nozzles sit under the rotors or on a boom"})
	}
	if in.Release.Crosswind == nil && in.Release.Course == nil {
		book.assume(finding.Assumption{Subject: atCrosswind, Source: sourceDesign,
			Assumed: "the wake throws spray as far down the wind as with lines across it",
			Settle:  "send the course of the lines, or whether they run across the wind; the advice on the pattern follows from it"})
	}
	if in.Ground.Along == nil {
		assumed, settle := "the field runs 1,320 ft along the wind", "send the field's boundary, or its area"
		switch {
		case in.Ground.Shortest != nil:
			assumed, settle = "for drift, the field's longer side lies along the wind", "send the field's boundary; where the longer side lies across the wind, there is a little less drift"
		case in.Ground.Area != nil:
			assumed, settle = "for drift, the field reaches as far along the wind as a square of its area does", "send the field's boundary; where it is much longer along the wind than across, count on somewhat more drift"
		}
		book.assume(finding.Assumption{Subject: atArea, Assumed: assumed, Settle: settle, Source: sourceDesign})
	}
}
