package crew

import (
	"fmt"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// staff holds pilots and observers against the aircraft that the hours count on. One pilot or observer
// for several aircraft at once needs an authorization, which package permits judges; here it is only
// said that the hours rest on it.
func staff(in Input, r *report) {
	aircraft := min(max(1, in.Aircraft), in.Plan.Sorties)
	if aircraft >= 2 {
		r.enough(in.RemotePilots, aircraft, "/operation/remote_pilots", "pilot", "pilots")
	}
	if in.Observers != nil && *in.Observers > 0 && aircraft >= 2 {
		r.enough(in.Observers, aircraft, "/operation/visual_observers", "visual observer", "visual observers")
	}
	if in.Crew.People == nil || in.RemotePilots == nil {
		return
	}
	busy := *in.RemotePilots
	if in.Observers != nil {
		busy += *in.Observers
	}
	if people := *in.Crew.People; people < busy {
		r.Find(finding.Finding{
			Code: CodeHandsFewer, Severity: finding.Caution, Subject: "/crew/people",
			Message:  fmt.Sprintf("You count %s on the job, but %s of pilots and observers alone. An observer who loads does not observe: bring as many people as there are tasks at once, or send the right numbers.", several(people, "person", "people"), busy),
			Measured: people, Limit: busy, Margin: people - busy, Source: sourcePilots,
		})
	}
}

// enough says where there are fewer people of a kind than aircraft in the air, or nobody knows.
func (r *report) enough(have *units.Count, aircraft units.Count, pointer, one, many string) {
	f := finding.Finding{Code: CodePilotsFewer, Severity: finding.Caution, Subject: pointer, Source: sourcePilots}
	switch {
	case have == nil:
		f.Message = fmt.Sprintf("The hours count on %s aircraft in the air at once, and the number of %s was not stated. Without an authorization for several aircraft each needs its own.", aircraft, many)
	case *have < aircraft:
		f.Message = fmt.Sprintf("The hours count on %s aircraft in the air at once, with %s. Without an authorization for several aircraft no more than that many fly at once, and the job takes longer than said here. See the authorizations.", aircraft, several(*have, one, many))
		f.Measured, f.Limit, f.Margin = *have, aircraft, *have-aircraft
	default:
		return
	}
	r.Find(f)
}
