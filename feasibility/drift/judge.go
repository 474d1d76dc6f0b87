package drift

import (
	"tractcheck/feasibility/air"
	"tractcheck/feasibility/units"
)

// Judged is the drift of one hour among many, as far as it decides: the grade, what reaches the
// neighbors and the findings. Curves and drivers stay empty.
type Judged struct {
	Result
	Flown bool             // what lands was worked out; else the deposits are zero and Grade is Severe or empty
	Worst units.Proportion // best estimate of the deposit the grade was read from, of the rate
}

// Judge is Assess without what explains the result and decides nothing: the drivers, which fly the job
// six times more, the deposit curve and the published ones. Grade, neighbors, buffer, findings and
// assumptions are the same.
//
// With rulesOnly what lands is not worked out, which takes a hundredth of the time: the findings are
// those on wind, air, release and the label's buffer, and the grade is Severe where one of them, or an
// inversion, makes it so whatever lands; else it is empty.
func Judge(in Input, rulesOnly bool) Judged {
	var book ledger
	judgeWind(in, &book)
	judgeDrying(in, &book)
	judgeRelease(in, &book)
	stateAssumptions(in, &book)
	judgeListing(in, &book)
	if in.Spray.Droplet.Spectrum.Dv05 <= 0 {
		return Judged{Result: unknownSpray(in, &book), Worst: units.Whole}
	}
	if rulesOnly {
		return judgeByRules(in, &book)
	}
	plan, length := newPlan(in), extent(in)
	judgeModel(in, plan, &book)
	landed := plan.land(farthestBuffer+length, fine)
	around := places(in, landed, length)
	judgeNeighbors(in, around, &book)
	judgePattern(in, landed, &book)
	book.report(nobodyDownwind)
	result := Result{
		AtNeighbors: shown(around),
		Airborne:    units.Significant(units.Proportion(landed.beyond(length)), 3),
		Buffer:      buffer(in, landed, length, around, &book),
		Grade:       grade(in, landed, length, around, &book),
	}
	return Judged{Result: closed(result, &book), Flown: true, Worst: worstOf(landed, length, around)}
}

// judgeByRules judges without a landing.
func judgeByRules(in Input, book *ledger) Judged {
	around := places(in, newLanding(1), 1)
	for _, p := range around {
		judgeLabelBuffer(in, p, book)
	}
	j := Judged{Result: Result{AtNeighbors: shown(around)}}
	if inversion := in.Air.Inversion; inversion == air.InversionObserved || inversion == air.InversionPresumed || book.stopped(severeCodes...) {
		j.Grade = Severe
	}
	j.Result = closed(j.Result, book)
	return j
}

// worstOf is the deposit at the worst-placed downwind neighbor, or at 10 m where none is known.
func worstOf(l *landing, length float64, around []place) units.Proportion {
	worst, judged := units.Proportion(0), false
	for _, p := range around {
		if p.downwind {
			worst, judged = max(worst, p.estimate.Best), true
		}
	}
	if !judged {
		worst = units.Proportion(l.deposit(gradeDistance.SI(), length))
	}
	return units.Significant(worst, 3)
}
