package permits

import "tractcheck/feasibility/finding"

// CodePeopleUnderSpray stops a pesticide over people who take no part, whatever is held: a waiver under part
// 107 lets an aircraft pass over people, and lets nobody be sprayed.
const CodePeopleUnderSpray finding.Code = "people_under_spray"

// sprayOverPeople reports a pesticide over people. Whoever is in the zone of 100 ft, apart from trained and
// equipped handlers, suspends the application (40 CFR 170.405(a)); a handler applies so that nobody else is
// touched by it (170.505, from memory).
func (v *view) sprayOverPeople(found []finding.Finding) []finding.Finding {
	if !v.OverPeople || v.poison.Truth != Yes {
		return found
	}
	return append(found, finding.Finding{
		Code: CodePeopleUnderSpray, Severity: finding.Stop, Subject: "/operation/over_people", Source: v.source("cfr-40-170-405"),
		Message: "The load is a pesticide, and people who take no part would be under the flight. Nobody may be sprayed, and no waiver to fly over people changes that. " +
			"Keep everyone but the trained and equipped handlers out of the field and 100 ft around it, stop while anyone else is there, and follow the label " +
			"(40 CFR 170.405(a); 170.505, from memory).",
	})
}
