package permits

import "slices"

// operatorDutyRules is what the holder of an operator certificate keeps and reports.
func operatorDutyRules() []Rule {
	return []Rule{
		certificateCopyCarried(), certificateAtBase(), aircraftEquipment(), beltsFastened(),
		personnelInformed(), businessName(), certificateAmendment(), addressChange(),
	}
}

// certificated judges whether the flight runs under an operator certificate: an agricultural one of an
// operator that is no public agency.
func (v *view) certificated() Judgment {
	return v.once(certificated, func(v *view) Judgment { return v.and(v.agri, v.civil()) })
}

// certificateCopyCarried is 14 CFR 137.33.
func certificateCopyCarried() Rule {
	return Rule{
		ID:          "certificate-copy-carried",
		Title:       "Copy of the certificate with the aircraft",
		Kind:        Duty,
		Group:       GroupOperator,
		Regimes:     BothRegimes,
		AppliesWhen: "agricultural, and the operator is not a public agency",
		Demands:     "a copy of the operator certificate on the aircraft; registration and airworthiness papers at the base",
		Citation:    "14 CFR 137.33",
		HowToGet:    "grants move the copy to the control station: read yours",
		Evidence:    "copy at the control station",
		Grade:       GradeRead,
		Sources:     []string{"cfr-107-137-2024", "petition-2024"},
		applies:     (*view).certificated,
	}
}

// certificateAtBase is 14 CFR 137.57 and 137.59.
func certificateAtBase() Rule {
	return Rule{
		ID:          "certificate-at-base",
		Title:       "Certificate kept at the home base",
		Kind:        Duty,
		Group:       GroupOperator,
		Regimes:     BothRegimes,
		AppliesWhen: "agricultural, and the operator is not a public agency",
		Demands:     "the certificate is kept at the home base and shown to the FAA or any law officer; inspection is allowed at any time",
		Citation:    "14 CFR 137.57, 137.59",
		HowToGet:    "keep it at the base",
		Evidence:    "certificate",
		Grade:       GradeRead,
		Sources:     []string{"cfr-107-137-2026"},
		applies:     (*view).certificated,
	}
}

// aircraftEquipment is 14 CFR 137.31 and 137.19(d).
func aircraftEquipment() Rule {
	return Rule{
		ID:          "aircraft-equipment",
		Title:       "Airworthy, equipped aircraft",
		Kind:        Duty,
		Group:       GroupOperator,
		Regimes:     BothRegimes,
		AppliesWhen: "agricultural, and the operator is not a public agency",
		Demands:     "a certificated, airworthy aircraft with a shoulder harness for each pilot; grants remove this because nobody is aboard",
		Citation:    "14 CFR 137.31, 137.19(d)",
		HowToGet:    "check that your grant removes it",
		Evidence:    "grant text",
		Grade:       GradeRead,
		Sources:     []string{"cfr-107-137-2024", "petition-2024"},
		applies:     (*view).certificated,
	}
}

// beltsFastened is 14 CFR 137.42; the grant removes it, so it binds only until there is one.
// A grant once given counts here even after its expiry, which its own row reports.
func beltsFastened() Rule {
	return Rule{
		ID:          "belts-fastened",
		Title:       "Safety belts fastened",
		Kind:        Duty,
		Group:       GroupOperator,
		Regimes:     BothRegimes,
		AppliesWhen: "agricultural, until the grant removes it; never for an unmanned aircraft under a grant",
		Demands:     "belts and harness fastened, which an aircraft with nobody aboard cannot do: the grant removes it",
		Citation:    "14 CFR 137.42",
		HowToGet:    "comes with the grant of exemption",
		Evidence:    "grant text",
		Grade:       GradeRead,
		Sources:     []string{"cfr-107-137-2024", "petition-2024"},
		applies: func(v *view) Judgment {
			grant := "exemption-small-agricultural"
			if v.regime == LargeRegime {
				grant = "exemption-large-agricultural"
			}
			return v.and(v.certificated(), Not(fact(slices.Contains(v.Holds, grant), "/operation/holds",
				"the grant removes it: nobody is aboard", "no grant held removes it yet")))
		},
		weighs: true,
	}
}

// personnelInformed is 14 CFR 137.41(a), from memory.
func personnelInformed() Rule {
	return Rule{
		ID:          "personnel-informed",
		Title:       "Everyone told their duties",
		Kind:        Duty,
		Group:       GroupOperator,
		Regimes:     BothRegimes,
		AppliesWhen: "agricultural, and the operator is not a public agency",
		Demands:     "everyone in the operation is told their duties",
		Citation:    "14 CFR 137.41(a)",
		HowToGet:    "brief the crew and write it down",
		Evidence:    "briefing record",
		Grade:       GradeMemory,
		Sources:     []string{"cfr-14-memory"},
		applies:     (*view).certificated,
	}
}

// businessName is 14 CFR 137.55.
func businessName() Rule {
	return Rule{
		ID:          "business-name",
		Title:       "Trade under the name on the certificate",
		Kind:        Duty,
		Group:       GroupOperator,
		Regimes:     BothRegimes,
		AppliesWhen: "the purpose is commercial",
		Demands:     "trade only under the business name shown on the certificate",
		Citation:    "14 CFR 137.55",
		HowToGet:    "have the certificate amended before using another name",
		LeadTime:    "15 days for an amendment (14 CFR 137.17(b))",
		Lead:        15 * day,
		Evidence:    "certificate",
		Grade:       GradeRead,
		Sources:     []string{"cfr-107-137-2026"},
		applies:     func(v *view) Judgment { return v.purpose(Commercial) },
	}
}

// certificateAmendment is 14 CFR 137.17(b).
func certificateAmendment() Rule {
	return Rule{
		ID:          "certificate-amendment",
		Title:       "Amendment of the operator certificate",
		Kind:        Duty,
		Group:       GroupOperator,
		Regimes:     BothRegimes,
		AppliesWhen: "a term of the operator certificate is about to change",
		Demands:     "apply for the amendment at least 15 days before the change",
		Citation:    "14 CFR 137.17(b)",
		HowToGet:    "apply to the FAA office; it may agree to less time",
		LeadTime:    "15 days (14 CFR 137.17(b))",
		Lead:        15 * day,
		Evidence:    "amended certificate",
		Grade:       GradeRead,
		Sources:     []string{"cfr-107-137-2026"},
		DependsOn:   []string{"agricultural-operator-certificate"},
		applies: func(v *view) Judgment {
			return v.and(v.certificated(), stated(v.CertificateChange, "/operation/certificate_change",
				"a term of the operator certificate is about to change", "no term of the operator certificate changes",
				"whether a term of the operator certificate is about to change"))
		},
	}
}

// addressChange is 14 CFR 137.75, from memory.
func addressChange() Rule {
	return Rule{
		ID:          "address-change",
		Title:       "Notice of a new home base",
		Kind:        Duty,
		Group:       GroupOperator,
		Regimes:     BothRegimes,
		AppliesWhen: "the home base is about to move",
		Demands:     "tell the Flight Standards office in writing before moving",
		Citation:    "14 CFR 137.75",
		HowToGet:    "write to the office",
		LeadTime:    "before moving",
		Evidence:    "copy of the letter",
		Grade:       GradeMemory,
		Sources:     []string{"cfr-14-memory"},
		applies: func(v *view) Judgment {
			return v.and(v.certificated(), stated(v.BaseMoves, "/operation/base_moves",
				"the home base is about to move", "the home base does not move", "whether the home base is about to move"))
		},
	}
}
