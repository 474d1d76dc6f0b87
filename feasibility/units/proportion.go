package units

// Proportion is a part of a whole, in the whole = 1.
type Proportion float64

// Units of Proportion; factors are exact unless the comment says otherwise.
const (
	Whole   Proportion = 1
	Percent            = Whole / 100
)

// In reports the value in the given unit.
func (q Proportion) In(unit Proportion) float64 { return float64(q) / float64(unit) }

// SI reports the bare value in the whole = 1.
func (q Proportion) SI() float64 { return float64(q) }

// Dimension names the physical dimension.
func (q Proportion) Dimension() Dimension { return DimensionProportion }

// String prints the value in the whole = 1, with its unit.
func (q Proportion) String() string { return text(float64(q), "of the whole") }

// Clamp reports the proportion held between 0 and 1.
func (q Proportion) Clamp() Proportion { return max(0, min(1, q)) }
