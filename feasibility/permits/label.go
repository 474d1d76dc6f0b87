package permits

// labelRules is what the product label asks. A label is law for its product; no permit lifts it,
// and a breach is a breach of aviation law too (14 CFR 137.39(a)).
func labelRules() []Rule {
	return []Rule{
		labelUse(), labelLimitsAviation(), labelAerial(), labelUnmanned(), labelMinimumRate(),
		labelWind(), labelDroplet(), labelHeight(), labelBuffer(), labelBoom(),
	}
}

const labelCitation = "7 USC 136j(a)(2)(G); 14 CFR 137.39(a)"

// labelBound completes a row for one bound of the label.
func labelBound(r Rule) Rule {
	r.Kind, r.Group, r.Regimes = OnLabel, GroupLabel, BothRegimes
	r.Citation = labelCitation
	r.Grade = GradeSecondHand
	r.Validity = "each job"
	r.Sources = append(r.Sources, "research-note-2026", "cfr-137-39")
	return r
}

// labelUse is 7 USC 136j(a)(2)(G) with the allowances of 7 USC 136(ee).
func labelUse() Rule {
	return Rule{
		ID:          "label-use",
		Title:       "Use only as the label says",
		Kind:        Duty,
		Group:       GroupLabel,
		Regimes:     BothRegimes,
		AppliesWhen: "the tank holds a pesticide",
		Demands:     "use the product only as its label allows; unless the label forbids it, federal law also allows a lower rate, another pest on a labeled site, another method, and mixing with fertilizer (7 USC 136(ee))",
		Citation:    "7 USC 136j(a)(2)(G), 136(ee)",
		HowToGet:    "carry the label and read it before mixing",
		Validity:    "the label in force",
		Evidence:    "label on site",
		Grade:       GradeSecondHand,
		Sources:     []string{"research-note-2026", "wac-16-228"},
		applies:     func(v *view) Judgment { return v.poison },
	}
}

// labelLimitsAviation is 14 CFR 137.39(a): broken as soon as any bound of the label is. Paragraph
// (b) excepts research under a federal or state agency.
func labelLimitsAviation() Rule {
	return Rule{
		ID:          "label-limits-aviation",
		Title:       "Label limits bind the flight",
		Kind:        OnLabel,
		Group:       GroupLabel,
		Regimes:     BothRegimes,
		AppliesWhen: "the tank holds a pesticide; broken when any limit of the label is",
		Demands:     "no use other than registered, none against the label's safety instructions or limits, none against any federal law",
		Citation:    "14 CFR 137.39(a)",
		HowToGet:    "bring the job inside the label; only research under a federal or state agency or permit is excepted (137.39(b))",
		Validity:    "each job",
		Evidence:    "label in hand",
		Grade:       GradeRead,
		Sources:     []string{"cfr-137-39"},
		applies: func(v *view) Judgment {
			return v.or(v.offAerial(), v.offUnmanned(), v.offRate(), v.offWind(), v.offDroplet(), v.offHeight(), v.offBuffer())
		},
	}
}

// labelAerial: a label that forbids aerial application forbids it to unmanned aircraft too.
func labelAerial() Rule {
	return labelBound(Rule{
		ID:          "label-aerial",
		Title:       "Label on aerial application",
		AppliesWhen: "a pesticide; broken when the label forbids aerial application",
		Demands:     "a label that forbids aerial application forbids it to an unmanned aircraft too",
		HowToGet:    "choose a product whose label allows aerial application, or spray from the ground",
		Evidence:    "label page",
		Sources:     []string{"purdue-ppp-154"},
		applies:     (*view).offAerial,
	})
}

// labelUnmanned: where the label is silent, the reported federal reading is that an aerial label
// covers unmanned aircraft, subject to the state.
func labelUnmanned() Rule {
	return labelBound(Rule{
		ID:          "label-unmanned",
		Title:       "Label on unmanned aircraft",
		AppliesWhen: "a pesticide; broken when the label forbids unmanned aircraft; unknown when it is silent and the state has not confirmed",
		Demands:     "a label that forbids unmanned aircraft is obeyed; where it is silent, ask the state whether aerial directions cover them",
		HowToGet:    "choose another product, or ask the state lead agency where the label is silent",
		Evidence:    "label page; answer of the state",
		Sources:     []string{"epa-aerial-position"},
		applies:     (*view).offUnmanned,
	})
}

// labelMinimumRate: the carrier volume of the label's aerial directions.
func labelMinimumRate() Rule {
	return labelBound(Rule{
		ID:          "label-minimum-rate",
		Title:       "Lowest spray volume on the label",
		AppliesWhen: "a pesticide; broken when the application rate is under the label's aerial minimum",
		Demands:     "spray volume at least the aerial minimum of the label",
		HowToGet:    "raise the rate; no permit lifts this",
		Evidence:    "label and job sheet",
		Sources:     []string{"naaa-2023"},
		applies:     (*view).offRate,
	})
}

// labelWind: the wind limits of the label.
func labelWind() Rule {
	return labelBound(Rule{
		ID:          "label-wind",
		Title:       "Wind limits on the label",
		AppliesWhen: "a pesticide; broken when the wind is outside the label's limits",
		Demands:     "wind between the limits of the label",
		HowToGet:    "wait for the wind; no permit lifts this",
		Evidence:    "wind log",
		Sources:     []string{"naaa-2020"},
		applies:     (*view).offWind,
	})
}

// labelDroplet: the size classes of ASABE S572 that the label names.
func labelDroplet() Rule {
	return labelBound(Rule{
		ID:          "label-droplet",
		Title:       "Droplet size class on the label",
		AppliesWhen: "a pesticide; broken when the droplet class is finer or coarser than the label allows",
		Demands:     "the droplet size class of the label (ASABE S572)",
		HowToGet:    "change nozzle, disc speed or pressure; no permit lifts this",
		Evidence:    "set-up sheet",
		Sources:     []string{"naaa-2023"},
		applies:     (*view).offDroplet,
	})
}

// labelHeight: the release height of the label's aerial directions.
func labelHeight() Rule {
	return labelBound(Rule{
		ID:          "label-height",
		Title:       "Release height on the label",
		AppliesWhen: "a pesticide; broken when the release height is over the label's",
		Demands:     "release at most as high above the crop as the label says",
		HowToGet:    "fly lower; no permit lifts this",
		Evidence:    "flight log",
		Sources:     []string{"naaa-2023"},
		applies:     (*view).offHeight,
	})
}

// labelBuffer: the strip the label leaves downwind.
func labelBuffer() Rule {
	return labelBound(Rule{
		ID:          "label-buffer",
		Title:       "Downwind buffer on the label",
		AppliesWhen: "a pesticide; broken when water, a dwelling or habitat lies downwind nearer than the buffer",
		Demands:     "leave the strip that the label asks for unsprayed",
		HowToGet:    "leave the strip unsprayed, or wait for another wind; no permit lifts this",
		Evidence:    "map with the strip",
		Sources:     []string{"epa-bulletins"},
		applies:     (*view).offBuffer,
	})
}

// labelBoom: boom-length shares were written for the wings and rotors of crewed aircraft.
func labelBoom() Rule {
	return Rule{
		ID:          "label-boom",
		Title:       "Boom length on the label",
		Kind:        Notice,
		Group:       GroupLabel,
		Regimes:     BothRegimes,
		AppliesWhen: "a pesticide whose label gives a boom-length share",
		Demands:     "the share was written for wings and rotors of crewed aircraft; ask the state how it reads for many rotors",
		Citation:    labelCitation,
		HowToGet:    "answer of the state",
		Evidence:    "answer",
		Grade:       GradeSecondHand,
		Sources:     []string{"naaa-2023"},
		applies: func(v *view) Judgment {
			return v.and(v.poison, fact(v.Label.BoomShare != nil, "/load/product_label/boom_share",
				"the label gives a boom-length share", "the label gives no boom-length share"))
		},
	}
}
