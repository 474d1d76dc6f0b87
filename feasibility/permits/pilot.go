package permits

// pilotRules is who may fly, and how many aircraft at once.
func pilotRules() []Rule {
	return []Rule{
		remotePilotCertificate(), recurrentTraining(), pilotMedical(), pilotInCommand(),
		lineOfSight(), visualObserver(), oneAircraftPerPilot(), alcoholDrugs(),
	}
}

// remotePilotCertificate is 14 CFR 107.12 and 107.61. The FAA asks it of part 137 unmanned pilots
// at any weight. A public agency sets its own standard (from memory), so there the row is unknown.
func remotePilotCertificate() Rule {
	return Rule{
		ID:            "remote-pilot-certificate",
		Title:         "Remote pilot certificate",
		Kind:          Permit,
		Group:         GroupPilot,
		Regimes:       BothRegimes,
		AppliesWhen:   "the operator is not a public agency; an agency sets its own standard",
		Demands:       "a remote pilot certificate with the small unmanned rating, or flight under the direct eye of a holder who can take over at once; age 16, English, knowledge test, vetting",
		Citation:      "14 CFR 107.12, 107.61",
		LargeCitation: "FAA part 137 page for unmanned aircraft; 14 CFR 107.12, 107.61",
		HowToGet:      "apply to the FAA, pass the knowledge test and the vetting",
		Validity:      "does not expire, but needs training in the last 24 calendar months",
		Evidence:      "certificate card and photo identification",
		Grade:         GradeSecondHand,
		Sources:       []string{"cfr-107-137-2024", "faa-137-uas"},
		applies:       pilotStandard,
	}
}

// recurrentTraining is the recency of 14 CFR 107.65.
func recurrentTraining() Rule {
	return Rule{
		ID:            "recurrent-training",
		Title:         "Remote pilot training within 24 months",
		Kind:          Permit,
		Group:         GroupPilot,
		Regimes:       BothRegimes,
		AppliesWhen:   "as for the remote pilot certificate",
		Demands:       "in the last 24 calendar months: the initial test, recurrent training, or for part 61 pilots with a flight review the 107.74 course",
		Citation:      "14 CFR 107.65",
		LargeCitation: "FAA part 137 page for unmanned aircraft; 14 CFR 107.65",
		HowToGet:      "take the recurrent training online, done the same day",
		Validity:      "24 calendar months",
		LeadTime:      "online, same day",
		Evidence:      "completion record",
		Grade:         GradeRead,
		Sources:       []string{"cfr-107-137-2026", "faa-137-uas"},
		DependsOn:     []string{"remote-pilot-certificate"},
		applies:       pilotStandard,
	}
}

func pilotStandard(v *view) Judgment {
	public := v.purpose(Public)
	if public.Truth == Yes {
		return missing("the pilot standard that the public agency has set", "/operation/purpose")
	}
	return Not(public)
}

// pilotMedical is what the grant says on pilot certificate and medical fitness. Published texts
// disagree, so the row stays unknown until the caller holds what the grant asks.
func pilotMedical() Rule {
	return Rule{
		ID:          "pilot-medical",
		Title:       "Pilot certificate and medical fitness that the grant asks for",
		Kind:        Permit,
		Group:       GroupPilot,
		Regimes:     LargeOnly,
		AppliesWhen: "55 lb and over; unknown until your grant is read, because published texts disagree",
		Demands:     "what your own grant says: newer grants are said to ask no medical certificate, older guidance names one of second or third class",
		Citation:    "14 CFR 61.3, 61.23; conditions of the grant",
		HowToGet:    "read the pilot conditions of your grant and send pilot-medical in holds once you meet them",
		Validity:    "as the medical certificate",
		Evidence:    "grant text, pilot and medical certificates",
		Grade:       GradeSecondHand,
		Sources:     []string{"naaa-uas", "faa-137-uas"},
		heldSettles: true,
		applies: func(*view) Judgment {
			return missing("what your grant asks of the pilot; published texts disagree", "/operation/holds")
		},
	}
}

// pilotInCommand is 14 CFR 107.19, from memory.
func pilotInCommand() Rule {
	return Rule{
		ID:            "remote-pilot-in-command",
		Title:         "One named pilot in command",
		Kind:          Duty,
		Group:         GroupPilot,
		Regimes:       BothRegimes,
		AppliesWhen:   "always",
		Demands:       "one named pilot in command for each aircraft, responsible for the flight",
		Citation:      "14 CFR 107.19",
		LargeCitation: "14 CFR 91.3",
		HowToGet:      "write the name on the job sheet before the flight",
		Validity:      "each flight",
		Evidence:      "job sheet",
		Grade:         GradeMemory,
		Sources:       []string{"cfr-14-memory"},
		applies:       func(*view) Judgment { return always("every flight has one") },
	}
}

// lineOfSight is 14 CFR 107.31.
func lineOfSight() Rule {
	return grantClause(waivable(Rule{
		ID:            "line-of-sight",
		Title:         "Aircraft in sight",
		Kind:          Limit,
		Group:         GroupPilot,
		Regimes:       BothRegimes,
		AppliesWhen:   "always; broken when the aircraft is flown out of sight",
		Demands:       "the pilot, and the observer if used, can see the aircraft with the bare eye throughout, know its place, attitude and height, and see other traffic; a waiver does not reach carrying other people's property for hire",
		Citation:      "14 CFR 107.31",
		LargeCitation: "conditions of the grant; beyond sight only where the grant says so",
		Evidence:      "waiver, or the clause of the grant",
		Grade:         GradeRead,
		Sources:       []string{"cfr-107-31"},
		applies: func(v *view) Judgment {
			return Not(fact(v.LineOfSight, "/operation/line_of_sight",
				"the aircraft stays in sight", "the aircraft is flown out of sight"))
		},
	}))
}

// visualObserver is 14 CFR 107.33. Older grants required an observer, newer ones allow none.
func visualObserver() Rule {
	r := grantClause(waivable(Rule{
		ID:            "visual-observer",
		Title:         "Visual observer briefed and in contact",
		Kind:          Duty,
		Group:         GroupPilot,
		Regimes:       BothRegimes,
		AppliesWhen:   "an observer is used, or the grant requires one",
		Demands:       "constant contact with the pilot, able to see the aircraft, scanning for traffic, knowing its place",
		Citation:      "14 CFR 107.33",
		LargeCitation: "conditions of the grant: older ones require an observer, newer ones allow none",
		Evidence:      "briefing record",
		Grade:         GradeRead,
		Sources:       []string{"cfr-107-31", "naaa-uas"},
		applies:       observerUsed,
		weighs:        true,
	}))
	r.HowToGet = "brief the observer before the flight, agree the words, and stay in contact throughout; only a part 107 waiver of 107.33 frees you of it"
	r.LargeHowToGet = "read what your grant says on observers; where one is required or used, brief that person before the flight and stay in contact throughout"
	r.Validity = "each flight"
	return r
}

func observerUsed(v *view) Judgment {
	if v.VisualObservers == nil {
		return missing("how many visual observers work", "/operation/visual_observers")
	}
	if *v.VisualObservers > 0 {
		return fact(true, "/operation/visual_observers", "a visual observer works on this job", "")
	}
	if v.regime == LargeRegime {
		return missing("whether your grant requires a visual observer; older grants do", "/operation/visual_observers")
	}
	return fact(false, "/operation/visual_observers", "", "no visual observer is used")
}

// alcoholDrugs is 14 CFR 107.27, from memory.
func alcoholDrugs() Rule {
	return Rule{
		ID:            "alcohol-drugs",
		Title:         "No alcohol or drugs",
		Kind:          Duty,
		Group:         GroupPilot,
		Regimes:       BothRegimes,
		AppliesWhen:   "always",
		Demands:       "8 hours since alcohol, under 0.04 percent, and no drug that impairs",
		Citation:      "14 CFR 107.27, 91.17, 91.19",
		LargeCitation: "14 CFR 91.17",
		HowToGet:      "ask each crew member before the flight",
		Grade:         GradeMemory,
		Sources:       []string{"cfr-14-memory"},
		applies:       func(*view) Judgment { return always("binds every crew member") },
	}
}
