package drift

import (
	"slices"

	"tractcheck/feasibility/air"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// Grade is the drift risk in one word.
type Grade string

// The grades, least first.
const (
	Low      Grade = "low"
	Moderate Grade = "moderate"
	High     Grade = "high"
	Severe   Grade = "severe"
)

// GradeStep is one row of the grade table.
type GradeStep struct {
	Grade Grade
	UpTo  units.Proportion // of the rate, best estimate
	Plain string
}

// gradeDistance is where the published curves are read for the table, and where the deposit is
// judged when no neighbor is known to lie downwind.
const gradeDistance = 10 * units.Meter

// GradeSteps reports the grade table; what lies above its last row is severe. It judges the best
// estimate of the deposit at the worst-placed downwind neighbor, or at 10 m where none is known,
// against what published sprayers lay down at 10 m. The grade rises by one step where more than a
// quarter of the spray is in drops under 150 um, and is severe whatever the deposit where a hard
// stop of the weather stands: inversion, calm, wind or gust over a limit, air too dry, or wind
// toward a neighbor that tolerates nothing.
// Own design, anchored on the basic drift values of Rautmann, Streloke and Winkler (2001).
func GradeSteps() []GradeStep {
	boom, airblast := BasicDrift(GroundBoom, gradeDistance), BasicDrift(OrchardAirblast, gradeDistance)
	return []GradeStep{
		{Low, boom, "no more than a ground boom at 10 m (0.29 % of the rate)"},
		{Moderate, 5 * boom, "up to five times a ground boom at 10 m (1.5 %)"},
		{High, airblast, "up to an orchard airblast sprayer at 10 m (3.6 %)"},
	}
}

// finesRaise is the share of the volume in drops under 150 um above which the grade rises a step:
// that of a spray at Dv0.5 of about 225 um. Own design; 150 um is US extension usage.
const finesRaise = 25 * units.Percent

// severeCodes are the stops that make the grade severe by themselves.
var severeCodes = []finding.Code{
	CodeWindOverLabel, CodeGustOverLabel, CodeWindUnderLabel, CodeWindOverCommonPractice,
	CodeGustOverCommonPractice, CodeWindCalm, CodeDeltaTTooHigh, CodeWindTowardSensitiveNeighbor,
}

// GradeRules is how a grade is drawn: the table, and what moves the grade whatever the table says.
type GradeRules struct {
	Steps     []GradeStep
	ReadAt    units.Length     // where the published curves are read
	FinesOver units.Proportion // the share under 150 um above which the grade rises one step
	Severe    []finding.Code   // the stops that make the grade severe by themselves, beside an inversion
	Source    finding.Source
}

// Grading reports how a grade is drawn. Own design, see GradeSteps.
func Grading() GradeRules {
	return GradeRules{
		Steps: GradeSteps(), ReadAt: gradeDistance, FinesOver: finesRaise,
		Severe: slices.Clone(severeCodes), Source: sourceDesign,
	}
}

// gradeOf is the grade of a deposit, before fines and hard stops.
func gradeOf(deposit units.Proportion) Grade {
	for _, step := range GradeSteps() {
		if units.AtMost(deposit, step.UpTo) {
			return step.Grade
		}
	}
	return Severe
}

// raised is the grade one step up.
func raised(g Grade) Grade {
	switch g {
	case Low:
		return Moderate
	case Moderate:
		return High
	default:
		return Severe
	}
}

// grade judges the job: the worst of the downwind neighbors, or 10 m where none is known; one step
// up for fines; severe for hard stops and for an inversion seen or presumed.
func grade(in Input, l *landing, length float64, places []place, book *ledger) Grade {
	worst, judged := units.Proportion(0), false
	for _, p := range places {
		if p.downwind {
			worst, judged = max(worst, p.estimate.Best), true
		}
	}
	if !judged {
		worst = units.Proportion(l.deposit(gradeDistance.SI(), length))
	}
	g := gradeOf(worst)
	if fines := in.Spray.Droplet.Fines; !units.AtMost(fines, finesRaise) && g != Severe {
		g = raised(g)
		f := finding.Finding{Code: CodeGradeRaisedByFines, Severity: finding.Note, Subject: atSpray, Source: sourceFines,
			Message: inPercent(fines) + " of the spray is in drops under 150 um, which drift. That raises the drift grade one step. Use coarser drops to bring it down."}
		f.Measured, f.Limit, f.Margin = upTo(fines, finesRaise)
		book.report(f)
	}
	if inversion := in.Air.Inversion; inversion == air.InversionObserved || inversion == air.InversionPresumed {
		book.cite(sourceInversion)
		return Severe
	}
	if book.stopped(severeCodes...) {
		return Severe
	}
	if g == Severe {
		book.report(severeDrift(in, worst, judged))
	}
	if !judged && in.Neighbors != nil {
		book.report(noneDownwind(in))
	}
	return g
}

// noneDownwind says where the grade was read when no neighbor lies downwind: a wind that turns away from
// the only one may else seem to make the drift worse.
func noneDownwind(in Input) finding.Finding {
	why := "No neighbor that you listed lies downwind"
	if len(in.Neighbors) == 0 {
		why = "You listed no neighbors"
	}
	return finding.Finding{Code: CodeNoNeighborDownwind, Severity: finding.Note, Subject: atNeighbors, Source: sourceDesign,
		Message: why + ". So the drift grade is that at " + inFeet(gradeDistance) + " (10 m) downwind of the field."}
}

// severeDrift says that the job must change, or be shown to drift less, where the deposit alone
// makes the grade severe. It does not stop a job by itself: the estimate is good to a factor of 3.
func severeDrift(in Input, worst units.Proportion, atNeighbor bool) finding.Finding {
	where, settle := "33 ft downwind of the field", "Or send the nearest thing that lies downwind, with its distance: the risk is then judged there."
	if atNeighbor {
		where, settle = "on a downwind neighbor", "If the rotors or the measured drop sizes were not stated, send them and ask again."
	}
	f := finding.Finding{Code: CodeDriftSevere, Severity: finding.Needed, Subject: atSpray, Source: sourceDesign,
		Message: "Drift risk is severe: about " + inPercent(worst) + " of the rate would land " + where + ". " +
			"Use coarser drops, fly lower or slower, or wait for less wind. " + settle}
	if !in.Pesticide {
		f.Severity = finding.Caution
	}
	f.Measured, f.Limit, f.Margin = upTo(worst, GradeSteps()[len(GradeSteps())-1].UpTo)
	return f
}
