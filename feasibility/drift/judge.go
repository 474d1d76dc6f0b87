package drift

import "tractcheck/feasibility/units"

// Judged is the drift of one hour among many, as far as it decides: the grade, what reaches the
// neighbors and the findings. Curves and drivers stay empty.
type Judged struct {
	Result
	Worst units.Proportion // best estimate of the deposit the grade was read from, of the rate
}

// Judge is Assess without what explains the result and decides nothing: the drivers, which fly the job
// six times more, the deposit curve and the published ones. Grade, neighbors, buffer, findings and
// assumptions are the same.
func Judge(in Input) Judged {
	var book ledger
	judgeWind(in, &book)
	judgeDrying(in, &book)
	judgeRelease(in, &book)
	stateAssumptions(in, &book)
	if in.Spray.Droplet.Spectrum.Dv05 <= 0 {
		return Judged{Result: unknownSpray(in, &book), Worst: units.Whole}
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
	return Judged{Result: closed(result, &book), Worst: worstOf(landed, length, around)}
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
