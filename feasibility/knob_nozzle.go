package feasibility

import (
	"cmp"
	"math"
	"slices"

	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/units"
)

// The pointers of what belongs to a nozzle.
const (
	nozzleType    = "/spray_system/nozzle/type"
	ratedFlow     = "/spray_system/nozzle/rated_flow"
	ratedPressure = "/spray_system/nozzle/rated_pressure"
	minPressure   = "/spray_system/nozzle/min_pressure"
	maxPressure   = "/spray_system/nozzle/max_pressure"
	fanAngle      = "/spray_system/nozzle/fan_angle"
	spectraRows   = "/spray_system/nozzle/spectra"
	classRows     = "/spray_system/nozzle/classes"
)

// nozzleRooms are the rooms another nozzle moves.
const nozzleRooms = rateRoom | riskRoom | papersRoom

// nozzleSizes are the sizes of ISO 10625, the nearest flow first. The nozzles' kind and stated working
// range stay; drop sizes and classes measured on the old size do not hold for another one and are
// taken out.
func nozzleSizes() choice {
	return choice{knob: KnobNozzleSize, moves: nozzleRooms, options: sizeOptions}
}

func sizeOptions(r *rooms) []option {
	nozzle := r.m.SpraySystem.System.Hydraulic
	if nozzle == nil || !(nozzle.RatedFlow > 0) || !(nozzle.RatedPressure > 0) {
		return nil
	}
	sizes := spray.NozzleSizes()
	off := func(s spray.NozzleSize) float64 { // in flow at the size's rating pressure, by the square law
		here := float64(nozzle.RatedFlow) * math.Sqrt(float64(s.RatedPressure/nozzle.RatedPressure))
		return math.Abs(math.Log(float64(s.RatedFlow) / here))
	}
	const same = 0.01 // nearer than that it is the nozzle there is
	sizes = slices.DeleteFunc(sizes, func(s spray.NozzleSize) bool { return off(s) < same })
	slices.SortStableFunc(sizes, func(a, b spray.NozzleSize) int { return cmp.Compare(off(a), off(b)) })
	options := make([]option, 0, len(sizes))
	for _, s := range sizes {
		options = append(options, withSize(r.m, *nozzle, s))
	}
	return options
}

// withSize puts nozzles of another size on the system, rated as the wire carries the figures.
func withSize(m Mission, nozzle spray.Hydraulic, size spray.NozzleSize) option {
	flow := units.Flow(onWire(float64(size.RatedFlow), unitOr(m.Scales.RatedFlow, units.GallonPerMinute)))
	pressure := units.Pressure(onWire(float64(size.RatedPressure), unitOr(m.Scales.RatedPressure, units.PoundPerSquareInch)))
	changes := []Change{{Pointer: ratedFlow, From: nozzle.RatedFlow, To: flow}}
	if units.AtMost(nozzle.RatedPressure, pressure) && units.AtLeast(nozzle.RatedPressure, pressure) {
		pressure = nozzle.RatedPressure // stays as it was sent
	} else {
		changes = append(changes, Change{Pointer: ratedPressure, From: nozzle.RatedPressure, To: pressure})
	}
	return withNozzle(append(changes, measured(nozzle)...), func(n *spray.Hydraulic) {
		n.RatedFlow, n.RatedPressure = flow, pressure
	})
}

// nozzleTypes are the other kinds of nozzle in the same size, the kind next in coarseness first. The
// working range, the fan angle and what was measured are those of the old kind and are taken out: the
// range usual for the new kind then stands in.
func nozzleTypes() choice {
	return choice{knob: KnobNozzleType, moves: nozzleRooms, options: typeOptions}
}

func typeOptions(r *rooms) []option {
	nozzle := r.m.SpraySystem.System.Hydraulic
	if nozzle == nil {
		return nil
	}
	kinds := []spray.NozzleType{spray.HollowCone, spray.FlatFan, spray.PreOrifice, spray.AirInduction}
	here := slices.Index(kinds, nozzle.Type)
	if here < 0 {
		return nil
	}
	away := func(k spray.NozzleType) int {
		n := slices.Index(kinds, k) - here
		return max(2*n-1, -2*n) // a coarser kind before a finer one as far off
	}
	others := slices.DeleteFunc(slices.Clone(kinds), func(k spray.NozzleType) bool { return k == nozzle.Type })
	slices.SortStableFunc(others, func(a, b spray.NozzleType) int { return cmp.Compare(away(a), away(b)) })
	options := make([]option, 0, len(others))
	for _, kind := range others {
		options = append(options, withType(*nozzle, kind))
	}
	return options
}

func withType(nozzle spray.Hydraulic, kind spray.NozzleType) option {
	changes := []Change{{Pointer: nozzleType, FromWord: string(nozzle.Type), ToWord: string(kind)}}
	if nozzle.MinPressure != nil {
		changes = append(changes, Change{Pointer: minPressure, From: *nozzle.MinPressure, Remove: true})
	}
	if nozzle.MaxPressure != nil {
		changes = append(changes, Change{Pointer: maxPressure, From: *nozzle.MaxPressure, Remove: true})
	}
	if nozzle.FanAngle != nil {
		changes = append(changes, Change{Pointer: fanAngle, From: *nozzle.FanAngle, Remove: true})
	}
	return withNozzle(append(changes, measured(nozzle)...), func(n *spray.Hydraulic) {
		n.Type, n.MinPressure, n.MaxPressure, n.FanAngle = kind, nil, nil, nil
	})
}

// measured lists the removal of what was measured on the old nozzle.
func measured(nozzle spray.Hydraulic) []Change {
	var changes []Change
	if nozzle.Spectra != nil {
		changes = append(changes, Change{Pointer: spectraRows, Remove: true})
	}
	if nozzle.Classes != nil {
		changes = append(changes, Change{Pointer: classRows, Remove: true})
	}
	return changes
}

// withNozzle is the option of another nozzle, nothing measured on it.
func withNozzle(changes []Change, alter func(*spray.Hydraulic)) option {
	return option{changes, func(m Mission) Mission {
		nozzle, system := *m.SpraySystem.System.Hydraulic, *m.SpraySystem
		alter(&nozzle)
		nozzle.Spectra, nozzle.Classes = nil, nil
		system.System.Hydraulic = &nozzle
		m.SpraySystem = &system
		return m
	}}
}
