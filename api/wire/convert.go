package wire

import "tractcheck/feasibility/units"

// Convert rewrites a value from one unit code of the wire into another of the same dimension,
// rounded to the six significant digits of an answer. It reports false where the codes are not of
// one dimension.
func Convert(value float64, from, to string) (float64, bool) {
	for _, d := range dimensions {
		source, known := d.find(from)
		target, same := d.find(to)
		if known && same {
			return float64(units.Significant(units.Length(target.from(source.toSI(value))), digits)), true
		}
	}
	return 0, false
}

// AllowedIn says the range of a member in a unit, such as "0.5 to 2000 lb". path is its pointer,
// with * for an index. It reports false where the member has no range or the unit is unknown.
func AllowedIn(path, code string) (string, bool) {
	l, ok := limitOf[path]
	if !ok {
		return "", false
	}
	for _, d := range dimensions {
		if u, known := d.find(code); known {
			return l.allowed(u), true
		}
	}
	return "", false
}

// In reports a quantity in a unit code of its dimension, rounded to a number of significant digits;
// 0 where the code is not of its dimension.
func In(q units.Quantity, code string, digits int) float64 {
	d, _ := dimensionOf(q.Dimension())
	u, ok := d.find(code)
	if !ok {
		return 0
	}
	return float64(units.Significant(units.Length(u.from(q.SI())), digits))
}
