package units

import "math"

// Speed is distance per time, in meters per second.
type Speed float64

// Units of Speed; factors are exact unless the comment says otherwise.
const (
	MeterPerSecond   Speed = 1
	MilePerHour            = 0.44704 * MeterPerSecond // NIST SP 811 (2008) B.8, exact
	KilometerPerHour       = MeterPerSecond / 3.6
	Knot                   = MeterPerSecond * 1852 / 3600 // international knot
)

// In reports the value in the given unit.
func (q Speed) In(unit Speed) float64 { return float64(q) / float64(unit) }

// SI reports the bare value in meters per second.
func (q Speed) SI() float64 { return float64(q) }

// Dimension names the physical dimension.
func (q Speed) Dimension() Dimension { return DimensionSpeed }

// String prints the value in meters per second, with its unit.
func (q Speed) String() string { return text(float64(q), "m/s") }

// Time reports how long a distance takes; speed must be positive.
func (q Speed) Time(d Length) Duration { return Duration(float64(d) / float64(q)) }

// Duration is a span of time, in seconds.
type Duration float64

// Units of Duration; factors are exact unless the comment says otherwise.
const (
	Second Duration = 1
	Minute          = 60 * Second
	Hour            = 3600 * Second
)

// In reports the value in the given unit.
func (q Duration) In(unit Duration) float64 { return float64(q) / float64(unit) }

// SI reports the bare value in seconds.
func (q Duration) SI() float64 { return float64(q) }

// Dimension names the physical dimension.
func (q Duration) Dimension() Dimension { return DimensionTime }

// String prints the value in seconds, with its unit.
func (q Duration) String() string { return text(float64(q), "s") }

// RotationRate is an angular speed, in radians per second.
type RotationRate float64

// Units of RotationRate; factors are exact unless the comment says otherwise.
const (
	RadianPerSecond     RotationRate = 1
	RevolutionPerMinute              = RadianPerSecond * 2 * math.Pi / 60
)

// In reports the value in the given unit.
func (q RotationRate) In(unit RotationRate) float64 { return float64(q) / float64(unit) }

// SI reports the bare value in radians per second.
func (q RotationRate) SI() float64 { return float64(q) }

// Dimension names the physical dimension.
func (q RotationRate) Dimension() Dimension { return DimensionRotation }

// String prints the value in radians per second, with its unit.
func (q RotationRate) String() string { return text(float64(q), "rad/s") }

// AreaRate is area covered per time, in square meters per second.
type AreaRate float64

// Units of AreaRate; factors are exact unless the comment says otherwise.
const (
	SquareMeterPerSecond AreaRate = 1
	AcrePerHour                   = AreaRate(float64(Acre) / float64(Hour))
	HectarePerHour                = AreaRate(float64(Hectare) / float64(Hour))
)

// In reports the value in the given unit.
func (q AreaRate) In(unit AreaRate) float64 { return float64(q) / float64(unit) }

// SI reports the bare value in square meters per second.
func (q AreaRate) SI() float64 { return float64(q) }

// Dimension names the physical dimension.
func (q AreaRate) Dimension() Dimension { return DimensionAreaRate }

// String prints the value in square meters per second, with its unit.
func (q AreaRate) String() string { return text(float64(q), "m2/s") }
