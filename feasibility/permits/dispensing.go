package permits

// dispensingRules is how part 137 bounds the dispensing itself.
func dispensingRules() []Rule {
	return []Rule{
		noHazardDispensing(), lowFlightPermission(), congestedAreaApproval(), congestedAreaPilotAircraft(),
	}
}

// noHazardDispensing is 14 CFR 137.37; grants never remove it.
func noHazardDispensing() Rule {
	return Rule{
		ID:          "no-hazard-dispensing",
		Title:       "Nothing dispensed so as to endanger anyone",
		Kind:        Duty,
		Group:       GroupJob,
		Regimes:     BothRegimes,
		AppliesWhen: "agricultural",
		Demands:     "nothing is dispensed in a way that endangers people or property on the ground; no grant removes this",
		Citation:    "14 CFR 137.37",
		HowToGet:    "write a drift plan with the wind and distance at which spraying stops",
		Evidence:    "drift plan and stop rule",
		Grade:       GradeSecondHand,
		Sources:     []string{"research-note-2026"},
		applies:     func(v *view) Judgment { return v.agri },
	}
}

// lowFlightPermission is 14 CFR 137.49.
func lowFlightPermission() Rule {
	return Rule{
		ID:          "low-flight-permission",
		Title:       "Low flight while dispensing",
		Kind:        Notice,
		Group:       GroupJob,
		Regimes:     BothRegimes,
		AppliesWhen: "agricultural, not over a congested area",
		Demands:     "during dispensing, approach, departure and turns the aircraft may be below 500 ft and closer than 500 ft to people, vessels, vehicles and structures if it makes no hazard; the distance in a grant still binds",
		Citation:    "14 CFR 137.49",
		Grade:       GradeRead,
		Sources:     []string{"cfr-107-137-2026"},
		applies:     func(v *view) Judgment { return v.and(v.agri, Not(v.congested())) },
	}
}

// overCongested judges whether a commercial operator works over a congested area.
func (v *view) overCongested() Judgment { return v.and(v.congested(), v.purpose(Commercial)) }

// congestedAreaApproval is 14 CFR 137.51(b); grants never remove it.
func congestedAreaApproval() Rule {
	return Rule{
		ID:          "congested-area-approval",
		Title:       "Approval over a congested area",
		Kind:        Permit,
		Group:       GroupJob,
		Regimes:     BothRegimes,
		AppliesWhen: "commercial over a congested area",
		Demands:     "three parts for each operation: written approval of the local governing body, effective notice to the public, and a plan approved by the FAA with obstructions, emergency landing and air-traffic coordination",
		Citation:    "14 CFR 137.51(b)",
		HowToGet:    "ask the local governing body first, then send the plan to the FAA office; some grants forbid it outright (from memory), so read yours",
		Validity:    "each operation",
		Evidence:    "approval letter, notice, plan",
		Grade:       GradeRead,
		Sources:     []string{"cfr-137-51"},
		DependsOn:   []string{"agricultural-operator-certificate"},
		applies:     (*view).overCongested,
	}
}

// congestedAreaPilotAircraft is 14 CFR 137.53: the quick dump was read (137.53(c)), the hours are
// from memory.
func congestedAreaPilotAircraft() Rule {
	return Rule{
		ID:          "congested-area-pilot-aircraft",
		Title:       "Pilot and aircraft over a congested area",
		Kind:        Permit,
		Group:       GroupJob,
		Regimes:     BothRegimes,
		AppliesWhen: "commercial over a congested area",
		Demands:     "pilot: 25 hours in type, 10 of them in the last 12 months, and 100 hours dispensing; aircraft: inspected within 100 hours, and able to drop half its load within 45 seconds unless it is a helicopter",
		Citation:    "14 CFR 137.53",
		HowToGet:    "show the hours and the inspection, or have the exemption cover it",
		Evidence:    "pilot and maintenance logs",
		Grade:       GradeMemory,
		Sources:     []string{"cfr-107-137-2026", "cfr-14-memory"},
		DependsOn:   []string{"agricultural-operator-certificate"},
		applies:     (*view).overCongested,
	}
}
