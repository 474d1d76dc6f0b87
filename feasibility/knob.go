package feasibility

import (
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/units"
)

// lowestHeight is how low a remedy may bring the release: 2 m above the crop, the height that
// guidance for spraying multirotors names as usual.
// Source: Japanese ministry's guidance for unmanned aerial application (from memory); the
// operator may choose lower.
const lowestHeight = 2 * units.Meter

// insideRange keeps a remedy's speed a little inside the range that holds the rate, so that
// rounding or a gust does not put it out again. Own design.
const insideRange units.Proportion = 0.02

// leastUsefulFill is the part of the tank below which a smaller fill is no remedy: the job would
// take ten times the flights of a full tank or more. Own design.
const leastUsefulFill = 0.1

// trial is one change of the mission worth trying.
type trial struct {
	changes []Change
	mission Mission
}

// trials lists the single changes worth trying on a mission, from what its answer shows.
// The list is short and fixed, so the work is bounded.
func trials(m Mission, a Answer) []trial {
	var all []trial
	for _, propose := range []func(Mission, Answer) (trial, bool){
		smallerFill, speedInsideRange, slowest, labelRate, fittingNozzle, slowDisc, lower, labelHeight,
	} {
		if t, worth := propose(m, a); worth {
			all = append(all, t)
		}
	}
	return all
}

// smallerFill fills no more than the largest fill within every limit, where that is worth flying.
func smallerFill(m Mission, a Answer) (trial, bool) {
	largest := units.SignificantDown(a.TakeoffWeight.LargestFill.Volume, significantDigits)
	if m.Load.Fill == nil || largest <= 0 || units.AtMost(*m.Load.Fill, largest) {
		return trial{}, false
	}
	if units.StrictlyBelow(largest, leastUsefulFill*m.Aircraft.TankCapacity) {
		return trial{}, false
	}
	change := Change{"/load/fill", *m.Load.Fill, largest}
	m.Load.Fill = &largest
	return trial{[]Change{change}, m}, true
}

// speedInsideRange flies at the nearest speed at which the nozzles hold the rate.
func speedInsideRange(m Mission, a Answer) (trial, bool) {
	window := a.RatePressure.SpeedRange
	if a.RatePressure.WithinRange || window.Highest <= 0 || window.Highest < window.Lowest {
		return trial{}, false
	}
	target := window.Highest * units.Speed(1-insideRange)
	if m.Flight.Speed < window.Lowest {
		target = window.Lowest * units.Speed(1+insideRange)
	}
	return withSpeed(m, min(max(target, window.Lowest), window.Highest))
}

// slowest flies near the slow end of the range that holds the rate: less pressure, larger drops.
func slowest(m Mission, a Answer) (trial, bool) {
	target := a.RatePressure.SpeedRange.Lowest * units.Speed(1+insideRange)
	if target <= 0 || m.Flight.Speed <= target {
		return trial{}, false
	}
	return withSpeed(m, target)
}

func withSpeed(m Mission, speed units.Speed) (trial, bool) {
	speed = units.Significant(speed, 4)
	if speed <= 0 {
		return trial{}, false
	}
	flight := *m.Flight
	change := Change{"/flight/speed", flight.Speed, speed}
	flight.Speed = speed
	m.Flight = &flight
	return trial{[]Change{change}, m}, true
}

// labelRate applies the least volume that the label asks for by air.
func labelRate(m Mission, _ Answer) (trial, bool) {
	least := m.Load.Label.MinRate
	if least == nil || units.AtLeast(m.Load.ApplicationRate, *least) {
		return trial{}, false
	}
	change := Change{"/load/application_rate", m.Load.ApplicationRate, *least}
	m.Load.ApplicationRate = *least
	return trial{[]Change{change}, m}, true
}

// fittingNozzle takes a size of ISO 10625 that holds the rate at this speed inside the working
// range: the middle one of those that do, so that there is pressure to spare both ways.
func fittingNozzle(m Mission, a Answer) (trial, bool) {
	nozzle := m.SpraySystem.System.Hydraulic
	if nozzle == nil || a.RatePressure.WithinRange {
		return trial{}, false
	}
	var fitting []trial
	for _, size := range spray.NozzleSizes() {
		if t := withSize(m, *nozzle, size); spray.Hold(t.mission.SpraySystem.System, t.mission.sprayJob(a.TakeoffWeight)).WithinRange {
			fitting = append(fitting, t)
		}
	}
	if len(fitting) == 0 {
		return trial{}, false
	}
	return fitting[len(fitting)/2], true
}

// withSize puts nozzles of another size on the system. Spectra and classes measured on the old
// size do not hold for the new one and are left out.
func withSize(m Mission, nozzle spray.Hydraulic, size spray.NozzleSize) trial {
	changes := []Change{
		{"/spray_system/nozzle/rated_flow", nozzle.RatedFlow, size.RatedFlow},
		{"/spray_system/nozzle/rated_pressure", nozzle.RatedPressure, size.RatedPressure},
	}
	nozzle.RatedFlow, nozzle.RatedPressure = size.RatedFlow, size.RatedPressure
	nozzle.Spectra, nozzle.Classes = nil, nil
	system := *m.SpraySystem
	system.System.Hydraulic = &nozzle
	m.SpraySystem = &system
	return trial{changes, m}
}

// slowDisc turns the discs near the slow end of their range: larger drops.
func slowDisc(m Mission, _ Answer) (trial, bool) {
	disc := m.SpraySystem.System.Rotary
	if disc == nil || disc.MinRotation == nil || *disc.MinRotation <= 0 {
		return trial{}, false
	}
	target := units.Significant(*disc.MinRotation*units.RotationRate(1+insideRange), 4)
	if units.AtMost(disc.Rotation, target) {
		return trial{}, false
	}
	slow, system := *disc, *m.SpraySystem
	slow.Rotation = target
	system.System.Rotary = &slow
	m.SpraySystem = &system
	return trial{[]Change{{discRotation, disc.Rotation, target}}, m}, true
}

// discRotation is the pointer of the discs' speed.
const discRotation = "/spray_system/rotary/rotation"

// lower releases the spray at lowestHeight.
func lower(m Mission, _ Answer) (trial, bool) { return withHeight(m, lowestHeight) }

// labelHeight releases the spray at the label's highest release.
func labelHeight(m Mission, _ Answer) (trial, bool) {
	if m.Load.Label.MaxReleaseHeight == nil {
		return trial{}, false
	}
	return withHeight(m, *m.Load.Label.MaxReleaseHeight)
}

func withHeight(m Mission, height units.Length) (trial, bool) {
	if height <= 0 || units.AtMost(m.Flight.Height, height) {
		return trial{}, false
	}
	flight := *m.Flight
	change := Change{"/flight/height", flight.Height, height}
	flight.Height = height
	m.Flight = &flight
	return trial{[]Change{change}, m}, true
}
