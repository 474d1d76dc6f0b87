package spray

import (
	"slices"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// NozzleSize is one size of ISO 10625. The code is the nominal flow in tenths of a US gallon a
// minute at 40 psi; nozzles are made to within 5 % of it.
type NozzleSize struct {
	Code           string
	RatedFlow      units.Flow // at RatedPressure, water
	RatedPressure  units.Pressure
	MetricFlow     units.Flow // nominal at MetricPressure, water; 1.3 % above the square law
	MetricPressure units.Pressure
	Color          string // of the standard
	Source         finding.Source
}

// NozzleSizes returns the sizes of ISO 10625, smallest first. Metric flows and colors are from
// memory, but for size 20. Every call returns a fresh copy.
func NozzleSizes() []NozzleSize { return slices.Clone(nozzleSizes[:]) }

const (
	gpm       = units.GallonPerMinute
	lpm       = units.LiterPerMinute
	fortyPSI  = 40 * units.PoundPerSquareInch // rating pressure of the size code, ISO 10625
	threeBars = 3 * units.Bar                 // rating pressure of the metric flow, ISO 10625
)

// nozzleSizes: ISO 10625:2018. Size 20 = 8.0 L/min from the foreword as quoted publicly; the
// other metric flows (4.0 times the code's gal/min) and the colors from memory.
var nozzleSizes = [15]NozzleSize{
	{"005", 0.05 * gpm, fortyPSI, 0.20 * lpm, threeBars, "purple-red", sourceISO10625},
	{"0075", 0.075 * gpm, fortyPSI, 0.30 * lpm, threeBars, "pink", sourceISO10625},
	{"01", 0.10 * gpm, fortyPSI, 0.40 * lpm, threeBars, "orange", sourceISO10625},
	{"015", 0.15 * gpm, fortyPSI, 0.60 * lpm, threeBars, "green", sourceISO10625},
	{"02", 0.20 * gpm, fortyPSI, 0.80 * lpm, threeBars, "yellow", sourceISO10625},
	{"025", 0.25 * gpm, fortyPSI, 1.00 * lpm, threeBars, "violet", sourceISO10625},
	{"03", 0.30 * gpm, fortyPSI, 1.20 * lpm, threeBars, "blue", sourceISO10625},
	{"035", 0.35 * gpm, fortyPSI, 1.40 * lpm, threeBars, "brown-red", sourceISO10625},
	{"04", 0.40 * gpm, fortyPSI, 1.60 * lpm, threeBars, "red", sourceISO10625},
	{"05", 0.50 * gpm, fortyPSI, 2.00 * lpm, threeBars, "brown", sourceISO10625},
	{"06", 0.60 * gpm, fortyPSI, 2.40 * lpm, threeBars, "gray", sourceISO10625},
	{"08", 0.80 * gpm, fortyPSI, 3.20 * lpm, threeBars, "white", sourceISO10625},
	{"10", 1.00 * gpm, fortyPSI, 4.00 * lpm, threeBars, "light blue", sourceISO10625},
	{"15", 1.50 * gpm, fortyPSI, 6.00 * lpm, threeBars, "light green", sourceISO10625},
	{"20", 2.00 * gpm, fortyPSI, 8.00 * lpm, threeBars, "black", sourceISO10625},
}
