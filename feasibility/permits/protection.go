package permits

import "tractcheck/feasibility/units"

// protectionRules is what protects people, species, water and neighbors around the field.
func protectionRules() []Rule {
	return []Rule{exclusionZone(), speciesBulletin(), waterDischargePermit(), neighborNotice()}
}

// exclusionDistance is the application exclusion zone of aerial spraying, whatever the droplet
// size; the 25 ft zone is for ground sprays only. 40 CFR 170.405(a)(1)(i)(A); 89 FR 80767, in force
// since 2024-12-03.
const exclusionDistance = 100 * units.Foot

// exclusionZone is 40 CFR 170.405(a).
func exclusionZone() Rule {
	return Rule{
		ID:          "exclusion-zone",
		Title:       "Application exclusion zone of 100 ft",
		Kind:        Duty,
		Group:       GroupProtection,
		Regimes:     BothRegimes,
		AppliesWhen: "a pesticide under a worker protection label",
		Demands:     "100 ft all round the point of discharge while spraying, because it is aerial, whatever the droplet size; keep workers and others out inside the establishment, and stop while anyone but trained, equipped handlers is in it, inside or beyond the boundary",
		Citation:    "40 CFR 170.405(a)",
		HowToGet:    "walk the edges, post lookouts, agree the stop word; the zone moves with the aircraft",
		Validity:    "during application only",
		Evidence:    "lookout plan",
		Grade:       GradeRead,
		Sources:     []string{"cfr-40-170-405", "fr-89-80767"},
		pointed:     true,
		applies: func(v *view) Judgment {
			j := v.and(v.poison, stated(v.Label.WPSLabel, "/load/product_label/wps_label",
				"the label carries the worker protection rules", "the label carries no worker protection rules",
				"whether the label carries the worker protection rules"))
			if j.Truth == No {
				return j
			}
			return v.zoneNeighbors(j)
		},
	}
}

// zoneNeighbors adds which places where people may be lie inside and outside the zone, and
// measures the nearest.
func (v *view) zoneNeighbors(j Judgment) Judgment {
	var nearest units.Length
	closest := -1
	for i, n := range v.Neighbors {
		if n.Kind != "dwelling" && n.Kind != "road" && n.Kind != "other" {
			continue
		}
		if units.AtMost(n.Distance, exclusionDistance) {
			j.Because = v.say(j.Because, "; the ", n.name(), " ", v.feet(n.Distance), " away is inside the 100 ft zone: stop while anyone is outdoors there")
		} else {
			j.Because = v.say(j.Because, "; the ", n.name(), " ", v.feet(n.Distance), " away is outside the 100 ft zone")
		}
		if closest < 0 || n.Distance < nearest {
			nearest, closest = n.Distance, i
		}
	}
	if v.EmployeesNear != nil && *v.EmployeesNear {
		j.Because = v.say(j.Because, "; employees work near: keep them out of the 100 ft zone")
	}
	if closest >= 0 {
		j.Compared = compare(v, nearest, exclusionDistance, margin(nearest, exclusionDistance))
		if j.Truth == Yes {
			j.Pointers.add(v.neighborPointer(closest, ""))
		}
	}
	return j
}

// speciesBulletin: labels that send the applicator to the EPA bulletin for the place and month.
func speciesBulletin() Rule {
	return Rule{
		ID:          "species-bulletin",
		Title:       "Endangered species bulletin",
		Kind:        Permit,
		Group:       GroupProtection,
		Regimes:     BothRegimes,
		AppliesWhen: "the label asks for the bulletin",
		Demands:     "the EPA bulletin for place, product and month, got within 6 months before spraying; obey it and the label's drift and runoff points",
		Citation:    "product label; EPA endangered species protection bulletins",
		HowToGet:    "print it from the EPA's bulletin site for the month of the job",
		Validity:    "the month printed on it; got within 6 months before spraying",
		LeadTime:    "check for each job",
		Evidence:    "bulletin print",
		Grade:       GradeRead,
		Sources:     []string{"epa-bulletins"},
		applies: func(v *view) Judgment {
			return v.and(v.poison, stated(v.Label.BulletinRequired, "/load/product_label/bulletin_required",
				"the label asks for the bulletin", "the label asks for no bulletin", "whether the label asks for the bulletin"))
		},
	}
}

// waterDischargePermit is the discharge permit of the Clean Water Act. Ordinary field spraying is
// not one of the four patterns of the general permit.
func waterDischargePermit() Rule {
	return Rule{
		ID:          "water-discharge-permit",
		Title:       "Discharge permit for spraying at water",
		Kind:        Permit,
		Group:       GroupProtection,
		Regimes:     BothRegimes,
		AppliesWhen: "over water, or against mosquitoes, weeds or algae at water, animals at water, or on forest canopy; ordinary field spraying is none of these",
		Demands:     "coverage under the EPA's 2026 general permit (in force since 2026-10-31, ends 2031-10-30) where the EPA is the authority, elsewhere under the state's",
		Citation:    "Clean Water Act section 402; 40 CFR part 122; 89 FR 102134",
		HowToGet:    "file a notice of intent where the yearly area is over the threshold; an individual permit is possible",
		Validity:    "5 years",
		Evidence:    "coverage letter",
		Grade:       GradeRead,
		Sources:     []string{"epa-pgp-2026", "npdes-patterns"},
		applies:     (*view).atWater,
	}
}

// atWater judges whether the spray falls under water law: it goes over water, or the use is one of
// the four patterns of the general permit. Who states that it does not go over water states that the
// use is none of them, unless the pattern itself says otherwise.
func (v *view) atWater() Judgment {
	const decides = "; the general permit in force since 2026-10-31 or the state's own decides"
	over := stated(v.OverWater, "/operation/over_water", "the spray goes over or at water"+decides,
		"the spray stays off water and the use is none at water; ordinary field spraying is not a pattern of the general permit",
		"whether the spray goes over water, or the use is against mosquitoes, weeds, algae or animals at water or in a forest canopy")
	if v.UsePattern == nil || !v.UsePattern.AtWater() {
		return over
	}
	pattern := fact(true, "/operation/use_pattern",
		v.say("the use (", words(string(*v.UsePattern)), ") is a pattern of the general discharge permit", decides), "")
	return v.or(pattern, over)
}

// neighborNotice is state law and good practice; distances differ by state.
func neighborNotice() Rule {
	return Rule{
		ID:          "neighbor-notice",
		Title:       "Notice to neighbors",
		Kind:        Duty,
		Group:       GroupProtection,
		Regimes:     BothRegimes,
		AppliesWhen: "a neighbor has a house, school, bees, organic or sensitive crop near the field; the distance is the state's",
		Demands:     "tell them where the state or label asks, and look at the state's register of sensitive sites; good practice anywhere",
		Citation:    "state law; product label",
		HowToGet:    "call or write before the job; states that ask often want 24 to 72 hours (from memory)",
		Evidence:    "call log",
		Grade:       GradeMemory,
		Sources:     []string{"state-practice"},
		applies:     (*view).sensitiveNeighbor,
	}
}

func (v *view) sensitiveNeighbor() Judgment {
	if v.Neighbors == nil {
		return missing("what lies next to the field", "/field/neighbors")
	}
	judged := []Judgment{fact(false, "/field/neighbors", "", "no house, bees, organic or other sensitive place was named next to the field")}
	for i, n := range v.Neighbors {
		switch n.Kind {
		case "dwelling", "apiary", "organic":
			judged = append(judged, fact(true, v.neighborPointer(i, ""), v.say(n.Kind, " ", v.feet(n.Distance), " from the field"), ""))
		case "crop", "other":
			judged = append(judged, missing(v.say("whether the ", n.name(), " ", v.feet(n.Distance), " from the field is sensitive"), v.neighborPointer(i, "/tolerance")))
		}
	}
	return v.or(judged...)
}
