package permits

// workerRules is the worker protection standard at an establishment with hired people. Sections
// beside 170.405 are from memory.
func workerRules() []Rule { return []Rule{handlerTraining(), restrictedEntry(), centralPosting()} }

// wpsSite judges whether the field belongs to an agricultural establishment that grows plants for
// sale with any hired worker or handler.
func (v *view) wpsSite() Judgment {
	return stated(v.WPSSite, "/operation/wps_site",
		"the field belongs to an establishment with hired workers or handlers",
		"the field belongs to no establishment with hired workers or handlers",
		"whether the field belongs to an establishment with hired workers or handlers")
}

// handlerTraining is 40 CFR 170.501, 170.507, 170.509, from memory.
func handlerTraining() Rule {
	return Rule{
		ID:          "handler-training",
		Title:       "Pesticide handler training",
		Kind:        Permit,
		Group:       GroupProtection,
		Regimes:     BothRegimes,
		AppliesWhen: "a pesticide at an establishment with hired handlers",
		Demands:     "yearly handler training, age 18, protective equipment and decontamination supplies",
		Citation:    "40 CFR 170.501, 170.507, 170.509",
		HowToGet:    "train the handlers with material the EPA accepts; owner and family are partly exempt (170.601)",
		Validity:    "12 months",
		Evidence:    "training record",
		Grade:       GradeMemory,
		Sources:     []string{"cfr-40-170-memory"},
		applies: func(v *view) Judgment {
			return v.and(v.poison, v.wpsSite(), stated(v.HiredHandlers, "/operation/hired_handlers",
				"hired handlers mix, load or apply", "no hired handler mixes, loads or applies",
				"whether hired handlers mix, load or apply"))
		},
	}
}

// restrictedEntry is 40 CFR 170.407 and 170.409, from memory.
func restrictedEntry() Rule {
	return Rule{
		ID:          "restricted-entry",
		Title:       "Restricted-entry interval",
		Kind:        Duty,
		Group:       GroupProtection,
		Regimes:     BothRegimes,
		AppliesWhen: "a pesticide with a restricted-entry interval at an establishment with hired workers",
		Demands:     "keep workers out for the interval of the label; tell them, and post when the label says so or when the interval is over 48 hours outdoors",
		Citation:    "40 CFR 170.407, 170.409",
		HowToGet:    "post and tell before spraying; early entry has its own rules (170.603)",
		Validity:    "from the end of spraying",
		Evidence:    "posting record",
		Grade:       GradeMemory,
		Sources:     []string{"cfr-40-170-memory"},
		applies:     func(v *view) Judgment { return v.and(v.poison, v.wpsSite(), v.entryInterval()) },
	}
}

func (v *view) entryInterval() Judgment {
	interval := v.Label.RestrictedEntry
	if interval == nil {
		return missing("the restricted-entry interval of the label", "/load/product_label/restricted_entry")
	}
	return fact(*interval > 0, "/load/product_label/restricted_entry",
		"the label gives a restricted-entry interval", "the label gives no restricted-entry interval")
}

// centralPosting is 40 CFR 170.309 and 170.311, from memory.
func centralPosting() Rule {
	return Rule{
		ID:          "central-posting",
		Title:       "Central posting for workers",
		Kind:        Duty,
		Group:       GroupProtection,
		Regimes:     BothRegimes,
		AppliesWhen: "a pesticide at an establishment with hired workers",
		Demands:     "the facts of the application and the safety data sheet displayed within 24 hours and kept 2 years",
		Citation:    "40 CFR 170.309, 170.311",
		HowToGet:    "hang the sheet at the central place after spraying",
		Validity:    "2 years",
		LeadTime:    "within 24 hours after",
		Evidence:    "display",
		Grade:       GradeMemory,
		Sources:     []string{"cfr-40-170-memory"},
		applies:     func(v *view) Judgment { return v.and(v.poison, v.wpsSite(), v.hiredWorkers()) },
	}
}

// hiredWorkers judges whether hired people work there; employees near the field say so too, their
// absence near the field says nothing.
func (v *view) hiredWorkers() Judgment {
	if v.HiredWorkers == nil && v.EmployeesNear != nil && *v.EmployeesNear {
		return fact(true, "/operation/employees_near", "employees work near the field", "")
	}
	return stated(v.HiredWorkers, "/operation/hired_workers",
		"hired workers work on the establishment", "no hired worker works on the establishment",
		"whether hired workers work on the establishment")
}
