package drift

import (
	"math"
	"strconv"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/units"
)

// figure prints a number with two significant digits, or whole from a hundred on.
func figure(x float64) string { return figureTo(x, 0) }

// figureTo is figure with some more digits.
func figureTo(x float64, more int) string {
	if math.Abs(x) >= 100 && math.Abs(x) < 1e6 {
		scale := math.Pow10(more)
		return strconv.FormatFloat(math.Round(x*scale)/scale, 'f', -1, 64)
	}
	if a := math.Abs(x); a != 0 && (a < 1e-3 || a >= 1e6) {
		return strconv.FormatFloat(x, 'g', 2+more, 64)
	}
	return strconv.FormatFloat(units.Significant(x, 2+more), 'f', -1, 64)
}

// oneDecimal prints wind speeds, where 14.8 and 15.2 must not both read 15.
func oneDecimal(x float64) string { return decimalsTo(x, 0) }

// decimalsTo is oneDecimal with some more decimals.
func decimalsTo(x float64, more int) string {
	scale := math.Pow10(1 + more)
	return strconv.FormatFloat(math.Round(min(1e9, x)*scale)/scale, 'f', -1, 64)
}

func inMPH(v units.Speed) string   { return oneDecimal(v.In(units.MilePerHour)) + " mph" }
func inFeet(d units.Length) string { return figure(d.In(units.Foot)) + " ft" }

// inFeetUp prints a distance to keep, rounded up to a whole foot so that keeping it is enough.
func inFeetUp(d units.Length) string { return figure(float64(units.Ceil(d.In(units.Foot)))) + " ft" }

func inPercent(p units.Proportion) string { return figure(p.In(units.Percent)) + " %" }

// mphApart, feetApart and percentApart word a figure and its limit, without the unit, with as many digits
// as it takes for them not to read alike.
func mphApart(v, limit units.Speed) (m, l string) {
	m, l, _ = finding.Apart(v.In(units.MilePerHour), limit.In(units.MilePerHour), decimalsTo)
	return m, l
}

func feetApart(d, limit units.Length) (m, l string) {
	m, l, _ = finding.Apart(d.In(units.Foot), limit.In(units.Foot), figureTo)
	return m, l
}

func percentApart(p, limit units.Proportion) (m, l string) {
	m, l, _ = finding.Apart(p.In(units.Percent), limit.In(units.Percent), figureTo)
	return m, l
}

// degreesApart words differences of temperature in both scales; kelvins are the coarser to read.
func degreesApart(d, limit units.TemperatureDifference) (m, l string) {
	_, _, more := finding.Apart(d.In(units.KelvinDifference), limit.In(units.KelvinDifference), decimalsTo)
	return inDegreesTo(d, more), inDegreesTo(limit, more)
}

// inDegreesTo prints a difference of temperature in both scales, with some more digits than one decimal.
func inDegreesTo(d units.TemperatureDifference, more int) string {
	return decimalsTo(d.In(units.FahrenheitDifference), more) + " F (" + decimalsTo(d.In(units.KelvinDifference), more) + " C)"
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
