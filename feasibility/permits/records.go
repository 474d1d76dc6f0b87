package permits

// recordRules is what is written down, shown and reported.
func recordRules() []Rule {
	return []Rule{operatorRecords(), restrictedUseRecord(), commercialRestrictedUseRecord(), showDocuments(), safetyEventReport()}
}

// operatorRecords is 14 CFR 137.71.
func operatorRecords() Rule {
	return Rule{
		ID:          "operator-records",
		Title:       "Operator's records",
		Kind:        Duty,
		Group:       GroupRecords,
		Regimes:     BothRegimes,
		AppliesWhen: "the purpose is commercial",
		Demands:     "for each job the customer's name and address, the date, the material's name and quantity; for each pilot name, address, certificate number and the date 137.19(e) was met; kept 12 months at the home base",
		Citation:    "14 CFR 137.71",
		HowToGet:    "write the job log the same day",
		Validity:    "12 months",
		Evidence:    "job log",
		Grade:       GradeRead,
		Sources:     []string{"cfr-107-137-2026"},
		applies:     func(v *view) Judgment { return v.purpose(Commercial) },
	}
}

// restrictedUseRecord is 7 CFR 110.3.
func restrictedUseRecord() Rule {
	return Rule{
		ID:          "restricted-use-record",
		Title:       "Restricted-use application record",
		Kind:        Duty,
		Group:       GroupRecords,
		Regimes:     BothRegimes,
		AppliesWhen: "the label says restricted use",
		Demands:     "brand, EPA number, total amount, place, area, crop, date, applicator's name and certificate number; written within 14 days and kept 2 years",
		Citation:    "7 CFR 110.3",
		HowToGet:    "write it within 14 days; a tighter state rule replaces it",
		Validity:    "2 years",
		LeadTime:    "within 14 days after",
		Evidence:    "record",
		Grade:       GradeSecondHand,
		Sources:     []string{"cfr-7-110-3"},
		applies:     (*view).restrictedUse,
	}
}

// commercialRestrictedUseRecord is 40 CFR 171.303(b)(7) with 7 CFR 110.3.
func commercialRestrictedUseRecord() Rule {
	return Rule{
		ID:          "commercial-restricted-use-record",
		Title:       "Commercial restricted-use record",
		Kind:        Duty,
		Group:       GroupRecords,
		Regimes:     BothRegimes,
		AppliesWhen: "the label says restricted use and the purpose is commercial",
		Demands:     "the same plus the customer's name and address, start time, and anyone supervised; kept 2 years; a copy to the customer within 30 days (from memory)",
		Citation:    "40 CFR 171.303(b)(7); 7 CFR 110.3",
		HowToGet:    "add these to the application record",
		Validity:    "2 years",
		Evidence:    "record",
		Grade:       GradeSecondHand,
		Sources:     []string{"cfr-40-171-303", "cfr-7-110-3"},
		applies:     func(v *view) Judgment { return v.and(v.restrictedUse(), v.purpose(Commercial)) },
	}
}

// showDocuments is 14 CFR 107.7, from memory.
func showDocuments() Rule {
	return Rule{
		ID:            "show-documents",
		Title:         "Show documents on request",
		Kind:          Duty,
		Group:         GroupRecords,
		Regimes:       BothRegimes,
		AppliesWhen:   "always",
		Demands:       "show certificate, identification and required records to the FAA, NTSB, TSA or law officers on request, and allow tests",
		Citation:      "14 CFR 107.7",
		LargeCitation: "conditions of the grant; 14 CFR 137.57, 137.59",
		HowToGet:      "keep the papers on site",
		Evidence:      "documents on site",
		Grade:         GradeMemory,
		Sources:       []string{"cfr-14-memory"},
		applies:       func(*view) Judgment { return always("binds every flight") },
	}
}

// safetyEventReport is 14 CFR 107.9.
func safetyEventReport() Rule {
	return Rule{
		ID:            "safety-event-report",
		Title:         "Report of a safety event",
		Kind:          Duty,
		Group:         GroupRecords,
		Regimes:       BothRegimes,
		AppliesWhen:   "always, as a reminder beforehand",
		Demands:       "report within 10 calendar days a serious injury, any loss of consciousness, or damage over $500 to other people's property",
		Citation:      "14 CFR 107.9",
		LargeCitation: "reporting terms of the grant; 49 CFR part 830 (from memory)",
		HowToGet:      "report online to the FAA",
		LeadTime:      "within 10 calendar days after",
		Evidence:      "report number",
		Grade:         GradeRead,
		Sources:       []string{"cfr-107-9"},
		applies:       func(*view) Judgment { return always("binds every flight, if something happens") },
	}
}
