package drift

import (
	"math"

	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/units"
)

// dropClass is a part of the spray volume flown as drops of one size.
type dropClass struct {
	diameter float64 // at release, m
	share    float64 // of the spray volume
}

const (
	mostClasses = 48 // that a plan can hold; the answer is flown with fewer
	// finesFirst crowds the classes where the drops drift: class i of n begins at the volume share
	// (i/n)^finesFirst, so that of twelve classes four lie in the finest 6 %. Own design.
	finesFirst = 2.5
)

// split cuts a spectrum into a number of classes, finest first. Each class takes the diameter at the
// middle of its volume.
func split(spectrum spray.Spectrum, count int, into *[mostClasses]dropClass) int {
	low := 0.0
	for i := range count {
		high := math.Pow(float64(i+1)/float64(count), finesFirst)
		d := spectrum.Quantile(units.Proportion((low + high) / 2)).SI()
		into[i] = dropClass{diameter: hold(d, 2*smallestDrop, largestDrop, 2e-4), share: high - low}
		low = high
	}
	return count
}

// splitAt cuts a spectrum as split does, half of the classes in the drops under a diameter and half in
// those over it, so that the two can be told apart.
func splitAt(spectrum spray.Spectrum, diameter units.Length, count int, into *[mostClasses]dropClass) int {
	finer := min(0.999, max(0.001, spectrum.VolumeBelow(diameter).SI()))
	half := count / 2
	n := 0
	for _, part := range [...]struct{ from, to float64 }{{0, finer}, {finer, 1}} {
		low := part.from
		for i := range half {
			high := part.from + (part.to-part.from)*math.Pow(float64(i+1)/float64(half), finesFirst)
			d := spectrum.Quantile(units.Proportion((low + high) / 2)).SI()
			into[n] = dropClass{diameter: hold(d, 2*smallestDrop, largestDrop, 2e-4), share: high - low}
			low = high
			n++
		}
	}
	return n
}

// raisedFines leaves of some classes those below a diameter, all in one class of that: the what-if of a spray
// with no fines. It reports how many classes are left, one or none.
func raisedFines(classes *[mostClasses]dropClass, count int, fines float64) int {
	share := 0.0
	for _, c := range classes[:count] {
		if c.diameter < fines {
			share += c.share
		}
	}
	classes[0] = dropClass{diameter: fines, share: share}
	if share == 0 {
		return 0
	}
	return 1
}
