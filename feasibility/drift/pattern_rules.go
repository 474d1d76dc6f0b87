package drift

import (
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// judgePattern says what the course of the lines does to the evenness of the spray. A steady wind
// across them shifts every swath alike, which overlap evens out inside the field and not at its two
// edges; a wind along them leaves the swath centered, and spreads each line's start and end.
func judgePattern(in Input, l *landing, book *ledger) {
	known := in.Release.Crosswind != nil || in.Release.Course != nil
	shift, lands := swathShift(l)
	switch {
	case !lands:
		book.report(finding.Finding{Code: CodeSprayCarriedOff, Severity: finding.Caution, Subject: atSpray, Source: sourcePattern,
			Message: "Less than half of the spray would come down within " + inFeet(farthestShift*units.Meter) + " of where it is let go: the drops are too fine, let go too high, or the wind is too strong. No course of the lines mends that. Use coarser drops, fly lower, or wait for less wind."})
	case !known:
		book.report(finding.Finding{Code: CodePatternCourseNotStated, Severity: finding.Note, Subject: atCrosswind, Source: sourcePatternTest,
			Message: "Lines flown into the wind and back lay the most even pattern across the swath. Lines across the wind shift every swath about " + inFeet(shift) + " downwind. Send the course of the lines to see what holds for this job."})
	case acrossWind(in):
		book.report(finding.Finding{Code: CodeCrosswindPattern, Severity: finding.Note, Subject: atCrosswind, Source: sourcePattern, Measured: shift,
			Message: "Lines across the wind shift every swath about " + inFeet(shift) + " downwind. Inside the field the next pass makes up for it. Move all lines upwind by that much, so that the upwind edge is not left thin and the downwind edge does not leak. Begin at the downwind edge. If the wind changes during the job, expect stripes."})
	default:
		book.report(finding.Finding{Code: CodeHeadwindPattern, Severity: finding.Note, Subject: atCrosswind, Source: sourcePatternTest,
			Message: "Lines along the wind keep the swath centered under the machine, the most even pattern. The spray of a line still ends about " + inFeet(shift) + " downwind of where the valve closes, so close it early at the downwind end."})
	}
}

// swathShift is how far down the wind half of a line's spray has landed; false where less than half does
// within farthestShift.
func swathShift(l *landing) (shift units.Length, lands bool) {
	low, high := 0.0, min(farthestShift, l.distance[l.steps-1])
	if l.within(high) < 0.5 {
		return 0, false
	}
	for range 40 {
		if middle := (low + high) / 2; l.within(middle) < 0.5 {
			low = middle
		} else {
			high = middle
		}
	}
	return units.Significant(units.Length(high), 2), true
}

// farthestShift is as far as moving the lines upwind is any help, m. Own design: several times the 1 to
// 5 m by which trials saw swaths shift.
const farthestShift = 30.0
