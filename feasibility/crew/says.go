package crew

import (
	"fmt"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// cannotRecharge says that the batteries run out with no charger.
func (r *report) cannotRecharge(j job, in Input) {
	have := count(in.Crew.Batteries, 1)
	r.Find(finding.Finding{
		Code: CodeCannotRecharge, Severity: finding.Needed, Subject: "/crew/chargers",
		Message:  fmt.Sprintf("The job drains %s, but you have %s and no charger. Bring a charger and a generator, or more charged batteries.", r.batteriesOf(j.loads), have),
		Measured: have, Limit: j.loads, Margin: have - j.loads, Source: sourceBatteries,
	})
}

// short says how long the aircraft wait with the batteries and chargers that there are.
func (r *report) short(out Result, in Input) {
	if out.Waiting < units.Second { // is none
		return
	}
	wait := fmt.Sprintf("the aircraft wait %s in all, and the job takes %s", minutes(out.Waiting), hours(out.Elapsed))
	if b := in.Crew.Batteries; b != nil && *b > 0 && *b < out.Batteries {
		r.Find(finding.Finding{
			Code: CodeBatteriesShort, Severity: finding.Caution, Subject: "/crew/batteries",
			Message:  fmt.Sprintf("With %s %s. With %s, and chargers that keep up, none waits.", r.batteriesOf(*b), wait, r.batteriesOf(out.Batteries)),
			Measured: *b, Limit: out.Batteries, Margin: *b - out.Batteries, Source: sourceBatteries,
		})
	}
	if c := in.Crew.Chargers; c != nil && *c < out.Chargers {
		r.Find(finding.Finding{
			Code: CodeChargersShort, Severity: finding.Caution, Subject: "/crew/chargers",
			Message:  fmt.Sprintf("With %s %s. Bring %s to keep up.", chargersOf(*c), wait, chargersOf(out.Chargers)),
			Measured: *c, Limit: out.Chargers, Margin: *c - out.Chargers, Source: sourceBatteries,
		})
	}
}

// fleet says where another aircraft no longer helps: N machines fly no more loads than
// min(N/(flight + loading), 1/loading), so from N = (flight + loading)/loading on the loading
// place is never free.
func (r *report) fleet(j job) {
	s := j.shift
	loading := s.refill + (s.reload-s.refill)/float64(s.perBattery)
	if s.aircraft < 2 || !(loading > 0) {
		return
	}
	r.Cite(sourceFleet)
	most := (s.flight + loading) / loading
	if !(float64(s.aircraft) > most*(1+units.Tolerance)) {
		return
	}
	useful := capped(whole(most))
	r.Find(finding.Finding{
		Code: CodeLoadingPlaceFull, Severity: finding.Caution, Subject: "/aircraft/count",
		Message: fmt.Sprintf("One loading place keeps %s aircraft busy at most; %d wait in line for it. Set up a second loading place, speed up refills, or fly %s.",
			useful, s.aircraft, useful),
		Measured: units.Count(s.aircraft), Limit: useful, Margin: useful - units.Count(s.aircraft), Source: sourceFleet,
	})
}
