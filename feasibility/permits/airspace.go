package permits

import (
	"tractcheck/feasibility/units"
)

// airspaceRules is where the aircraft may fly.
func airspaceRules() []Rule {
	return []Rule{
		airspaceAuthorization(), dispensingInSurfaceArea(), prohibitedArea(), noticeRestrictions(), airportVicinity(),
	}
}

// airspaceAuthorization is 14 CFR 107.41. A phone call to a tower does not count.
func airspaceAuthorization() Rule {
	return Rule{
		ID:          "airspace-authorization",
		Title:       "Airspace authorization",
		Kind:        Permit,
		Group:       GroupJob,
		Regimes:     SmallOnly,
		AppliesWhen: "under 55 lb in class B, C, D or surface class E airspace",
		Demands:     "an air-traffic authorization before the flight; a phone call to a tower does not count",
		Citation:    "14 CFR 107.41",
		HowToGet:    "ask through LAANC, up to the mapped height, or through FAA DroneZone",
		Validity:    "as printed on the authorization",
		LeadTime:    "LAANC: near real time up to the mapped height; DroneZone: at least 60 days before",
		Lead:        60 * day,
		QuickPath:   "LAANC, near real time, where it serves the airspace and the mapped height is enough",
		Evidence:    "authorization with its times and height",
		Grade:       GradeRead,
		Sources:     []string{"faa-airspace", "laanc-terms"},
		DependsOn:   []string{"remote-pilot-certificate", "registration-small"},
		applies: func(v *view) Judgment {
			return v.airspaceIn(AirspaceB, AirspaceC, AirspaceD, AirspaceESurface)
		},
	}
}

// dispensingInSurfaceArea is 14 CFR 137.43: class D always; surface class E in weather below the
// visual flight minimums.
func dispensingInSurfaceArea() Rule {
	return Rule{
		ID:          "dispensing-in-airport-surface-area",
		Title:       "Dispensing in an airport's surface area",
		Kind:        Permit,
		Group:       GroupJob,
		Regimes:     BothRegimes,
		AppliesWhen: "agricultural in class D, or in surface class E when weather is below visual flight minimums",
		Demands:     "the authorization of the air-traffic facility in charge; flights only to and from the field are excepted",
		Citation:    "14 CFR 137.43",
		HowToGet:    "ask the facility, together with the airspace authorization",
		Validity:    "each operation",
		Evidence:    "authorization",
		Grade:       GradeRead,
		Sources:     []string{"cfr-107-137-2026"},
		DependsOn:   []string{"airspace-authorization"},
		applies: func(v *view) Judgment {
			inE := v.airspaceIn(AirspaceESurface)
			if inE.Truth == No { // whatever the weather
				return v.and(v.agri, v.airspaceIn(AirspaceD))
			}
			return v.and(v.agri, v.or(v.airspaceIn(AirspaceD), v.and(inE, v.belowVisualMinimums())))
		},
	}
}

// belowVisualMinimums judges the weather against the visual flight minimums of surface class E: 3
// statute miles, 500 ft below and 2,000 ft beside cloud. 14 CFR 91.155(a), from memory for class E.
func (v *view) belowVisualMinimums() Judgment {
	return v.or(v.shortSight(), v.nearCloud())
}

// prohibitedArea is 14 CFR 107.45, from memory.
func prohibitedArea() Rule {
	return Rule{
		ID:            "prohibited-restricted-area",
		Title:         "Prohibited or restricted area",
		Kind:          Permit,
		Group:         GroupJob,
		Regimes:       BothRegimes,
		AppliesWhen:   "the field lies inside a prohibited or restricted area",
		Demands:       "permission of the agency that uses or controls the area",
		Citation:      "14 CFR 107.45",
		LargeCitation: "14 CFR 91.133",
		HowToGet:      "look the field up on an aeronautical chart; ask the agency named there",
		Evidence:      "permission",
		Grade:         GradeMemory,
		Sources:       []string{"cfr-14-memory"},
		applies: func(v *view) Judgment {
			return stated(v.ProhibitedArea, "/operation/prohibited_area",
				"the field lies inside a prohibited or restricted area",
				"the field is not inside a prohibited or restricted area",
				"whether the field lies inside a prohibited or restricted area (see the aeronautical chart)")
		},
	}
}

// noticeRestrictions is 14 CFR 107.47 with 91.137 to 91.145 and 99.7, from memory.
func noticeRestrictions() Rule {
	return Rule{
		ID:            "notice-restrictions",
		Title:         "Flight restrictions of the day",
		Kind:          Limit,
		Group:         GroupJob,
		Regimes:       BothRegimes,
		AppliesWhen:   "a temporary flight restriction covers the place and time; unknown until checked",
		Demands:       "stay out, or get the permission that the notice names",
		Citation:      "14 CFR 107.47 with 91.137 to 91.145 and 99.7",
		LargeCitation: "14 CFR 91.137 to 91.145, 99.7",
		HowToGet:      "check notices on the day; follow what the notice says",
		Relief:        ReliefGrant,
		LeadTime:      "check the same day",
		Evidence:      "briefing printout",
		Grade:         GradeMemory,
		Sources:       []string{"cfr-14-memory"},
		applies: func(v *view) Judgment {
			return stated(v.FlightRestriction, "/operation/flight_restriction",
				"a flight restriction covers the place and time", "no flight restriction covers the place and time",
				"whether a flight restriction covers the place and time (check notices on the day)")
		},
	}
}

// airportVicinity is 14 CFR 107.43, from memory, and 137.45. Class G airspace alone does not say
// that no airport is near.
func airportVicinity() Rule {
	return Rule{
		ID:            "airport-vicinity",
		Title:         "Keep clear of airport traffic",
		Kind:          Duty,
		Group:         GroupJob,
		Regimes:       BothRegimes,
		AppliesWhen:   "near any airport, heliport or seaplane base",
		Demands:       "do not interfere with its traffic or patterns; leaving the pattern needs coordination beforehand (137.45)",
		Citation:      "14 CFR 107.43",
		LargeCitation: "14 CFR 137.45",
		HowToGet:      "call the airport manager before the job",
		Evidence:      "note of the call",
		Grade:         GradeMemory,
		Sources:       []string{"cfr-14-memory", "cfr-107-137-2026"},
		applies: func(v *view) Judgment {
			near := stated(v.NearAirport, "/operation/near_airport",
				"an airport, heliport or seaplane base is near", "no airport, heliport or seaplane base is near",
				"whether an airport, heliport or seaplane base is near")
			return v.or(v.airspaceIn(AirspaceB, AirspaceC, AirspaceD, AirspaceESurface), near)
		},
	}
}

// Figures of 14 CFR 107.51, exact in the rule's own units.
const (
	leastVisibility = 3 * units.Mile
	belowCloud      = 500 * units.Foot
	besideCloud     = 2000 * units.Foot
)
