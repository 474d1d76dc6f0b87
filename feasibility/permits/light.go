package permits

import (
	"tractcheck/feasibility/daylight"
	"tractcheck/feasibility/finding"
)

// lightRules is flying in twilight and at night under 55 lb. Twilight and night are two different
// things: 107.29 counts a fixed 30 minutes outside Alaska, 14 CFR 1.1 counts civil twilight. The
// daylight room calls it night as soon as either does.
func lightRules() []Rule { return []Rule{nightTraining(), nightLights(), twilightLights()} }

// lightsOff judges whether the anti-collision light is missing.
func (v *view) lightsOff() Judgment {
	return Not(stated(v.Lights3SM, "/operation/lights_3sm",
		"a flashing anti-collision light is seen 3 statute miles",
		"no flashing anti-collision light is seen 3 statute miles",
		"whether a flashing anti-collision light is seen 3 statute miles"))
}

// nightTraining is 14 CFR 107.29(a)(1). It is outside the waivable list of 107.205, which names
// only 107.29(a)(2) and (b).
func nightTraining() Rule {
	return Rule{
		ID:          "night-training",
		Title:       "Training for night flight",
		Kind:        Permit,
		Group:       GroupJob,
		Regimes:     SmallOnly,
		AppliesWhen: "under 55 lb at night",
		Demands:     "an initial test or recurrent training completed after 2021-04-06",
		Citation:    "14 CFR 107.29(a)(1)",
		HowToGet:    "take the recurrent training online, or fly by day; nothing else lifts this",
		Validity:    "with the 24 months of pilot training",
		LeadTime:    "online",
		Evidence:    "completion date",
		Grade:       GradeSecondHand,
		Sources:     []string{"14-cfr-107.29", "cfr-107-200"},
		DependsOn:   []string{"remote-pilot-certificate"},
		applies:     func(v *view) Judgment { return v.phase(daylight.Night) },
		has: func(v *view) Judgment {
			return stated(v.NightTrained, "/operation/night_trained",
				"the pilot has the night training", "the pilot has no night training", "whether the pilot has the night training")
		},
	}
}

// nightLights is 14 CFR 107.29(a)(2).
func nightLights() Rule {
	return waivable(Rule{
		ID:          "night-lights",
		Title:       "Anti-collision light at night",
		Kind:        Limit,
		Group:       GroupJob,
		Regimes:     SmallOnly,
		AppliesWhen: "under 55 lb at night; broken without the light",
		Demands:     "a flashing anti-collision light seen 3 statute miles; it may be dimmed, not put out",
		Citation:    "14 CFR 107.29(a)(2)",
		Evidence:    "light specification",
		Grade:       GradeSecondHand,
		Sources:     []string{"14-cfr-107.29"},
		applies:     func(v *view) Judgment { return v.and(v.phase(daylight.Night), v.lightsOff()) },
	})
}

// twilightLights is 14 CFR 107.29(b).
func twilightLights() Rule {
	return waivable(Rule{
		ID:          "twilight-lights",
		Title:       "Anti-collision light in twilight",
		Kind:        Limit,
		Group:       GroupJob,
		Regimes:     SmallOnly,
		AppliesWhen: "under 55 lb in twilight; broken without the light",
		Demands:     "a flashing anti-collision light seen 3 statute miles; it may be dimmed, not put out",
		Citation:    "14 CFR 107.29(b)",
		Evidence:    "light specification",
		Grade:       GradeSecondHand,
		Sources:     []string{"14-cfr-107.29"},
		applies:     func(v *view) Judgment { return v.and(v.phase(daylight.Twilight), v.lightsOff()) },
	})
}

// ForLight is what the rows on light ask of a flight at the phase and time of the facts and nobody has, or
// nobody has stated: nothing by day. Of the facts it reads those of the operation, time, phase and weight.
func ForLight(f Facts) []finding.Finding {
	if !Covers(f.Country) || f.Phase == daylight.Day {
		return nil
	}
	var found []finding.Finding
	v := &view{Facts: f, scribe: &scribe{}}
	v.look()
	for _, id := range lightRows {
		if row := v.ask(rowOf(id)); row.reported {
			found = append(found, row.finding.Finding)
		}
	}
	return found
}
