package takeoff

import (
	"slices"

	"tractcheck/feasibility/finding"
)

// The sources of the room. The standing says how each was checked: the definition of a small
// aircraft was read; what the caller states of the machine is the maker's word, as the trade takes
// it; the effect of thin air is from memory and therefore decides no stop.
var (
	smallAircraftRule = finding.Source{
		ID: "14-cfr-107-3",
		Citation: "14 CFR 107.3, definition of small unmanned aircraft: weighing less than 55 pounds on takeoff, " +
			"including everything that is on board or otherwise attached; the same line in FAA, Section 44807 page",
		Standing: finding.Read,
	}
	makerRule = finding.Source{
		ID:       "maker-maximum-takeoff-weight",
		Citation: "the maximum takeoff weight that the aircraft's maker declares, as sent by the caller (common practice: the maker's limit holds)",
		Standing: finding.CommonPractice,
	}
	deratingRule = finding.Source{
		ID:       "thrust-and-air-density",
		Citation: "blade-element theory: thrust at a fixed rotor speed is proportional to air density (from memory); an estimate, to be replaced by the maker's altitude table",
		Standing: finding.FromMemory,
	}
	tankRule = finding.Source{
		ID:       "tank-capacity",
		Citation: "the tank capacity as sent by the caller (common practice: a tank holds no more than its mark)",
		Standing: finding.CommonPractice,
	}
	waterDensity = finding.Source{
		ID:       "water-density-4c",
		Citation: "Tanaka et al. 2001, Metrologia 38:301, density of water: 0.99997 kg/L at 4 C, 8.345 lb/gal (from memory)",
		Standing: finding.FromMemory,
	}
	liquidDensities = finding.Source{
		ID:       "nebraska-cropwatch-2016",
		Citation: "University of Nebraska-Lincoln CropWatch, 2016, Setting the sprayer flow rate for non-water solutions, table 1",
		Standing: finding.Read,
	}
	ownChoice = finding.Source{
		ID:       "takeoff-own-choices",
		Citation: "choices of this project: fill taken as the largest allowed when not stated, warning bands around the limits",
		Standing: finding.OwnDesign,
	}
)

// sources lists every source of the room in the order they are reported: law, machine, liquid, and
// last the choices made here.
func sources() []finding.Source {
	return []finding.Source{
		smallAircraftRule, makerRule, deratingRule, tankRule, waterDensity, liquidDensities, ownChoice,
	}
}

// sourceOf names the source of each limit.
func sourceOf(code LimitCode) finding.Source {
	switch code {
	case SmallUnmannedAircraft:
		return smallAircraftRule
	case MakerMaximum:
		return makerRule
	case DensityAltitude:
		return deratingRule
	default:
		return tankRule
	}
}

// sourcesOf lists the sources a result stands on, each once, in the room's order.
func sourcesOf(r Result) []finding.Source {
	list := make([]finding.Source, 0, len(sourcesTable))
	for _, source := range sourcesTable {
		if r.cites(source.ID) {
			list = append(list, source)
		}
	}
	return list
}

// sourcesTable is Sources, built once; it never changes.
var sourcesTable = sources()

// cites reports whether a limit, a finding or an assumption rests on a source.
func (r *Result) cites(id string) bool {
	return slices.ContainsFunc(r.Limits, func(l Limit) bool { return sourceOf(l.Code).ID == id }) ||
		slices.ContainsFunc(r.Findings, func(f finding.Finding) bool { return f.Source.ID == id }) ||
		slices.ContainsFunc(r.Assumptions, func(a finding.Assumption) bool { return a.Source.ID == id })
}
