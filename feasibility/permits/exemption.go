package permits

// exemptionRules is the grants of exemption and what comes with them.
func exemptionRules() []Rule {
	return []Rule{
		exemptionSmall(), hazmatRelief(), exemptionLarge(), approvedList(), coaLarge(),
		documentsAtStation(), operationalValidation(),
	}
}

// petitionLead is the time before need at which a petition must be filed. 14 CFR 11.63(d).
const petitionLead = "file 120 days before it is needed (14 CFR 11.63(d))"

// exemptionSmall is the grant under 55 lb: relief from sections of part 137 that an unmanned
// aircraft cannot meet, and from 107.36 where the mix may be hazardous. 14 CFR part 11; 107.36.
// A grant for 55 lb and over does not serve, nor the reverse, unless the caller lists both.
func exemptionSmall() Rule {
	return Rule{
		ID:          "exemption-small-agricultural",
		Title:       "Exemption for agricultural work under 55 lb",
		Kind:        Permit,
		Group:       GroupExemption,
		Regimes:     SmallOnly,
		AppliesWhen: "under 55 lb, agricultural, and the operator is not a public agency",
		Demands:     "a grant of exemption from the part 137 sections an unmanned aircraft cannot meet, and from 107.36 where the mix is or may be a hazardous material",
		Citation:    "14 CFR part 11; 14 CFR 107.36; 49 USC 44701(f), 44807",
		HowToGet:    "petition the FAA under part 11; a summary grant is possible where an earlier one is alike",
		Validity:    "the date printed on the grant",
		LeadTime:    petitionLead,
		Lead:        120 * day,
		Evidence:    "grant letter and number, and proof that its conditions are followed",
		Grade:       GradeSecondHand,
		Sources:     []string{"faa-137-uas", "cfr-11", "naaa-uas"},
		DependsOn:   []string{"remote-pilot-certificate", "registration-small"},
		applies: func(v *view) Judgment {
			return v.otherGrant(v.certificated(), "exemption-large-agricultural",
				"your grant for 55 lb and over does not cover this lighter takeoff, unless its text says so")
		},
	}
}

// otherGrant adds, where the row binds, that the grant of the other regime does not serve.
func (v *view) otherGrant(j Judgment, other, warning string) Judgment {
	if j.Truth != No && v.holds(other) {
		j.Because = v.say(j.Because, "; ", warning)
	}
	return j
}

// hazmatRelief is 14 CFR 107.36: no hazardous material on a small unmanned aircraft. The section is
// absent from the waivable list of 107.205 and the FAA says that the ban cannot be waived; only an
// exemption under part 11 lifts it. A pesticide counts as hazardous until shown otherwise.
func hazmatRelief() Rule {
	return Rule{
		ID:          "hazmat-relief",
		Title:       "Relief from the ban on hazardous materials",
		Kind:        Permit,
		Group:       GroupExemption,
		Regimes:     SmallOnly,
		AppliesWhen: "under 55 lb, not a public agency, and the mix is or may be a hazardous material; a pesticide counts as one until its safety data sheet shows otherwise",
		Demands:     "relief from 107.36, named in the grant",
		Citation:    "14 CFR 107.36; 49 CFR 171.8",
		HowToGet:    "ask for it in the petition for exemption; no part 107 waiver can lift 107.36 (14 CFR 107.205)",
		Validity:    "as the grant",
		LeadTime:    petitionLead,
		Lead:        120 * day,
		Evidence:    "grant text naming 107.36; safety data sheet, section 14",
		Grade:       GradeRead,
		Sources:     []string{"cfr-107-36-205", "faa-dangerous-goods"},
		DependsOn:   []string{"remote-pilot-certificate", "registration-small"},
		applies:     func(v *view) Judgment { return v.and(v.civil(), v.hazardous()) },
	}
}

// hazardous judges whether the mix is a hazardous material under 49 CFR 171.8.
func (v *view) hazardous() Judgment {
	if v.Hazmat == nil && v.poison.Truth == Yes {
		return fact(true, "/operation/hazmat",
			"the mix is a pesticide and the request does not say that it is no hazardous material, so it counts as one", "")
	}
	return stated(v.Hazmat, "/operation/hazmat",
		"the mix is a hazardous material", "the mix is no hazardous material",
		"whether the mix is a hazardous material (safety data sheet, section 14)")
}

// exemptionLarge is the grant at 55 lb and over. 49 USC 44807; 14 CFR 11.63, 11.81.
func exemptionLarge() Rule {
	return Rule{
		ID:          "exemption-large-agricultural",
		Title:       "Exemption for 55 lb and over",
		Kind:        Permit,
		Group:       GroupExemption,
		Regimes:     LargeOnly,
		AppliesWhen: "55 lb and over, and the operator is not a public agency",
		Demands:     "a grant under 49 USC 44807 with relief from sections of parts 61, 91 and 137",
		Citation:    "49 USC 44807; 14 CFR 11.63, 11.81",
		HowToGet:    "petition with what 14 CFR 11.81 lists; the FAA also asks for the concept of operations, manuals, checklists, training, flight history and a risk analysis",
		Validity:    "the date printed on the grant; the statute itself ends 2033-09-30",
		LeadTime:    petitionLead,
		Lead:        120 * day,
		Evidence:    "grant letter and number at the control station",
		Grade:       GradeRead,
		Sources:     []string{"usc-44807", "cfr-11", "faa-44807"},
		DependsOn:   []string{"remote-pilot-certificate", "registration-large"},
		applies: func(v *view) Judgment {
			return v.otherGrant(v.civil(), "exemption-small-agricultural",
				"your grant for under 55 lb does not cover this heavier takeoff, unless its text says so")
		},
	}
}

// approvedList is the condition of sample grants that only listed models fly, at listed weights
// (FAA docket FAA-2023-1271).
func approvedList() Rule {
	return Rule{
		ID:          "aircraft-on-approved-list",
		Title:       "Aircraft and weight on the FAA list of approved agricultural aircraft",
		Kind:        Limit,
		Group:       GroupExemption,
		Regimes:     LargeOnly,
		AppliesWhen: "55 lb and over; broken when the model is not on the list or the takeoff weight is over the listed one",
		Demands:     "the model and its maximum takeoff weight are on the FAA list (docket FAA-2023-1271)",
		Citation:    "conditions of the grants; FAA docket FAA-2023-1271",
		HowToGet:    "fly a listed model within its listed weight, or file a new or amended petition",
		Relief:      ReliefGrant,
		Validity:    "the list changes; check it for each season",
		Evidence:    "list entry with the date it was checked",
		Grade:       GradeSecondHand,
		Sources:     []string{"sample-grants"},
		DependsOn:   []string{"exemption-large-agricultural"},
		applies:     func(v *view) Judgment { return v.or(v.offList(), v.overListed()) },
	}
}

func (v *view) offList() Judgment {
	return Not(stated(v.OnApprovedList, "/operation/on_approved_list",
		"the model is on the FAA list", "the model is not on the FAA list",
		"whether the model is on the FAA list of approved aircraft"))
}

func (v *view) overListed() Judgment {
	if v.ApprovedWeight == nil || !known(*v.ApprovedWeight) {
		return missing("the maximum takeoff weight on the FAA list", "/operation/approved_weight")
	}
	if !known(v.TakeoffWeight) {
		return missing("the takeoff weight", "/aircraft/empty_weight")
	}
	return over(v, v.TakeoffWeight, *v.ApprovedWeight, "/operation/approved_weight",
		v.say(v.poundsBeside(v.TakeoffWeight, *v.ApprovedWeight), " on takeoff, listed maximum ", v.pounds(*v.ApprovedWeight)))
}

// coaLarge is the air-traffic authorization of the exemption. 14 CFR 91.903 and following. That it
// binds was read on the FAA page; its details are from memory.
func coaLarge() Rule {
	return Rule{
		ID:          "coa-large",
		Title:       "Air-traffic authorization (COA)",
		Kind:        Permit,
		Group:       GroupExemption,
		Regimes:     LargeOnly,
		AppliesWhen: "55 lb and over",
		Demands:     "the certificate of waiver or authorization that comes with or follows the exemption; fly inside its airspace, height and notice terms",
		Citation:    "14 CFR 91.903 and following; conditions of the grant",
		HowToGet:    "comes with the exemption, or ask the FAA for one; other airspace needs its own request",
		Validity:    "as printed on the document",
		Evidence:    "its text, and the notice to airmen where it asks for one",
		Grade:       GradeRead,
		Sources:     []string{"faa-137-uas"},
		DependsOn:   []string{"exemption-large-agricultural"},
		applies:     func(*view) Judgment { return always("flights at 55 lb and over need one") },
	}
}

// documentsAtStation is a condition of sample grants.
func documentsAtStation() Rule {
	return Rule{
		ID:          "operating-documents-at-station",
		Title:       "Operating documents at the control station",
		Kind:        Duty,
		Group:       GroupExemption,
		Regimes:     LargeOnly,
		AppliesWhen: "55 lb and over",
		Demands:     "manuals, exemption, air-traffic authorization and radio authorization within the pilot's reach; where texts differ the stricter one wins",
		Citation:    "conditions of the grants",
		HowToGet:    "keep one folder at the control station",
		Evidence:    "folder",
		Grade:       GradeSecondHand,
		Sources:     []string{"sample-grants"},
		applies:     func(*view) Judgment { return always("sample grants ask for it on every flight") },
	}
}

// operationalValidation tells what the FAA does with holders and petitioners.
func operationalValidation() Rule {
	return Rule{
		ID:          "operational-validation",
		Title:       "FAA checks and requests for information",
		Kind:        Notice,
		Group:       GroupExemption,
		Regimes:     BothRegimes,
		AppliesWhen: "an exemption is sought or held",
		Demands:     "answer a request for information at once: the FAA closes a petition left unanswered, and checks that holders keep to exemption, certificate and air-traffic authorization",
		Citation:    "FAA part 137 page for unmanned aircraft",
		LeadTime:    "answer at once",
		Evidence:    "correspondence",
		Grade:       GradeRead,
		Sources:     []string{"faa-137-uas"},
		applies: func(v *view) Judgment {
			heavy := fact(v.regime == LargeRegime, "/load/fill", "the takeoff is at 55 lb or over", "the takeoff is under 55 lb")
			return v.and(v.civil(), v.or(heavy, v.agri))
		},
	}
}
