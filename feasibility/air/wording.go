package air

import (
	"strconv"

	"tractcheck/feasibility/units"
)

// The figures of messages, in US units and plain decimals.

// figure prints a number to some significant digits, never with an exponent.
func figure(value float64, digits int) string {
	return strconv.FormatFloat(units.Significant(value, digits), 'f', -1, 64)
}

func fahrenheit(t units.Temperature) string { return figure(t.Fahrenheit(), 3) + " °F" }

func fahrenheitDifference(d units.TemperatureDifference) string {
	return figure(d.In(units.FahrenheitDifference), 2) + " °F"
}

func percent(p units.Proportion) string { return figure(p.In(units.Percent), 3) + "%" }

func mph(v units.Speed) string { return figure(v.In(units.MilePerHour), 3) + " mph" }

func psi(p units.AbsolutePressure) string {
	return figure(p.In(units.PoundPerSquareInchAbsolute), 4) + " psi"
}

func feet(l units.Length) string { return figure(l.In(units.Foot), 3) + " ft" }
