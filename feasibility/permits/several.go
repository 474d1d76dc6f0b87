package permits

import (
	"fmt"

	"tractcheck/feasibility/units"
)

// publishedRatio is the number of aircraft a pilot that published grants since 2024 have allowed
// (National Agricultural Aviation Association, unmanned operations updates).
const publishedRatio = 3

// oneAircraftPerPilot is 14 CFR 107.35: nobody may fly, command or observe more than one unmanned
// aircraft at a time.
func oneAircraftPerPilot() Rule {
	return grantClause(waivable(Rule{
		ID:            "one-aircraft-per-pilot",
		Title:         "One aircraft for each pilot and observer",
		Kind:          Limit,
		Group:         GroupPilot,
		Regimes:       BothRegimes,
		AppliesWhen:   "broken when a pilot or an observer serves more than one aircraft at a time",
		Demands:       "nobody flies, commands or observes more than one unmanned aircraft at a time; published grants since 2024 allow up to three for each pilot, where the grant says so",
		Citation:      "14 CFR 107.35",
		LargeCitation: "14 CFR 107.35; a clause of the grant",
		Evidence:      "waiver, or the clause of the grant",
		Grade:         GradeSecondHand,
		Sources:       []string{"cfr-107-35", "naaa-uas"},
		DependsOn:     []string{"remote-pilot-certificate"},
		applies:       func(v *view) Judgment { return v.or(pilotShare(v), observerShare(v)) },
	}))
}

// pilotShare judges whether a pilot flies several aircraft. Aircraft a pilot = aircraft at once
// over remote pilots, rounded up.
func pilotShare(v *view) Judgment {
	aircraft := v.Aircraft
	if aircraft < 1 {
		return missing("how many aircraft fly at once", "/aircraft/count")
	}
	if aircraft == 1 {
		return fact(false, "/aircraft/count", "", "one aircraft flies at a time")
	}
	if v.RemotePilots == nil || *v.RemotePilots < 1 {
		return missing(fmt.Sprintf("how many remote pilots fly the %d aircraft", aircraft), "/operation/remote_pilots")
	}
	pilots := *v.RemotePilots
	share := (aircraft + pilots - 1) / pilots
	because := fmt.Sprintf("%d aircraft for %d remote pilot(s): up to %d aircraft a pilot", aircraft, pilots, share)
	if share > publishedRatio {
		because += ", above the ratio of three in published grants; needs its own petition"
	}
	j := fact(share > 1, "/operation/remote_pilots", because, because)
	j.Compared = v.keep(Comparison{share, units.Count(1), 1 - share})
	j.beyond = share > publishedRatio
	return j
}

// observerShare judges whether an observer serves several aircraft.
func observerShare(v *view) Judgment {
	aircraft := v.Aircraft
	if aircraft < 1 {
		return missing("how many aircraft fly at once", "/aircraft/count")
	}
	if aircraft == 1 {
		return fact(false, "/aircraft/count", "", "one aircraft flies at a time")
	}
	if v.VisualObservers == nil {
		return missing("how many visual observers watch the aircraft", "/operation/visual_observers")
	}
	observers := *v.VisualObservers
	because := fmt.Sprintf("%d observer(s) for %d aircraft", observers, aircraft)
	if observers > 0 && observers < aircraft {
		return fact(true, "/operation/visual_observers", because+": one observer serves more than one aircraft", "")
	}
	return fact(false, "/operation/visual_observers", "", because)
}
