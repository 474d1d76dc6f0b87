package permits

import "tractcheck/feasibility/units"

// grantRules is the bounds that grants at 55 lb and over usually write down. The caller's own
// grant decides wherever it differs.
func grantRules() []Rule {
	return []Rule{grantGroundspeed(), grantAirspace(), grantPeopleDistance(), grantHeight()}
}

// sampleGrantSpeed is the groundspeed cap of the sample grant read: 40 mph or the maker's limit.
const sampleGrantSpeed = 40 * units.MilePerHour

// grantTerm completes a limit that a grant sets.
func grantTerm(r Rule) Rule {
	r.Kind, r.Group, r.Regimes, r.Relief = Limit, GroupJob, LargeOnly, ReliefGrant
	r.HowToGet = "stay inside the figure, or have the grant amended"
	r.Evidence = "grant text"
	r.DependsOn = []string{"exemption-large-agricultural"}
	return r
}

// grantGroundspeed is a condition of sample grants.
func grantGroundspeed() Rule {
	return grantTerm(Rule{
		ID:          "grant-groundspeed",
		Title:       "Groundspeed in the grant",
		AppliesWhen: "55 lb and over; broken above 40 mph or the maker's limit",
		Demands:     "sample grants cap groundspeed at 40 mph or the maker's limit, whichever is lower; your own grant's figure decides",
		Citation:    "conditions of the grants",
		Grade:       GradeSecondHand,
		Sources:     []string{"sample-grants"},
		applies: func(v *view) Judgment {
			if !known(v.Groundspeed) {
				return missing("the groundspeed", "/flight/speed")
			}
			return over(v, v.Groundspeed, sampleGrantSpeed, "/flight/speed",
				v.say("groundspeed ", v.mph(v.Groundspeed), ", sample grants allow 40 mph; read the figure in yours"))
		},
	})
}

// grantAirspace: grants were reasoned on low class G airspace.
func grantAirspace() Rule {
	return grantTerm(Rule{
		ID:          "grant-airspace",
		Title:       "Airspace of the grant",
		AppliesWhen: "55 lb and over outside class G airspace",
		Demands:     "grants were reasoned on low class G airspace; elsewhere a specific air-traffic authorization is needed",
		Citation:    "conditions of the grants; FAA reasoning in grants",
		Grade:       GradeSecondHand,
		Sources:     []string{"naaa-uas", "sample-grants"},
		applies:     func(v *view) Judgment { return Not(v.airspaceIn(AirspaceG)) },
	})
}

// grantPeopleDistance is a figure in each grant; 500 ft in older ones, from memory.
func grantPeopleDistance() Rule {
	return grantTerm(Rule{
		ID:          "grant-people-distance",
		Title:       "Distance from people in the grant",
		AppliesWhen: "55 lb and over; broken over people, or nearer than your grant's figure; unknown until that figure is sent",
		Demands:     "the distance from people not taking part that your own grant writes down",
		Citation:    "conditions of the grants",
		Grade:       GradeMemory,
		Sources:     []string{"grants-memory"},
		applies:     func(v *view) Judgment { return v.or(v.overPeople(), v.nearPeople()) },
	})
}

func (v *view) nearPeople() Judgment {
	if v.GrantDistance == nil || !known(*v.GrantDistance) {
		return missing("the distance from people that your grant writes down", "/operation/grant_people_distance")
	}
	if v.NearestPerson == nil || !known(*v.NearestPerson) {
		return missing("how near people not taking part may be", "/operation/nearest_person")
	}
	return under(v, *v.NearestPerson, *v.GrantDistance, "/operation/nearest_person",
		v.say("nearest person ", v.feet(*v.NearestPerson), " away, the grant asks ", v.feet(*v.GrantDistance)))
}

// grantHeight is a figure in each grant; 200 ft is common, from memory.
func grantHeight() Rule {
	return grantTerm(Rule{
		ID:          "grant-height",
		Title:       "Height limit in the grant",
		AppliesWhen: "55 lb and over; broken above your grant's ceiling; unknown until that figure is sent",
		Demands:     "the ceiling above ground that your own grant writes down",
		Citation:    "conditions of the grants and of the air-traffic authorization",
		Grade:       GradeMemory,
		Sources:     []string{"grants-memory"},
		applies: func(v *view) Judgment {
			if v.GrantHeight == nil || !known(*v.GrantHeight) {
				return missing("the ceiling that your grant writes down", "/operation/grant_height")
			}
			if !known(v.HeightAGL) {
				return missing("the flight height above ground", "/flight/height")
			}
			return v.aboveGround(*v.GrantHeight,
				v.say("flight at ", v.feet(v.HeightAGL), " above ground, the grant allows ", v.feet(*v.GrantHeight)))
		},
	})
}
