package permits

// certificationRules is what the states and pesticide law ask of the applicator. Aircraft weight
// changes nothing in pesticide law.
func certificationRules() []Rule {
	return []Rule{restrictedUseCertification(), aerialCategory(), stateApplicatorLicense(), stateAndLocalRules()}
}

// restrictedUse judges whether the label restricts use to certified applicators.
func (v *view) restrictedUse() Judgment { return v.once(restrictedUse, (*view).judgeRestrictedUse) }

func (v *view) judgeRestrictedUse() Judgment {
	return v.and(v.poison, stated(v.Label.RestrictedUse, "/load/product_label/restricted_use",
		"the label says restricted use", "the label does not say restricted use", "whether the label says restricted use"))
}

// restrictedUseCertification is 7 USC 136(e) and 136j(a)(2)(F); 40 CFR 171.1(b), 171.103, 171.105.
func restrictedUseCertification() Rule {
	return Rule{
		ID:          "restricted-use-certification",
		Title:       "Certified applicator for restricted-use pesticide",
		Kind:        Permit,
		Group:       GroupCertification,
		Regimes:     BothRegimes,
		AppliesWhen: "the label says restricted use",
		Demands:     "an applicator certified in the state, or someone directly supervised by one: private for a commodity on land owned or rented, otherwise commercial, at least 18 years old",
		Citation:    "7 USC 136(e), 136j(a)(2)(F); 40 CFR 171.1(b), 171.103, 171.105",
		HowToGet:    "pass the exam of the state lead agency",
		Validity:    "set by the state, at most 5 years (from memory, 40 CFR 171.107)",
		Evidence:    "card valid in the state where the job is",
		Grade:       GradeRead,
		Sources:     []string{"cfr-40-171"},
		applies:     (*view).restrictedUse,
	}
}

// aerialCategory is the aerial pest control category. States adopt categories as needed (40 CFR part
// 171, read); that the federal list has one (171.101) is from memory.
func aerialCategory() Rule {
	return Rule{
		ID:          "aerial-category",
		Title:       "Aerial category on the applicator certificate",
		Kind:        Permit,
		Group:       GroupCertification,
		Regimes:     BothRegimes,
		AppliesWhen: "a pesticide, and either restricted use or a state that asks for the category; unknown until the state is named and its answer is sent",
		Demands:     "the aerial pest control category or endorsement of the state",
		Citation:    "40 CFR 171.101; state law",
		HowToGet:    "ask the state lead agency which category it wants for unmanned aircraft, and pass its exam",
		Validity:    "set by the state",
		Evidence:    "card",
		Grade:       GradeSecondHand,
		Sources:     []string{"umn-2025", "cfr-40-171"},
		DependsOn:   []string{"restricted-use-certification"},
		applies: func(v *view) Judgment {
			asked := stated(v.StateAsksAerialCategory, "/operation/state_asks_aerial_category",
				"the state asks for an aerial category", "the state asks for no aerial category",
				"whether the state asks for an aerial category for this product")
			return v.and(v.poison, v.stateKnown(), v.or(v.restrictedUse(), asked))
		},
	}
}

// stateApplicatorLicense is state law, as two published texts describe it.
func stateApplicatorLicense() Rule {
	return Rule{
		ID:          "state-applicator-license",
		Title:       "State commercial applicator license",
		Kind:        Permit,
		Group:       GroupCertification,
		Regimes:     BothRegimes,
		AppliesWhen: "a pesticide applied commercially; unknown until the state is named",
		Demands:     "the state's commercial license and business license, and in some states aerial insurance, an aircraft decal or pilot registration",
		Citation:    "state law",
		HowToGet:    "apply to the state lead agency",
		Validity:    "set by the state, usually one year",
		Evidence:    "license",
		Grade:       GradeSecondHand,
		Sources:     []string{"naaa-2023", "umn-2025"},
		applies:     func(v *view) Judgment { return v.and(v.poison, v.purpose(Commercial), v.stateKnown()) },
	}
}

// stateAndLocalRules is never answered here: this table knows no state, county or town rule.
func stateAndLocalRules() Rule {
	return Rule{
		ID:          "state-and-local-rules",
		Title:       "State, county and town rules",
		Kind:        Duty,
		Group:       GroupCertification,
		Regimes:     BothRegimes,
		AppliesWhen: "always; always unknown here",
		Demands:     "county or town rules, permits, notices, no-spray and pollinator rules",
		Citation:    "state and local law",
		HowToGet:    "check with your state lead agency and the local authority",
		Evidence:    "note of the call made",
		Grade:       GradeSecondHand,
		Sources:     []string{"umn-2025"},
		applies: func(*view) Judgment {
			return missing("what the state, county and town ask; check with your state lead agency", "/operation/state")
		},
	}
}
