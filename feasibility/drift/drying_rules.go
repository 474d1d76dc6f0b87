package drift

import (
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// Ranges of Delta T, dry minus wet bulb: 2 to 8 C preferred, not above 10 C. Australian Bureau of
// Meteorology guidance, read in quotation.
const (
	deltaTLow  = 2 * units.KelvinDifference
	deltaTHigh = 8 * units.KelvinDifference
	deltaTMost = 10 * units.KelvinDifference
)

// judgeDrying holds the drying power of the air against the published spraying range.
func judgeDrying(in Input, l *ledger) {
	delta := in.Air.Depression
	switch {
	case !units.AtMost(delta, deltaTMost):
		is, over := degreesApart(delta, deltaTMost)
		f := finding.Finding{Code: CodeDeltaTTooHigh, Severity: practice(in), Subject: atHumidity, Source: sourceDeltaT,
			Message: "The air is too dry and hot: Delta T (air less wet-bulb temperature) is " + is + ", over " + over + ". Drops shrink into fine mist before they land. Spray earlier, when it is cooler and more humid."}
		f.Measured, f.Limit, f.Margin = upTo(delta, deltaTMost)
		l.report(f)
	case !units.AtMost(delta, deltaTHigh):
		is, over := degreesApart(delta, deltaTHigh)
		f := finding.Finding{Code: CodeDeltaTHigh, Severity: finding.Caution, Subject: atHumidity, Source: sourceDeltaT,
			Message: "The air is dry: Delta T (air less wet-bulb temperature) is " + is + ", over the preferred " + over + ". Use coarser drops or more water, or spray in a cooler hour."}
		f.Measured, f.Limit, f.Margin = upTo(delta, deltaTHigh)
		l.report(f)
	case !units.AtLeast(delta, deltaTLow):
		is, under := degreesApart(delta, deltaTLow)
		f := finding.Finding{Code: CodeDeltaTLow, Severity: finding.Caution, Subject: atHumidity, Source: sourceDeltaT,
			Message: "The air is very humid: Delta T (air less wet-bulb temperature) is " + is + ", under " + under + ". Fine drops live long and an inversion is more likely. Look for fog, dew and hanging smoke before you spray."}
		f.Measured, f.Limit, f.Margin = downTo(delta, deltaTLow)
		l.report(f)
	}
}
