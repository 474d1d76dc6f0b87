package units

import "math"

// Length is a distance, in meters.
type Length float64

// Units of Length; factors are exact unless the comment says otherwise.
const (
	Meter      Length = 1
	Centimeter        = Meter / 100
	Kilometer         = 1000 * Meter
	Micrometer        = Meter / 1e6
	Foot              = 0.3048 * Meter // international foot; 85 FR 62698 (2020), exact
	Inch              = Foot / 12
	Mile              = 5280 * Foot
)

// In reports the value in the given unit.
func (q Length) In(unit Length) float64 { return float64(q) / float64(unit) }

// SI reports the bare value in meters.
func (q Length) SI() float64 { return float64(q) }

// Dimension names the physical dimension.
func (q Length) Dimension() Dimension { return DimensionLength }

// String prints the value in meters, with its unit.
func (q Length) String() string { return text(float64(q), "m") }

// By reports the area of a rectangle with sides q and width.
func (q Length) By(width Length) Area { return Area(float64(q) * float64(width)) }

// Area is a surface, in square meters.
type Area float64

// Units of Area; factors are exact unless the comment says otherwise.
const (
	SquareMeter Area = 1
	Hectare          = 10000 * SquareMeter
	Acre             = 43560 * Area(float64(Foot)*float64(Foot)) // international acre, 4046.8564224 m2; 85 FR 62698 (2020)
)

// In reports the value in the given unit.
func (q Area) In(unit Area) float64 { return float64(q) / float64(unit) }

// SI reports the bare value in square meters.
func (q Area) SI() float64 { return float64(q) }

// Dimension names the physical dimension.
func (q Area) Dimension() Dimension { return DimensionArea }

// String prints the value in square meters, with its unit.
func (q Area) String() string { return text(float64(q), "m2") }

// Volume is a capacity, in cubic meters.
type Volume float64

// Units of Volume; factors are exact unless the comment says otherwise.
const (
	CubicMeter Volume = 1
	Liter             = CubicMeter / 1000
	Milliliter        = CubicMeter / 1e6
	Gallon            = 3.785411784 * Liter // US liquid gallon, 231 cubic inches; NIST SP 811 (2008) B.8
	FluidOunce        = Gallon / 128        // US
)

// In reports the value in the given unit.
func (q Volume) In(unit Volume) float64 { return float64(q) / float64(unit) }

// SI reports the bare value in cubic meters.
func (q Volume) SI() float64 { return float64(q) }

// Dimension names the physical dimension.
func (q Volume) Dimension() Dimension { return DimensionVolume }

// String prints the value in cubic meters, with its unit.
func (q Volume) String() string { return text(float64(q), "m3") }

// Over reports the rate when the volume is spread evenly over an area; area must be positive.
func (q Volume) Over(a Area) ApplicationRate { return ApplicationRate(float64(q) / float64(a)) }

// Angle is a plane angle that does not wrap, in radians.
type Angle float64

// Units of Angle; factors are exact unless the comment says otherwise.
const (
	Radian Angle = 1
	Degree       = Radian * math.Pi / 180
)

// In reports the value in the given unit.
func (q Angle) In(unit Angle) float64 { return float64(q) / float64(unit) }

// SI reports the bare value in radians.
func (q Angle) SI() float64 { return float64(q) }

// Dimension names the physical dimension.
func (q Angle) Dimension() Dimension { return DimensionAngle }

// String prints the value in radians, with its unit.
func (q Angle) String() string { return text(float64(q), "rad") }

// Bearing is a direction clockwise from true north, in radians.
type Bearing float64

// Units of Bearing; factors are exact unless the comment says otherwise.
const (
	BearingDegree Bearing = math.Pi / 180
)

// In reports the value in the given unit.
func (q Bearing) In(unit Bearing) float64 { return float64(q) / float64(unit) }

// SI reports the bare value in radians.
func (q Bearing) SI() float64 { return float64(q) }

// Dimension names the physical dimension.
func (q Bearing) Dimension() Dimension { return DimensionAngle }

// String prints the value in radians, with its unit.
func (q Bearing) String() string { return text(float64(q), "rad") }

// Normal reports the same direction in [0, 2 pi).
func (q Bearing) Normal() Bearing {
	r := math.Mod(float64(q), 2*math.Pi)
	if r < 0 {
		r += 2 * math.Pi
	}
	return Bearing(r)
}

// Opposite reports the direction half a turn away, in [0, 2 pi).
func (q Bearing) Opposite() Bearing { return (q + math.Pi).Normal() }

// Between reports the smaller angle between two directions, in [0, pi].
func (q Bearing) Between(other Bearing) Angle {
	d := math.Abs(float64((q - other).Normal()))
	return Angle(min(d, 2*math.Pi-d))
}
