package drift

import (
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// Buffer is the smallest downwind distance at which the deposit meets the tolerance.
type Buffer struct {
	Distance      units.Length
	PercentOfRate units.Proportion // the tolerance used
	BoundBy       string           // deposit, label
}

const (
	boundByDeposit = "deposit"
	boundByLabel   = "label"
	// farthestBuffer is how far the room looks for a buffer, m; a plume is not followed further.
	farthestBuffer = 1000.0
	// leastTolerance stands in for a tolerance of nothing: a hundredth of a percent of the rate, about
	// where field trials stop detecting spray. Own design.
	leastTolerance = 0.01 * units.Percent
	// bufferStep is what a buffer is rounded up to, m.
	bufferStep = 0.5
)

// buffer finds the smallest distance from which on the high estimate meets the tolerance of the
// most sensitive neighbor downwind, and takes the label's buffer where that is larger.
func buffer(in Input, l *landing, length float64, places []place, book *ledger) Buffer {
	tolerance := bufferTolerance(in, places)
	meters, met := l.meets(float64(tolerance)/l.factor, length)
	b := Buffer{
		Distance:      units.Length(float64(units.Ceil(meters/bufferStep)) * bufferStep),
		PercentOfRate: tolerance,
		BoundBy:       boundByDeposit,
	}
	if label := in.Label.DownwindBuffer; label != nil && *label > b.Distance {
		b.Distance, b.BoundBy = *label, boundByLabel
	}
	reportBuffer(b, met, book)
	return b
}

// bufferTolerance is the least tolerance among the downwind neighbors; 1 % where none of those
// stated lies downwind; that of a sensitive neighbor where nothing is known of the neighbors.
func bufferTolerance(in Input, places []place) units.Proportion {
	if in.Neighbors == nil {
		return sensitiveTolerance
	}
	tolerance, found := usualTolerance, false
	for _, p := range places {
		if p.downwind && (!found || p.tolerance < tolerance) {
			tolerance, found = p.tolerance, true
		}
	}
	return tolerance
}

// meets finds the smallest distance from which on the deposit is at most a share of the rate; false
// where even the farthest distance does not meet it.
func (l *landing) meets(share, length float64) (distance float64, met bool) {
	if l.deposit(farthestBuffer, length) > share {
		return farthestBuffer, false
	}
	// Walk inward to the last step that is over, then halve the interval.
	high := farthestBuffer
	low := high
	for i := l.steps - 1; i >= 0; i-- {
		low = min(farthestBuffer, l.distance[i])
		if l.deposit(low, length) > share {
			break
		}
		high = low
	}
	for range 30 {
		middle := (low + high) / 2
		if l.deposit(middle, length) > share {
			low = middle
		} else {
			high = middle
		}
	}
	return high, true
}

// reportBuffer says the buffer in plain words.
func reportBuffer(b Buffer, met bool, book *ledger) {
	f := finding.Finding{Code: CodeDriftBuffer, Severity: finding.Note, Subject: atNeighbors, Source: sourceDesign, Limit: b.Distance}
	switch {
	case b.BoundBy == boundByLabel:
		f.Source = sourceLabel
		f.Message = "Keep " + inFeetUp(b.Distance) + " between the last swath and what lies downwind: the label's buffer is larger than the computed one."
	case !met:
		f.Severity = finding.Caution
		f.Message = "Even " + inFeet(b.Distance) + " downwind the spray could exceed " + inPercent(b.PercentOfRate) + " of the rate. Do not count on distance: use coarser drops, fly lower, or wait for a wind that blows the other way."
	default:
		f.Message = "Keep " + inFeetUp(b.Distance) + " between the last swath and what lies downwind, so that no more than " + inPercent(b.PercentOfRate) + " of the rate lands there by the high estimate."
	}
	book.report(f)
}
