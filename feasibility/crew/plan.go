package crew

import (
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// Plan works out batteries, hours and cost for the sorties of a tract.
//
// Without a feasible plan of the tract the result is empty, with a note. Missing facts are assumed
// and listed; nothing missing shortens the hours: one person is taken, and battery sets as needed
// only with a finding that says how many. The clock time is the job flown through sortie by
// sortie (4,000 at most, then in proportion); it is as good as the times stated. Sources: see the
// package comment.
func Plan(in Input) Result {
	r := &report{perSet: in.perSet()}
	if !in.Plan.Feasible || in.Plan.Sorties <= 0 || !(in.area() > 0) {
		r.Find(finding.Finding{
			Code: CodeCrewNotPlanned, Severity: finding.Note, Subject: "/crew",
			Message: "There are no sorties to plan a crew for. Settle what keeps the tract from being flown first.",
			Source:  sourceOwn,
		})
		return r.onto(Result{})
	}
	t := in.Crew.times(r)
	j := newJob(in, t)
	out := Result{}
	j.equip(&out, in, r)
	j.clock(&out, in, r)
	days(&out, in, r)
	staff(in, r)
	out.Cost = costs(out, in, j, r)
	return r.onto(out)
}

// job is the sorties with the crew's times, ready to be flown through.
type job struct {
	times    times
	shift    shift // batteries never short
	rotation rotation
	loads    units.Count  // battery sets drained
	drained  units.Energy // by one battery set
	depth    units.Proportion
}

// newJob readies the sorties; every one takes the mean flight time.
func newJob(in Input, t times) job {
	sorties := min(in.Plan.Sorties, 1_000_000)
	aircraft := min(max(1, in.Aircraft), sorties)
	each := min(max(1, in.Plan.SortiesPerBattery), sorties)
	j := job{times: t, shift: shift{
		sorties: int(sorties), aircraft: int(aircraft), perBattery: int(each),
		flight: in.Plan.FlightTime.SI() / in.Plan.Sorties.SI(),
		refill: t.refill.SI(), reload: t.reload.SI(),
		cool: t.cool.SI(), charge: t.charge.SI(), yard: &yard{},
	}}
	j.loads = units.Count(j.shift.loads(j.shift.aircraft))
	j.rotation = rotation{
		aircraft: aircraft.SI(), cycle: j.cycle(), cool: j.shift.cool, charge: j.shift.charge,
	}
	j.drained = units.Energy(in.Plan.EnergyEach.SI() * each.SI())
	if in.BatteryEnergy > 0 {
		j.drained = min(j.drained, in.BatteryEnergy)
		j.depth = units.Proportion(j.drained.SI() / in.BatteryEnergy.SI())
	}
	return j
}

// cycle reports the time between two battery swaps of one aircraft where no battery is short; the
// loading place is shared, so it holds the cycle down to as many loadings as there are aircraft.
func (j job) cycle() float64 {
	s := j.shift
	loading := s.reload + float64(s.perBattery-1)*s.refill
	return max(float64(s.perBattery)*s.flight+loading, float64(s.aircraft)*loading)
}

// clock flies the job through with what there is.
func (j job) clock(out *Result, in Input, r *report) {
	free, _ := j.shift.run()
	have := j.with(*out, in)
	elapsed, ok := have.run()
	r.Cite(sourceCapacity)
	if !ok {
		r.cannotRecharge(j, in)
		return
	}
	out.Elapsed = units.Duration(elapsed)
	out.Waiting = max(0, units.Duration(elapsed-free))
	if elapsed > 0 {
		out.WorkRate = units.AreaRate(in.area().SI() / elapsed)
	}
	// Efficiency = effective over theoretical capacity, the latter swath times speed times the
	// aircraft flown. ASAE EP496.3.
	if theoretical := in.Plan.Treated.SI() / in.Plan.SprayTime.SI() * j.rotation.aircraft; theoretical > 0 && units.Finite(units.AreaRate(theoretical)) {
		out.FieldEfficiency = units.Proportion(out.WorkRate.SI() / theoretical)
	}
	r.short(*out, in)
	r.fleet(j)
}

// with reports the shift with the batteries and chargers that there are, or that are needed where
// they are not stated. A generator too weak for its chargers slows them in proportion.
func (j job) with(out Result, in Input) shift {
	s := j.shift
	s.batteries, s.chargers = int(count(in.Crew.Batteries, out.Batteries)), int(out.Chargers)
	if in.Crew.Chargers != nil {
		s.chargers = int(max(0, *in.Crew.Chargers))
	}
	if g := in.Crew.Generator; g != nil && *g > 0 && units.StrictlyBelow(*g, out.GeneratorPower) {
		s.charge *= out.GeneratorPower.SI() / g.SI()
	}
	return s
}

// count reports a count as stated, where that is at least one.
func count(stated *units.Count, otherwise units.Count) units.Count {
	if stated != nil && *stated > 0 {
		return *stated
	}
	return otherwise
}
