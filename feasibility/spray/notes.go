package spray

import (
	"fmt"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// thinRate is the rate from which drones matched ground coverage in a trial: 5 gal/ac; at
// 2 gal/ac they covered under 9 %. Frontiers in Agronomy 2024, doi 10.3389/fagro.2024.1493799.
const thinRate = 5 * units.GallonPerAcre

// The ways to make drops bigger, as a sentence without its stop.
const (
	calmerNozzles = "Fit larger or air-induction nozzles, or fly slower as far as the pressure range allows"
	calmerDiscs   = "Slow the discs down"
)

// finesYardstick is the fines of a spray at the fine/medium boundary, as in drift reduction classes
// (Stallinga et al.), with the default span.
var finesYardstick = rosinRammler(anchorDv05).VolumeBelow(finesLimit)

// judgeDroplet finds a spray with many fines, and a class that might as well be its neighbor.
func judgeDroplet(d Droplet, advice string, log *ledger) {
	limit := finesYardstick
	log.cite(sourceOhioFines)
	if !units.AtMost(d.Fines, limit) {
		log.cite(sourceStallinga)
		log.find(compared(finding.Finding{
			Code: CodeFinesHigh, Severity: finding.Caution, Subject: atSystem,
			Message: "About " + inPercent(units.Significant(d.Fines, 2)) + " of the spray is in drops under 150 um, which drift easily. A spray on the line between fine and medium has about " +
				inPercent(units.Significant(limit, 2)) + ". " + advice + ".",
			Source: sourceOhioFines,
		}, d.Fines, limit, true))
	}
	if d.ClassOther != "" {
		log.find(finding.Finding{
			Code: CodeClassNearBoundary, Severity: finding.Note, Subject: atSystem,
			Message: "The spray counts as " + d.Class.words() + ", but half of it is in drops under " + inMicrometers(d.Spectrum.Dv05) + ", close to the line to " +
				d.ClassOther.words() + ". If the label asks for a class, have the nozzles' own chart confirm it.",
			Measured: shown(d.Spectrum.Dv05),
			Source:   sourceS572,
		})
	}
}

// judge finds a droplet size taken beyond the caller's data or the model's span.
func (z sizing) judge(p units.Pressure, log *ledger) {
	if !z.stretched(p) {
		return
	}
	f := finding.Finding{Code: CodeSizeStretched, Severity: finding.Caution, Subject: atNozzle, Measured: p, Source: sourceModel}
	switch {
	case z.measured.known():
		f.Subject = atSpectra
		f.Message = fmt.Sprintf("No spectrum was measured around %s. The nearest one was carried over by a model's pressure law. Get the nozzle measured at the pressure you use.", inPSI(p))
	case len(z.declared) > 0:
		f.Subject, f.Source = atClasses, sourceMission
		f.Message = fmt.Sprintf("No droplet class is declared for %s. The class of the lowest pressure was taken, which is the finer. Send the class at this pressure.", inPSI(p))
	default:
		f.Message = fmt.Sprintf("The droplet model is meant for nozzle sizes 0075 to 15 and 14.5 to 87 psi; this is %s at 40 psi, run at %s, so the drop size is a guess. Send measured spectra.",
			inGPM(z.size), inPSI(p))
	}
	log.find(f)
}

// noteCoverage notes a rate at which drones covered thinly in trials.
func noteCoverage(rate units.ApplicationRate, log *ledger) {
	if units.AtLeast(rate, thinRate) {
		return
	}
	log.find(compared(finding.Finding{
		Code: CodeLowVolumeCoverage, Severity: finding.Note, Subject: atRate,
		Message: inGPA(rate) + " is a low volume. In a drone trial 2 gal/ac gave less than 9 % coverage, while 5 gal/ac did as well as a ground rig with nearly every nozzle. Lay out spray cards, and raise the rate if the product works by contact.",
		Source:  sourceCoverage,
	}, rate, thinRate, false))
}

// noteHydraulicCatch says what to catch from each nozzle in a minute of clean water.
func noteHydraulicCatch(n nozzles, used units.Pressure, log *ledger) {
	water := n.nozzle.FlowAt(used, RatingDensity)
	log.find(catchTest("Before the job, run clean water at "+inPSI(used)+" and catch each nozzle for one minute: each should give "+inOunces(water)+".", log))
}

// noteRotaryCatch says what to catch from each disc in a minute of clean water.
func noteRotaryCatch(each units.Flow, log *ledger) {
	log.find(catchTest(fmt.Sprintf("Before the job, set the flow with clean water and catch each disc for one minute: each should give %s.",
		inOunces(each)), log))
}

// catchTest is the note to verify the flow: Purdue PPP-154 chapter 6 sets the 5 %, extension
// specialists' articles on drone calibration (2025) the way.
func catchTest(how string, log *ledger) finding.Finding {
	log.cite(sourcePurdue)
	return finding.Finding{
		Code: CodeCatchTest, Severity: finding.Note, Subject: atSystem,
		Message: how + " Add them up and compare with the flow on the display. Recalibrate if it is more than 5 % off, and clean or replace a nozzle that differs from the rest.",
		Source:  sourceCatch,
	}
}

func inOunces(q units.Flow) string {
	return figure(q.During(units.Minute).In(units.FluidOunce)) + " fl oz"
}
