package drift

import (
	"math"
	"strconv"

	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/units"
)

// figure prints a number with two significant digits, or whole from a hundred on.
func figure(x float64) string {
	if math.Abs(x) >= 100 && math.Abs(x) < 1e6 {
		return strconv.FormatFloat(math.Round(x), 'f', -1, 64)
	}
	if a := math.Abs(x); a != 0 && (a < 1e-3 || a >= 1e6) {
		return strconv.FormatFloat(x, 'g', 2, 64)
	}
	return strconv.FormatFloat(units.Significant(x, 2), 'f', -1, 64)
}

// oneDecimal prints wind speeds, where 14.8 and 15.2 must not both read 15.
func oneDecimal(x float64) string {
	return strconv.FormatFloat(math.Round(min(1e9, x)*10)/10, 'f', -1, 64)
}

func inMPH(v units.Speed) string   { return oneDecimal(v.In(units.MilePerHour)) + " mph" }
func inFeet(d units.Length) string { return figure(d.In(units.Foot)) + " ft" }

// inFeetUp prints a distance to keep, rounded up to a whole foot so that keeping it is enough.
func inFeetUp(d units.Length) string { return figure(float64(units.Ceil(d.In(units.Foot)))) + " ft" }

func inPercent(p units.Proportion) string { return figure(p.In(units.Percent)) + " %" }

// inDegrees prints a difference of temperature in both scales.
func inDegrees(d units.TemperatureDifference) string {
	return oneDecimal(d.In(units.FahrenheitDifference)) + " F (" + oneDecimal(d.In(units.KelvinDifference)) + " C)"
}

// words turns a class such as very_fine into plain words.
func words(c spray.Class) string {
	out := []byte(c)
	for i, b := range out {
		if b == '_' {
			out[i] = ' '
		}
	}
	return string(out)
}

// upTo reports a limit as a ceiling: what was measured, the limit, and the room left under it.
func upTo[Q interface {
	~float64
	units.Quantity
}](measured, limit Q) (m, l, margin units.Quantity) {
	return measured, limit, limit - measured
}

// downTo reports a limit as a floor.
func downTo[Q interface {
	~float64
	units.Quantity
}](measured, limit Q) (m, l, margin units.Quantity) {
	return measured, limit, measured - limit
}
