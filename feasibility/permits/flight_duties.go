package permits

// flightDutyRules is what every flight asks of its pilot, whatever it carries. All are 14 CFR
// part 107 rules with part 91 or grant counterparts, from memory.
func flightDutyRules() []Rule {
	return []Rule{conditionForFlight(), preflight(), carelessOperation(), rightOfWay()}
}

// conditionForFlight is 14 CFR 107.15, from memory.
func conditionForFlight() Rule {
	return Rule{
		ID:            "condition-for-flight",
		Title:         "Aircraft safe to fly",
		Kind:          Duty,
		Group:         GroupJob,
		Regimes:       BothRegimes,
		AppliesWhen:   "always",
		Demands:       "the aircraft is checked and safe before each flight; stop when it no longer is",
		Citation:      "14 CFR 107.15",
		LargeCitation: "14 CFR 91.7 as relieved by the grant; maintenance manual",
		HowToGet:      "work through the maker's checklist",
		Validity:      "each flight",
		Evidence:      "filled checklist",
		Grade:         GradeMemory,
		Sources:       []string{"cfr-14-memory"},
		applies:       func(*view) Judgment { return always("binds every flight") },
	}
}

// preflight is 14 CFR 107.49, from memory.
func preflight() Rule {
	return Rule{
		ID:            "preflight",
		Title:         "Check of place and crew before flight",
		Kind:          Duty,
		Group:         GroupJob,
		Regimes:       BothRegimes,
		AppliesWhen:   "always",
		Demands:       "check weather, airspace, people and ground hazards; brief the crew; check control links, power, and that the load is secure",
		Citation:      "14 CFR 107.49",
		LargeCitation: "checklist named in the grant",
		HowToGet:      "walk the site and work through the list before the first takeoff",
		Validity:      "each flight",
		Evidence:      "filled checklist",
		Grade:         GradeMemory,
		Sources:       []string{"cfr-14-memory"},
		applies:       func(*view) Judgment { return always("binds every flight") },
	}
}

// carelessOperation is 14 CFR 107.23, from memory.
func carelessOperation() Rule {
	return Rule{
		ID:            "careless-operation",
		Title:         "No careless or reckless flight",
		Kind:          Duty,
		Group:         GroupJob,
		Regimes:       BothRegimes,
		AppliesWhen:   "always",
		Demands:       "no careless or reckless flight; nothing dropped so as to endanger people or property",
		Citation:      "14 CFR 107.23",
		LargeCitation: "14 CFR 91.13, 91.15",
		HowToGet:      "set stop rules with the crew before the flight",
		Grade:         GradeMemory,
		Sources:       []string{"cfr-14-memory"},
		applies:       func(*view) Judgment { return always("binds every flight") },
	}
}

// rightOfWay is 14 CFR 107.37; only its paragraph (a) is in the waivable list of 107.205.
func rightOfWay() Rule {
	return Rule{
		ID:            "right-of-way",
		Title:         "Give way to every other aircraft",
		Kind:          Duty,
		Group:         GroupJob,
		Regimes:       BothRegimes,
		AppliesWhen:   "always",
		Demands:       "give way to every other aircraft, and never come so close as to risk a collision",
		Citation:      "14 CFR 107.37",
		LargeCitation: "conditions of the grant",
		HowToGet:      "agree who watches the sky and how the aircraft gets out of the way; only paragraph (a) can be waived",
		Grade:         GradeSecondHand,
		Sources:       []string{"cfr-107-36-205"},
		applies:       func(*view) Judgment { return always("binds every flight") },
	}
}
