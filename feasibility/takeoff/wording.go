package takeoff

import (
	"fmt"
	"math"

	"tractcheck/feasibility/units"
)

// plainName says a limit in plain words.
func plainName(code LimitCode) string {
	switch code {
	case SmallUnmannedAircraft:
		return "the 55 lb line of small aircraft"
	case MakerMaximum:
		return "the maker's maximum takeoff weight"
	case DensityAltitude:
		return "our estimate of what thin air leaves of the maker's maximum"
	default:
		return "the tank"
	}
}

// pounds prints a mass in pounds.
func pounds(m units.Mass) string { return plainNumber(m.In(units.Pound)) + " lb" }

// gallons prints a volume in US gallons.
func gallons(v units.Volume) string { return plainNumber(v.In(units.Gallon)) + " gal" }

// gallonsDown prints a volume in US gallons cut, not rounded, to hundredths, so that the figure
// printed for a largest fill never passes the limit.
func gallonsDown(v units.Volume) string {
	g := v.In(units.Gallon)
	if g >= 0.01 && g < 1e6 {
		// A cut must not turn a stated 2.3 gal, held as 2.2999..., into 2.29.
		g = math.Floor(g*100+1e-6) / 100
		return fmt.Sprintf("%.2f gal", g)
	}
	return plainNumber(units.SignificantDown(g, 3)) + " gal"
}

// feet prints a height in feet, to the nearest hundred.
func feet(h units.Length) string {
	return fmt.Sprintf("%.0f ft", math.Round(h.In(units.Foot)/100)*100)
}

// plainNumber prints two decimals, or three significant digits where those would hide the number.
func plainNumber(x float64) string {
	if size := math.Abs(x); size != 0 && (size < 0.01 || size >= 1e6) {
		return fmt.Sprintf("%.3g", x)
	}
	return fmt.Sprintf("%.2f", x)
}

// leftOver says how much weight is left; a largest fill leaves less than any scale shows.
func leftOver(margin units.Mass) string {
	if units.StrictlyBelow(margin, 0.01*units.Pound) {
		return "Next to nothing is left"
	}
	return "Only " + pounds(margin) + " is left"
}
