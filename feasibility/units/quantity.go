package units

import (
	"math"
	"strconv"
)

// StandardGravity is the standard acceleration of free fall, 9.80665 m/s2, exact.
// Source: 3rd General Conference on Weights and Measures, 1901; NIST SP 811 (2008) B.8.
const StandardGravity = 9.80665

// Dimension names a physical dimension; two quantities compare only within one.
type Dimension string

// The dimensions of the house. The set is closed: the wire's unit codes are listed per dimension.
const (
	DimensionMass                  Dimension = "mass"
	DimensionForce                 Dimension = "force"
	DimensionDensity               Dimension = "density"
	DimensionLength                Dimension = "length"
	DimensionArea                  Dimension = "area"
	DimensionVolume                Dimension = "volume"
	DimensionAngle                 Dimension = "angle"
	DimensionSpeed                 Dimension = "speed"
	DimensionTime                  Dimension = "time"
	DimensionRotation              Dimension = "rotation"
	DimensionAreaRate              Dimension = "area_rate"
	DimensionFlow                  Dimension = "flow"
	DimensionApplicationRate       Dimension = "application_rate"
	DimensionPressure              Dimension = "pressure"
	DimensionSurfaceTension        Dimension = "surface_tension"
	DimensionEnergy                Dimension = "energy"
	DimensionPower                 Dimension = "power"
	DimensionProportion            Dimension = "proportion"
	DimensionTemperature           Dimension = "temperature"
	DimensionTemperatureDifference Dimension = "temperature_difference"
	DimensionMoney                 Dimension = "money"
	DimensionAreaCost              Dimension = "area_cost"
	DimensionCount                 Dimension = "count"
)

// Quantity is any typed quantity of this package. It lets a finding carry a measured value and
// its limit whatever their dimension.
type Quantity interface {
	SI() float64
	Dimension() Dimension
	String() string
}

// Count is a whole number of things (batteries, aircraft, sorties); it has no unit.
type Count int

// SI reports the count as a number.
func (q Count) SI() float64 { return float64(q) }

// Dimension names the dimension of a count.
func (q Count) Dimension() Dimension { return DimensionCount }

// String prints the count.
func (q Count) String() string { return strconv.Itoa(int(q)) }

// Finite reports whether a quantity is a number: neither NaN nor infinite.
func Finite[Q ~float64](q Q) bool {
	return !math.IsNaN(float64(q)) && !math.IsInf(float64(q), 0)
}

// text prints a value with six significant digits and its unit.
func text(value float64, unit string) string {
	return strconv.FormatFloat(value, 'g', 6, 64) + " " + unit
}
