package spray

import (
	"math"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// Hold works out the flow and pressure that hold the rate, and the spray they make.
//
// It takes any system and job. Rate, speed, swath, count and the ratings must be positive; where
// one is not, the result is zero and a finding names it. A density that is zero or less counts
// as not stated. Outside the working range the controller is taken to hold the pressure (or the
// disc speed) at the nearest limit, and RateDelivered and Droplet are what is then really
// applied. Flow is good to the 5 % of the nozzles' making, droplet size as Droplet.Uncertainty
// says. Sources are in the result. It never panics and gives the same result for the same input.
func Hold(system System, job Job) Result { return hold(system, job, true) }

// Judge is Hold without the curve, which explains the result and decides nothing: all else is the same.
func Judge(system System, job Job) Result { return hold(system, job, false) }

func hold(system System, job Job, curved bool) Result {
	log := newLedger()
	var result Result
	if complete(system, job, log) {
		job.Density = settleDensity(job.Density, log)
		log.cite(sourceMesa)
		result.FlowTotal = job.Rate.Flow(job.Speed, job.Swath)
		result.FlowEach = result.FlowTotal / units.Flow(system.Count)
		if system.Atomizer == RotaryAtomizer {
			holdRotary(&result, system, job, curved, log)
		} else {
			holdHydraulic(&result, system, job, curved, log)
		}
		noteCoverage(job.Rate, log)
	}
	log.close(&result)
	return result
}

// nozzles is a hydraulic system at its job.
type nozzles struct {
	nozzle Hydraulic
	count  units.Count
	job    Job
	limits workingRange
	drops  sizing
}

// holdHydraulic fills the result for hydraulic nozzles.
func holdHydraulic(r *Result, system System, job Job, curved bool, log *ledger) {
	n := nozzles{nozzle: *system.Hydraulic, count: system.Count, job: job}
	n.limits = newWorkingRange(system, job.Density, log)
	n.drops = newSizing(n.nozzle, job, log)
	log.cite(sourceCoreManual, sourceIowa, sourceNebraska, sourceRosinRammler)

	// The controller knows the flow it must hold and finds the pressure that gives it.
	needed := n.nozzle.PressureFor(r.FlowEach, job.Density)
	// Outside a limit the pressure is taken to stop there: what follows is what is really applied.
	used, bound := n.limits.hold(needed)
	r.Pressure, r.PressureUsed = &needed, &used
	r.WithinRange = bound == BoundNone
	r.RateDelivered = job.Rate
	if !r.WithinRange {
		// rate goes with flow, flow with the square root of pressure
		r.RateDelivered *= units.ApplicationRate(math.Sqrt(float64(used / needed)))
	}
	r.Droplet = n.drops.at(used)
	r.SpeedRange = n.speedRange()
	if curved {
		r.Curve = n.curve(r.SpeedRange)
	}

	n.judge(*r, bound, log)
	n.drops.judge(used, log)
	judgeDroplet(r.Droplet, calmerNozzles, log)
	noteHydraulicCatch(n, used, log)
}

// curve works out the points over speed.
func (n nozzles) curve(r SpeedRange) []Point {
	if r.Empty() {
		// The nozzles' own range still shows the trend.
		r.Lowest, r.Highest = n.speedAt(n.limits.low.pressure), n.speedAt(n.limits.high.pressure)
	}
	speeds := roundSpeeds(span(r, n.job.Speed))
	points, pressures := make([]Point, 0, len(speeds)), make([]units.Pressure, len(speeds))
	for i, v := range speeds {
		each := n.job.Rate.Flow(v, n.job.Swath) / units.Flow(n.count)
		p := n.nozzle.PressureFor(each, n.job.Density)
		pressures[i] = shown(p)
		d := n.drops.at(p)
		points = append(points, Point{
			Speed: v, FlowEach: each, Pressure: &pressures[i],
			Class: d.Class, Fines: d.Fines, WithinRange: n.limits.within(p),
		})
	}
	return points
}

// complete reports whether everything that is divided by or multiplied with is there, and finds
// what is not.
func complete(system System, job Job, log *ledger) bool {
	missing := func(absent bool, at, message string) {
		if absent {
			log.find(finding.Finding{
				Code: CodeFactsMissing, Severity: finding.Needed, Subject: at,
				Message: message, Source: sourceMission,
			})
		}
	}
	missing(!(job.Rate > 0), atRate, "The application rate is missing. Send the gallons an acre from the product label.")
	missing(!(job.Speed > 0), atSpeed, "The flight speed is missing. Send the ground speed while spraying.")
	missing(!(job.Swath > 0), atSwath, "The swath is missing. Send the distance between two spray lines.")
	missing(system.Count < 1, atCount, "The number of nozzles or discs is missing. Send how many are working.")
	if system.Atomizer == RotaryAtomizer {
		disc := system.Rotary
		missing(disc == nil || !(disc.DiscDiameter > 0) || !(disc.Rotation > 0), atDisc,
			"The discs are not described. Send disc_diameter and rotation.")
	} else {
		h := system.Hydraulic
		missing(h == nil || !(h.RatedFlow > 0) || !(h.RatedPressure > 0), atNozzle,
			"The nozzles are not described. Send their type, rated_flow and rated_pressure from the nozzle chart.")
	}
	missing(system.Pump != nil && (!(system.Pump.MaxFlow > 0) || !(system.Pump.MaxPressure > 0)), atPump,
		"The pump's figures are not complete. Send max_flow and max_pressure, or leave the pump out.")
	return len(log.findings) == 0
}

// settleDensity takes the density of water where none is stated.
func settleDensity(density units.Density, log *ledger) units.Density {
	if density > 0 {
		return density
	}
	log.assume(atDensity, "8.345 lb/gal, the weight of water", "weigh a gallon of the mix, or send density or specific_gravity from the label", sourceWater)
	return RatingDensity
}
