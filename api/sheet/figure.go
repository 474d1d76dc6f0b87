package sheet

import (
	"math"
	"strconv"
	"strings"

	"tractcheck/api/wire"
	"tractcheck/feasibility/units"
)

// say writes a quantity for reading: three digits, two decimals of a pound or a kilogram, and the
// unit as people write it.
func say(q *wire.Quantity) string {
	if q == nil || q.Value == nil {
		return "not known"
	}
	value, unit := *q.Value, q.Unit
	switch unit {
	case "USD":
		return "$" + strconv.FormatFloat(value, 'f', 2, 64)
	case "USD/ac", "USD/ha":
		return "$" + strconv.FormatFloat(value, 'f', 2, 64) + " per " + map[string]string{"USD/ac": "acre", "USD/ha": "ha"}[unit]
	case "count":
		return digits(value, 6)
	case "lb", "kg":
		return weight(value) + gap + unit
	case "um":
		return strconv.FormatFloat(math.Round(value), 'f', -1, 64) + gap + unit
	}
	if unit == "gal" || unit == "L" {
		// A fill has a strict limit, so volumes are cut and never rounded up.
		value = units.SignificantDown(units.Volume(value), 3).SI()
	}
	return digits(value, 3) + gap + unitName(unit)
}

// sayUp writes a distance to keep, in whole feet or to a tenth of a meter: rounded down it would let
// spray come too near.
func sayUp(q *wire.Quantity) string {
	x, ok := value(q)
	if !ok {
		return "not known"
	}
	step := 1.0
	if q.Unit == "m" {
		step = 0.1
	}
	const trace = 1e-6 // of a step, which an earlier rounding leaves
	up := math.Ceil(x/step-trace) * step
	return digits(up, 6) + gap + unitName(q.Unit)
}

// gap keeps a number and its unit on one line (a no-break space).
const gap = "\u00a0"

// unitName is a unit as people write it.
func unitName(code string) string {
	names := map[string]string{
		"degF": "°F", "degC": "°C", "delta_degF": "°F", "delta_degC": "°C", "deg": "degrees",
		"ac": "acres", "ac/h": "acres an hour", "ha/h": "ha an hour", "h": "hours", "min": "minutes",
	}
	if name, ok := names[code]; ok {
		return name
	}
	return code
}

// digits writes a number with so many significant digits and no exponent.
func digits(x float64, n int) string {
	if x == 0 || math.IsNaN(x) || math.IsInf(x, 0) {
		return "0"
	}
	decimals := max(0, n-1-int(math.Floor(math.Log10(math.Abs(x)))))
	text := strconv.FormatFloat(x, 'f', min(decimals, 12), 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return text
}

// weight writes a weight to a hundredth: near a strict limit a tenth would hide the difference. One
// that would round onto a whole number it is not keeps its digits.
func weight(x float64) string {
	text := strconv.FormatFloat(x, 'f', 2, 64)
	if rounded, err := strconv.ParseFloat(text, 64); err == nil && rounded == math.Round(rounded) && math.Abs(rounded-x) > 1e-9 {
		return strconv.FormatFloat(x, 'f', -1, 64)
	}
	return strings.TrimRight(strings.TrimRight(text, "0"), ".")
}

// value is a quantity's number; zero and false where there is none that is finite.
func value(q *wire.Quantity) (float64, bool) {
	if q == nil || q.Value == nil || math.IsNaN(*q.Value) || math.IsInf(*q.Value, 0) {
		return 0, false
	}
	return *q.Value, true
}

// plain writes a code of the contract as words.
func plain(code string) string { return strings.ReplaceAll(code, "_", " ") }

// capital begins a text with a capital letter.
func capital(text string) string {
	if text == "" {
		return ""
	}
	return strings.ToUpper(text[:1]) + text[1:]
}

// points of the compass, clockwise from north.
var compass = []string{"north", "northeast", "east", "southeast", "south", "southwest", "west", "northwest"}

// bearing says a direction in degrees with the nearest point of the compass.
func bearing(q *wire.Quantity) string {
	degrees, ok := value(q)
	if !ok {
		return "not known"
	}
	at := int(math.Round(math.Mod(math.Mod(degrees, 360)+360, 360)/45)) % len(compass)
	return compass[at] + " (" + digits(degrees, 3) + "°)"
}
