package spray

import (
	"math"

	"tractcheck/feasibility/units"
)

// Class is a droplet size class of ASABE S572 and ISO 25358, finest to coarsest.
type Class string

// The classes.
const (
	ExtremelyFine   Class = "extremely_fine"
	VeryFine        Class = "very_fine"
	Fine            Class = "fine"
	Medium          Class = "medium"
	Coarse          Class = "coarse"
	VeryCoarse      Class = "very_coarse"
	ExtremelyCoarse Class = "extremely_coarse"
	UltraCoarse     Class = "ultra_coarse"
)

// nearBoundary is how close to a boundary, as a share of it, a size may lie before both classes
// are named. Own choice: about the spread between published renderings of one boundary.
const nearBoundary units.Proportion = 0.10

// Known reports whether c is one of the eight classes.
func (c Class) Known() bool { return c.rank() >= 0 }

// CoarserThan reports whether c is a coarser class than other. It is false where either is not
// one of the eight classes.
func (c Class) CoarserThan(other Class) bool {
	return c.Known() && other.Known() && c.rank() > other.rank()
}

// rank counts the classes from the finest, 0, to the coarsest, 7; -1 is no class.
func (c Class) rank() int {
	for i := range classRows {
		if classRows[i].Class == c {
			return i
		}
	}
	return -1
}

// scale picks which of the two published renderings of the boundaries a size is held against.
type scale bool

const (
	modelScale    scale = false // the default model's own sizes of the reference nozzles
	measuredScale scale = true  // the widely reproduced table, for sizes from an instrument
)

// from reports the finest Dv0.5 of a class on the scale.
func (s scale) from(class int) units.Length {
	if s == measuredScale {
		return classRows[class].MeasuredFrom
	}
	return classRows[class].ModelFrom
}

// classify names the class of a Dv0.5 and, where it lies within 10 % of a boundary, the class on
// the other side of the nearest one (else empty).
//
// Virk et al. 2021 put 236 um itself into the coarser class, so a size on a boundary counts as
// the coarser. Between 105 and 143 um published tables disagree whether a measured spray is very
// fine or fine; the finer is named, because it drifts more, and the other beside it.
func (s scale) classify(dv05 units.Length) (class, other Class) {
	rank := 0
	for i := 1; i < len(classRows); i++ {
		if units.AtLeast(dv05, s.from(i)) {
			rank = i
		}
	}
	class = classRows[rank].Class
	nearest := nearBoundary.SI() * (1 + units.Tolerance)
	for i := 1; i < len(classRows); i++ {
		off := math.Abs(dv05.SI()/s.from(i).SI() - 1)
		if off > nearest {
			continue
		}
		nearest = off
		other = classRows[i-1].Class
		if i > rank {
			other = classRows[i].Class
		}
	}
	if s == measuredScale && other == "" && class == VeryFine && units.AtLeast(dv05, fineFromStrict) {
		other = Fine
	}
	return class, other
}

// middle reports a typical Dv0.5 of a declared class, the geometric middle of its boundaries,
// and how far the boundaries lie from it. The two open classes take the ratio of the boundaries
// next to them (extremely fine) or their one boundary (ultra coarse). Own choice.
func (c Class) middle() (dv05 units.Length, halfWidth units.Proportion) {
	rank := max(0, c.rank())
	var low, high units.Length
	switch rank {
	case 0:
		high = classRows[1].ModelFrom
		low = high * (classRows[1].ModelFrom / classRows[2].ModelFrom)
	case len(classRows) - 1:
		low = classRows[rank].ModelFrom
		high = low
	default:
		low, high = classRows[rank].ModelFrom, classRows[rank+1].ModelFrom
	}
	// Geometric, because drop sizes spread by ratios: as far from the one boundary as from the other.
	ratio := math.Sqrt(high.SI() / low.SI())
	return low * units.Length(ratio), units.Proportion(ratio - 1)
}
