package drift

import (
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/units"
)

// dropClass is a part of the spray volume flown as drops of one size.
type dropClass struct {
	diameter float64 // at release, m
	share    float64 // of the spray volume
}

// classEdges splits the spray volume into classes, finest first, narrow where the drops drift:
// half the classes lie in the finest tenth. Own design.
var classEdges = [...]float64{
	0, 0.0005, 0.001, 0.002, 0.004, 0.007, 0.011, 0.016, 0.023, 0.032, 0.044, 0.06, 0.08,
	0.105, 0.135, 0.17, 0.21, 0.26, 0.32, 0.40, 0.50, 0.62, 0.75, 0.88, 1,
}

const mostClasses = len(classEdges) - 1

// split cuts a spectrum into classes, joining them by stride (1 for all 24, 2 for 12). Each class
// takes the diameter at the middle of its volume. It returns how many there are.
func split(spectrum spray.Spectrum, stride int, into *[mostClasses]dropClass) int {
	n := 0
	for i := 0; i < mostClasses; i += stride {
		low, high := classEdges[i], classEdges[min(i+stride, mostClasses)]
		d := spectrum.Quantile(units.Proportion((low + high) / 2)).SI()
		into[n] = dropClass{diameter: hold(d, 2*smallestDrop, largestDrop, 2e-4), share: high - low}
		n++
	}
	return n
}

// without raises every drop below a diameter to it: the what-if of a spray with no fines.
func without(classes []dropClass, fines float64) {
	for i := range classes {
		classes[i].diameter = max(classes[i].diameter, fines)
	}
}
