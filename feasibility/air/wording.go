package air

import (
	"strconv"

	"tractcheck/feasibility/units"
)

// The figures of messages, in US units and plain decimals. Each is printed to its usual digits, or to some
// more where those read like the limit beside it: see finding.Apart.

// figure prints a number to some significant digits, never with an exponent.
func figure(value float64, digits int) string {
	return strconv.FormatFloat(units.Significant(value, digits), 'f', -1, 64)
}

func fahrenheit(t units.Temperature, more int) string {
	return figure(t.Fahrenheit(), 3+more) + " °F"
}

func fahrenheitDifference(d units.TemperatureDifference, more int) string {
	return figure(d.In(units.FahrenheitDifference), 2+more) + " °F"
}

func percent(p units.Proportion, more int) string { return figure(p.In(units.Percent), 3+more) + "%" }

func mph(v units.Speed, more int) string { return figure(v.In(units.MilePerHour), 3+more) + " mph" }

func psi(p units.AbsolutePressure, more int) string {
	return figure(p.In(units.PoundPerSquareInchAbsolute), 4+more) + " psi"
}

func feet(l units.Length, more int) string { return figure(l.In(units.Foot), 3+more) + " ft" }
