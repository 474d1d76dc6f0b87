package permits

// aircraftRules is registration and remote identification.
func aircraftRules() []Rule {
	return []Rule{registrationSmall(), registrationLarge(), remoteID(), foreignAircraftPermit()}
}

// registrationSmall is 14 CFR 107.13 with 48.1(b) and 48.15; part 47 serves instead (48.1(b)(2)).
func registrationSmall() Rule {
	return Rule{
		ID:          "registration-small",
		Title:       "Registration under part 48",
		Kind:        Permit,
		Group:       GroupAircraft,
		Regimes:     SmallOnly,
		AppliesWhen: "under 55 lb on takeoff",
		Demands:     "the aircraft is registered and marked, with the number visible outside",
		Citation:    "14 CFR 107.13, 48.1(b), 48.15",
		HowToGet:    "register with the FAA online; a part 47 registration serves as well",
		Validity:    "3 years",
		Evidence:    "registration certificate and the mark on the aircraft",
		Grade:       GradeRead,
		Sources:     []string{"cfr-48", "ksu-agronomy"},
		HeldBy:      []Equivalent{{ID: "registration-large"}},
		applies:     func(*view) Judgment { return always("every aircraft flown must be registered") },
	}
}

// registrationLarge is 14 CFR parts 45 and 47. Published texts disagree whether it comes before
// the petition; the FAA path registers first.
func registrationLarge() Rule {
	return Rule{
		ID:          "registration-large",
		Title:       "Registry number under part 47",
		Kind:        Permit,
		Group:       GroupAircraft,
		Regimes:     LargeOnly,
		AppliesWhen: "55 lb and over on takeoff; part 48 is closed to it",
		Demands:     "a registry number under part 47 and marks under part 45",
		Citation:    "14 CFR parts 45 and 47",
		HowToGet:    "send form AC 8050-1, proof of ownership and a sworn description with the maximum takeoff weight to the registry; texts disagree whether this comes before the petition, and the FAA's list of steps registers first",
		Validity:    "7 years (from memory; a training text still says 3)",
		Evidence:    "certificate and registry number",
		Grade:       GradeSecondHand,
		Sources:     []string{"part-47-summaries", "research-note-2026"},
		applies:     func(*view) Judgment { return always("every aircraft flown must be registered") },
	}
}

// remoteID is 14 CFR 89.105, in force since 2023-09-16.
func remoteID() Rule {
	return Rule{
		ID:          "remote-id",
		Title:       "Remote identification",
		Kind:        Permit,
		Group:       GroupAircraft,
		Regimes:     BothRegimes,
		AppliesWhen: "every registered aircraft at any weight, save part 91 flights that send ADS-B Out",
		Demands:     "broadcast from takeoff to shutdown by a standard aircraft (89.110) or a module (89.115); the serial number stands on the registration",
		Citation:    "14 CFR 89.105, 89.110, 89.115",
		HowToGet:    "fly an aircraft or fit a module on the FAA's accepted list and add its serial number to the registration; an authorization to deviate is possible (89.120)",
		Validity:    "with the registration",
		Evidence:    "declaration number; serial number on the certificate",
		Grade:       GradeSecondHand,
		Sources:     []string{"cfr-89"},
		DependsOn:   []string{"registration-small", "registration-large"},
		applies:     func(*view) Judgment { return always("every registered aircraft must send it") },
	}
}

// foreignAircraftPermit is 14 CFR 375.41, as named in sample grants.
func foreignAircraftPermit() Rule {
	return Rule{
		ID:          "foreign-aircraft-permit",
		Title:       "Permit for a foreign civil aircraft",
		Kind:        Permit,
		Group:       GroupAircraft,
		Regimes:     BothRegimes,
		AppliesWhen: "the aircraft is registered in another country",
		Demands:     "a permit for foreign civil aircraft",
		Citation:    "14 CFR 375.41",
		HowToGet:    "apply under 14 CFR 375.43",
		Validity:    "as printed on the permit",
		Evidence:    "permit",
		Grade:       GradeSecondHand,
		Sources:     []string{"sample-grants"},
		applies: func(v *view) Judgment {
			return stated(v.ForeignRegistered, "/operation/foreign_registered",
				"the aircraft is registered in another country", "the aircraft is not registered in another country",
				"whether the aircraft is registered in another country")
		},
	}
}
