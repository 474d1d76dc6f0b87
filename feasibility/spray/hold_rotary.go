package spray

import (
	"fmt"
	"math"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// discs is a rotary system at its job.
type discs struct {
	disc       Rotary
	job        Job
	count      units.Count
	rotation   units.RotationRate // really used
	usableFlow units.Flow         // total; zero where no pump is stated
	tension    units.SurfaceTension
	measured   measurement
}

// holdRotary fills the result for spinning discs. Their flow is metered by the pump, not by
// pressure, so only the pump bounds the speed. Their drops are made by the disc speed, which the
// caller sets; the flow matters little in the drop-by-drop regime and some in the ligament regime
// (Proc. Inst. Mech. Eng. 166, 1952; Frost 1981), so that flying faster makes slightly bigger
// drops, the opposite of pressure nozzles.
func holdRotary(r *Result, system System, job Job, curved bool, log *ledger) {
	d := newDiscs(system, job, log)
	r.WithinRange, r.RateDelivered = true, job.Rate
	d.judgeRotation(r, log)
	if system.Pump == nil {
		pumpNotStated(log)
	} else if !units.AtMost(r.FlowTotal, d.usableFlow) {
		r.WithinRange = false
		r.RateDelivered *= units.ApplicationRate(d.usableFlow / r.FlowTotal)
	}
	r.SpeedRange = SpeedRange{LowestBound: BoundNone, HighestBound: BoundNone}
	if system.Pump != nil {
		r.SpeedRange.Highest, r.SpeedRange.HighestBound = speedFor(d.usableFlow, job), BoundPumpFlow
		pumpFlow(*r, job, d.usableFlow, *system.Pump, log)
		if isOff(r.RateDelivered, job.Rate) {
			log.find(rateNotHeld(*r, job, finding.Stop, sourcePurdue, ""))
		}
	}
	// Where the pump falls short each disc gets less, and its drops are those of that flow.
	flowUsed := r.FlowEach * units.Flow(r.RateDelivered/job.Rate)
	r.Droplet = d.at(flowUsed)
	if curved {
		r.Curve = d.curve(r.SpeedRange)
	}
	d.judge(flowUsed, log)
	judgeDroplet(r.Droplet, calmerDiscs, log)
	noteRotaryCatch(r.FlowEach, log)
}

// newDiscs settles what is known of the droplet size and the disc speed really used.
func newDiscs(system System, job Job, log *ledger) discs {
	d := discs{disc: *system.Rotary, job: job, count: system.Count}
	rows := make([]measuredRow, 0, len(d.disc.Spectra))
	for _, row := range d.disc.Spectra {
		rows = append(rows, measuredRow{row.Rotation.SI(), spectrumOf(row.Dv01, row.Dv05, row.Dv09)})
	}
	// Size goes as 1/speed: Proc. Inst. Mech. Eng. 166 (1952).
	log.cite(sourceSpinningDisc)
	d.measured = newMeasurement(rows, -1)
	if d.measured.faulty {
		log.find(disordered(atDiscSpectra))
	}
	log.cite(sourceRosinRammler)
	if d.measured.known() {
		assumeMeasured(d.measured, atDiscSpectra, log)
	} else {
		d.tension = settleTension(job, log)
		log.cite(sourceFrost, sourceS572, sourceVirk)
		log.assume(atDiscSpectra, "droplet size by the larger of two published laws for spinning discs, good to 30 %, and relative span 1.3",
			"send spectra (Dv0.1, Dv0.5, Dv0.9 by rotation) from the maker or a laboratory", sourceWaltonPrewett)
	}
	if system.Pump != nil {
		log.cite(sourcePumpReserve)
		d.usableFlow = pumpReserve * system.Pump.MaxFlow
	}
	d.rotation = d.held()
	return d
}

// held reports the disc speed held to the stated range.
func (d discs) held() units.RotationRate {
	n := d.disc.Rotation
	if d.disc.MaxRotation != nil && *d.disc.MaxRotation > 0 && !units.AtMost(n, *d.disc.MaxRotation) {
		n = *d.disc.MaxRotation
	}
	if d.disc.MinRotation != nil && !units.AtLeast(n, *d.disc.MinRotation) {
		n = *d.disc.MinRotation
	}
	return n
}

// at reports the droplets at a flow of one disc.
func (d discs) at(flow units.Flow) Droplet {
	if d.measured.known() {
		s, beyond := d.measured.at(d.rotation.SI())
		return measuredDroplet(s, beyond, "disc speed")
	}
	s := rosinRammler(RotaryDv05(d.disc.DiscDiameter, d.rotation, flow, d.tension, d.job.Density))
	return newDroplet(s, modelScale, rotaryUncertainty,
		"default model for spinning discs at this speed and flow, not measured; the class is approximate")
}

// curve works out the points over speed.
func (d discs) curve(r SpeedRange) []Point {
	speeds := roundSpeeds(span(r, d.job.Speed))
	points := make([]Point, 0, len(speeds))
	for _, v := range speeds {
		total := d.job.Rate.Flow(v, d.job.Swath)
		each := total / units.Flow(d.count)
		drops := d.at(each)
		points = append(points, Point{
			Speed: v, FlowEach: each, Class: drops.Class, Fines: drops.Fines,
			WithinRange: d.rotation == d.disc.Rotation && (d.usableFlow == 0 || units.AtMost(total, d.usableFlow)),
		})
	}
	return points
}

// judgeRotation finds a disc speed outside the stated range.
func (d discs) judgeRotation(r *Result, log *ledger) {
	if d.rotation == d.disc.Rotation {
		return
	}
	r.WithinRange = false
	log.find(compared(finding.Finding{
		Code: CodeRotationOutOfRange, Severity: finding.Stop, Subject: atRotation,
		Message: fmt.Sprintf("The discs are asked to turn at %s but their range ends at %s. The drops were worked out at %s. Set the disc speed inside the range.",
			inRPM(d.disc.Rotation), inRPM(d.rotation), inRPM(d.rotation)),
		Source: sourceMission,
	}, d.disc.Rotation, d.rotation, d.disc.Rotation > d.rotation))
}

// judge finds what makes the droplet size of discs uncertain or prone to drift.
func (d discs) judge(flow units.Flow, log *ledger) {
	// Wang et al. 2023.
	log.find(finding.Finding{
		Code: CodeRotaryDrift, Severity: finding.Caution, Subject: atSystem,
		Message: "Spinning discs drift more than pressure nozzles with drops of the same size: in a wind tunnel 90 % of their spray went past 2 m, against 41 % for a flat fan. " +
			"Slow the discs down for bigger drops, fly lower, and keep a wider buffer.",
		Source: sourceWang,
	})
	if !d.measured.known() {
		if units.AtMost(flow, mostFlowPerDisc) {
			return
		}
		log.find(compared(finding.Finding{
			Code: CodeSizeStretched, Severity: finding.Caution, Subject: atCount,
			Message: fmt.Sprintf("Each disc gets %s. Above %s the liquid leaves a disc in sheets and the drop size cannot be worked out well. Use more discs, fly slower, or send measured spectra.",
				inGPM(flow), inGPM(mostFlowPerDisc)),
			Source: sourceSpinningDisc,
		}, flow, mostFlowPerDisc, true))
		return
	}
	if _, beyond := d.measured.at(d.rotation.SI()); math.Abs(beyond) > units.Tolerance {
		log.find(finding.Finding{
			Code: CodeSizeStretched, Severity: finding.Caution, Subject: atDiscSpectra,
			Message: fmt.Sprintf("No spectrum was measured at %s. The nearest one was carried over by the rule that drop size goes as one over disc speed. Get a spectrum measured at the disc speed you use.",
				inRPM(d.rotation)),
			Source: sourceSpinningDisc,
		})
	}
}
