package permits

// peopleRules is flying near people and vehicles under part 107.
func peopleRules() []Rule { return []Rule{overPeopleRule(), overMovingVehicles(), fromMovingVehicle()} }

// overPeople judges whether the flight passes over people not taking part.
func (v *view) overPeople() Judgment {
	return fact(v.OverPeople, "/operation/over_people",
		"the flight passes over people who are not taking part",
		"the flight passes over nobody who is not taking part")
}

// overPeopleRule is 14 CFR 107.39. Category 1 of the exceptions is 0.55 lb and out of reach.
func overPeopleRule() Rule {
	return waivable(Rule{
		ID:          "over-people",
		Title:       "Flight over people",
		Kind:        Limit,
		Group:       GroupJob,
		Regimes:     SmallOnly,
		AppliesWhen: "under 55 lb; broken over people not taking part and not under cover",
		Demands:     "not over anyone who is not taking part, unless under cover that protects, or the aircraft meets one of four categories (2 to 4 need declarations that the FAA accepted)",
		Citation:    "14 CFR 107.39",
		Evidence:    "waiver",
		Grade:       GradeRead,
		Sources:     []string{"cfr-107-39"},
		applies:     (*view).overPeople,
	})
}

// overMovingVehicles is 14 CFR 107.145; its text is partly from memory.
func overMovingVehicles() Rule {
	return waivable(Rule{
		ID:          "over-moving-vehicles",
		Title:       "Flight over people in moving vehicles",
		Kind:        Limit,
		Group:       GroupJob,
		Regimes:     SmallOnly,
		AppliesWhen: "under 55 lb; broken over moving vehicles with people in them",
		Demands:     "not over people in moving vehicles, unless a category allows it and the site is closed or the aircraft only passes over",
		Citation:    "14 CFR 107.145",
		Evidence:    "waiver",
		Grade:       GradeMemory,
		Sources:     []string{"cfr-107-200", "cfr-14-memory"},
		applies: func(v *view) Judgment {
			return stated(v.MovingVehicles, "/operation/moving_vehicles",
				"the flight passes over moving vehicles", "the flight passes over no moving vehicles",
				"whether the flight passes over moving vehicles")
		},
	})
}

// fromMovingVehicle is 14 CFR 107.25, from memory.
func fromMovingVehicle() Rule {
	return waivable(Rule{
		ID:          "from-moving-vehicle",
		Title:       "Flight from a moving vehicle",
		Kind:        Limit,
		Group:       GroupJob,
		Regimes:     SmallOnly,
		AppliesWhen: "under 55 lb; broken when flown from a moving vehicle where the area is not sparsely populated",
		Demands:     "from a land or water vehicle only over sparsely populated areas and not carrying others' property for hire; never from an aircraft",
		Citation:    "14 CFR 107.25",
		Evidence:    "waiver",
		Grade:       GradeMemory,
		Sources:     []string{"cfr-14-memory"},
		applies: func(v *view) Judgment {
			from := stated(v.FromVehicle, "/operation/from_vehicle",
				"the pilot flies from a moving vehicle", "the pilot does not fly from a moving vehicle",
				"whether the pilot flies from a moving vehicle")
			return v.and(from, v.populated())
		},
	})
}

// populated judges whether the area is not sparsely populated. A congested area never is; an area
// that is not congested may or may not be.
func (v *view) populated() Judgment {
	return v.or(v.congested(), Not(stated(v.SparselyPopulated, "/operation/sparsely_populated",
		"the area is sparsely populated", "the area is not sparsely populated", "whether the area is sparsely populated")))
}
