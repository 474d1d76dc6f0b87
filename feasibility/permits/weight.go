package permits

// weightRules is the line between the two rule books.
func weightRules() []Rule { return []Rule{weightSmallLimit()} }

// weightSmallLimit is the strict line of 14 CFR 1.1 and 107.3: a small unmanned aircraft weighs
// less than 55 pounds on takeoff, everything on board or attached. It is not among the rules that
// 107.205 lets the FAA waive; only an exemption goes over it. A public agency's own authority
// (49 USC 40102(a)(41)) is taken as equal for public aircraft, from memory.
func weightSmallLimit() Rule {
	return Rule{
		ID:            "weight-small-limit",
		Title:         "Weight line of 55 lb",
		Kind:          Limit,
		Group:         GroupWeight,
		Regimes:       BothRegimes,
		AppliesWhen:   "always shown; broken at 55 lb and over on takeoff",
		Demands:       "less than 55 lb on takeoff, counting everything on board or attached; exactly 55 lb is already over",
		Citation:      "14 CFR 1.1, 107.3",
		LargeCitation: "14 CFR 1.1, 107.3; 49 USC 44807",
		HowToGet:      "lower the fill to stay under the line; no waiver lifts it, only an exemption for 55 lb and over does",
		Relief:        ReliefRow,
		HeldBy:        []Equivalent{{ID: "exemption-large-agricultural"}, {ID: "public-operation-authority", Only: Public}},
		Validity:      "each takeoff",
		Evidence:      "weight sheet for the heaviest takeoff of the job",
		Grade:         GradeRead,
		Sources:       []string{"14-cfr-107-3", "faa-44807"},
		applies:       overWeightLine,
		weighs:        true,
	}
}

// AllowsLarge reports whether the caller holds what allows a takeoff at 55 lb and over and it has
// not expired on the day of the job, which must be known where it has a date: the exemption of 49
// USC 44807 or, for a public agency, its own authority. It reads At, Purpose, Holds and Expiries only.
func AllowsLarge(f Facts) bool {
	valid, _ := f.heldFor(weightRow)
	return valid.some() && !valid.open()
}

func overWeightLine(v *view) Judgment {
	if !known(v.TakeoffWeight) {
		return missing("the takeoff weight", "/aircraft/empty_weight")
	}
	room, weight := margin(weightLine, v.TakeoffWeight), v.poundsBeside(v.TakeoffWeight, weightLine)
	var because string
	switch {
	case v.regime == LargeRegime && room == 0:
		because = v.say(v.pounds(v.TakeoffWeight), " on takeoff, exactly on the line: the rule says less than 55 lb")
	case v.regime == LargeRegime:
		because = v.say(weight, " on takeoff, ", v.pounds(-room), " over the line: the rule says less than 55 lb")
	default:
		because = v.say(weight, " on takeoff, ", v.pounds(room), " under the line of 55 lb")
	}
	j := fact(v.regime == LargeRegime, "/load/fill", because, because)
	j.Compared = compare(v, v.TakeoffWeight, weightLine, room)
	return j
}
