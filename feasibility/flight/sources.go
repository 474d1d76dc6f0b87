package flight

import (
	"slices"

	"tractcheck/feasibility/finding"
)

// The sources of the room. Most are from memory, so nothing this room reports stops a job by
// itself; a measured hover time replaces the weakest of them.
var (
	momentumTheory = finding.Source{
		ID:       "leishman-rotor-aerodynamics",
		Citation: "Leishman, Principles of Helicopter Aerodynamics: momentum theory in hover, Glauert's inflow in forward flight, profile power, coaxial rotors (from memory)",
		Standing: finding.FromMemory,
	}
	powerTerms = finding.Source{
		ID:       "sensors-2023-6795",
		Citation: "Sensors 2023, 23(15):6795, table 2, doi 10.3390/s23156795: profile, induced and parasite power with a full parameter set",
		Standing: finding.Read,
	}
	standardAir = finding.Source{
		ID:       "ussa-1976",
		Citation: "US Standard Atmosphere 1976: 1.225 kg/m3 at sea level",
		Standing: finding.Read,
	}
	declaredMachines = finding.Source{
		ID:       "declared-spray-multirotors",
		Citation: "declared masses, rotors, batteries and hover times of five spray multirotors of 10 to 40 L, no wind, sea level (from memory); use with 20 percent either way",
		Standing: finding.FromMemory,
	}
	batteryPractice = finding.Source{
		ID:       "battery-reserve",
		Citation: "usable share of a spray battery 0.80, range 0.70 to 0.85 (from memory)",
		Standing: finding.FromMemory,
	}
	ownChoice = finding.Source{
		ID:       "flight-own-choices",
		Citation: "choices of this project: overall efficiency 0.53 (0.45 to 0.62), drag area by mass, allowance for the pump, a measured hover read as using the whole battery",
		Standing: finding.OwnDesign,
	}
)

// sourcesTable is Sources, built once; it never changes.
var sourcesTable = sources()

// sources lists every source of the room in the order they are reported.
func sources() []finding.Source {
	return []finding.Source{momentumTheory, powerTerms, standardAir, declaredMachines, batteryPractice, ownChoice}
}

// sourcesOf lists the sources a model stands on, each once, in the room's order. The theory always
// counts.
func sourcesOf(m Model) []finding.Source {
	list := make([]finding.Source, 0, len(sourcesTable))
	for _, source := range sourcesTable {
		if source == momentumTheory || source == powerTerms || m.cites(source) {
			list = append(list, source)
		}
	}
	return list
}

// cites reports whether a finding or an assumption of the model stands on a source.
func (m Model) cites(source finding.Source) bool {
	return slices.ContainsFunc(m.Findings, func(f finding.Finding) bool { return f.Source.ID == source.ID }) ||
		slices.ContainsFunc(m.Assumptions, func(a finding.Assumption) bool { return a.Source.ID == source.ID })
}
