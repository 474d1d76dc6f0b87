package permits

// operatorRules is who may run the business of dispensing: the part 137 certificate and its tests.
func operatorRules() []Rule {
	return []Rule{
		knowledgeAndSkillTest(), operatorCertificate(), privateOperatorLimits(),
		publicOperationAuthority(), publicAircraftOperation(), chiefSupervisor(),
	}
}

// knowledgeAndSkillTest is 14 CFR 137.19(e) and 137.41(c). Grants drop the maneuvers that make no
// sense unmanned; for unmanned operators the test is given inside the operator's own organization.
// The citation of 137.41(c) is from memory.
func knowledgeAndSkillTest() Rule {
	return Rule{
		ID:          "knowledge-and-skill-test",
		Title:       "Knowledge and skill test of each pilot",
		Kind:        Permit,
		Group:       GroupOperator,
		Regimes:     BothRegimes,
		AppliesWhen: "agricultural, and the operator is not a public agency",
		Demands:     "each pilot shows knowledge (site survey, handling poisons, container disposal, effects on plants, animals and people, signs of poisoning and poison centers, aircraft limits, safe procedures) and the skill maneuvers left after the exemption",
		Citation:    "14 CFR 137.19(e), 137.41(c)",
		HowToGet:    "give the test inside your organization and sign the record; grants drop the maneuvers that make no sense unmanned (137.19(e)(2)(ii), (iii), (v))",
		Validity:    "once for each pilot",
		Evidence:    "signed and dated record",
		Grade:       GradeMemory,
		Sources:     []string{"naaa-uas", "petition-2024", "cfr-14-memory"},
		DependsOn:   []string{"exemption-small-agricultural", "exemption-large-agricultural"},
		applies:     (*view).certificated,
	}
}

// operatorCertificate is 14 CFR 137.11(a), 137.15, 137.19, 137.21. A commercial certificate serves
// for private work, not the reverse (137.35).
func operatorCertificate() Rule {
	return Rule{
		ID:          "agricultural-operator-certificate",
		Title:       "Agricultural aircraft operator certificate",
		Kind:        Permit,
		Group:       GroupOperator,
		Regimes:     BothRegimes,
		AppliesWhen: "agricultural, commercial or private, at every weight",
		Demands:     "an operator certificate of the right type, commercial or private, in the same name as the grant; the exemption does not replace it",
		Citation:    "14 CFR 137.11(a), 137.15, 137.19, 137.21",
		HowToGet:    "send Form 8710-3 with the exemption number to the FAA's unmanned part 137 office (AC 137-1B guides the form)",
		Validity:    "until surrendered, suspended or revoked",
		Evidence:    "certificate and Form 8710-3",
		Grade:       GradeRead,
		Sources:     []string{"cfr-107-137-2026", "faa-137-uas", "sample-grants"},
		HeldBy: []Equivalent{
			{ID: "agricultural-operator-certificate:commercial"},
			{ID: "agricultural-operator-certificate:private", Only: Private},
		},
		DependsOn: []string{
			"remote-pilot-certificate", "exemption-small-agricultural", "hazmat-relief",
			"exemption-large-agricultural", "knowledge-and-skill-test",
		},
		applies: func(v *view) Judgment {
			j := v.certificated()
			if j.Truth == Yes {
				j.Because = v.say(j.Because, "; the certificate must be of type ", string(v.Purpose))
			}
			return j
		},
	}
}

// privateOperatorLimits is 14 CFR 137.35: no hire, no congested area, own land or crop only.
func privateOperatorLimits() Rule {
	return Rule{
		ID:          "private-operator-limits",
		Title:       "Limits of private agricultural flying",
		Kind:        Limit,
		Group:       GroupOperator,
		Regimes:     BothRegimes,
		AppliesWhen: "the purpose is private; broken by pay, a congested area, or land and crop that are not the operator's own",
		Demands:     "no compensation or hire, not over a congested area, and only over land owned or leased or with an own interest in the crop",
		Citation:    "14 CFR 137.35",
		HowToGet:    "nothing lifts this under a private certificate; get the commercial certificate and send purpose commercial",
		Evidence:    "deed, lease or crop-share paper",
		Grade:       GradeRead,
		Sources:     []string{"cfr-107-137-2026"},
		applies: func(v *view) Judgment {
			paid := stated(v.Paid, "/operation/paid", "the job is paid (137.35(a))", "the job is not paid", "whether the job is paid")
			own := stated(v.OwnInterest, "/operation/own_interest",
				"the operator has an interest in the land or crop",
				"the operator has no interest in the land or crop (137.35(c))",
				"whether the operator owns or leases the land or has an interest in the crop")
			return v.and(v.purpose(Private), v.or(paid, v.congested(), Not(own)))
		},
	}
}

// publicOperationAuthority is 49 USC 40102(a)(41) and 40125, from memory.
func publicOperationAuthority() Rule {
	return Rule{
		ID:          "public-operation-authority",
		Title:       "Authority to fly as a public aircraft",
		Kind:        Permit,
		Group:       GroupOperator,
		Regimes:     BothRegimes,
		AppliesWhen: "the purpose is public",
		Demands:     "an FAA certificate of waiver or authorization for public aircraft operations, at any weight",
		Citation:    "49 USC 40102(a)(41), 40125",
		HowToGet:    "ask the FAA for it, or fly as a civil operator and send purpose commercial",
		Validity:    "as printed on the document",
		Evidence:    "the certificate of waiver or authorization",
		Grade:       GradeMemory,
		Sources:     []string{"usc-49-memory"},
		applies:     func(v *view) Judgment { return v.purpose(Public) },
	}
}

// publicAircraftOperation is 14 CFR 137.11(c), from memory, and 137.29(d).
func publicAircraftOperation() Rule {
	return Rule{
		ID:          "public-aircraft-operation",
		Title:       "A public agency needs no operator certificate",
		Kind:        Notice,
		Group:       GroupOperator,
		Regimes:     BothRegimes,
		AppliesWhen: "the purpose is public",
		Demands:     "a government flying public aircraft need not hold the certificate; the flight rules of part 137 subpart C still bind it, save 137.31 to 137.35, 137.41 and 137.53 to 137.59",
		Citation:    "14 CFR 137.11(c), 137.29(d)",
		Evidence:    "statement of public-aircraft status",
		Grade:       GradeMemory,
		Sources:     []string{"cfr-107-137-2024", "cfr-14-memory"},
		applies:     func(v *view) Judgment { return v.purpose(Public) },
	}
}

// chiefSupervisor is 14 CFR 137.41(b), from memory, and the FAA's part 137 eligibility page.
func chiefSupervisor() Rule {
	return Rule{
		ID:          "chief-supervisor",
		Title:       "Named chief supervisor",
		Kind:        Duty,
		Group:       GroupOperator,
		Regimes:     BothRegimes,
		AppliesWhen: "commercial and agricultural",
		Demands:     "a named supervisor who has met 137.19(e); nobody else may supervise",
		Citation:    "14 CFR 137.41(b); FAA part 137 page",
		HowToGet:    "name the person on the application for the certificate",
		Evidence:    "name on the application",
		Grade:       GradeMemory,
		Sources:     []string{"faa-137-eligibility", "cfr-14-memory"},
		applies:     func(v *view) Judgment { return v.and(v.purpose(Commercial), v.agri) },
	}
}
