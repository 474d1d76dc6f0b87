package feasibility

import (
	"tractcheck/feasibility/air"
	"tractcheck/feasibility/crew"
	"tractcheck/feasibility/daylight"
	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/flight"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/takeoff"
	"tractcheck/feasibility/tract"
)

// room names a room of the pipeline; several make a set.
type room uint16

const (
	lightRoom room = 1 << iota
	skyRoom
	weightRoom
	rateRoom
	powerRoom
	planRoom
	riskRoom
	teamRoom
	papersRoom
)

// everyRoom is all of them.
const everyRoom = papersRoom<<1 - 1

// rooms is a mission on its way through the rooms. Each room is worked out when its result is first
// asked for, and once. A mission that a change made of another (base) takes over the results of the
// rooms that the change does not move. Of a changed mission only the verdict is asked, so what explains a
// result and decides nothing, such as curves and shares, is not worked out.
type rooms struct {
	m     Mission
	land  *tract.Land // the field, which no change moves
	into  *Answer     // where the results of a mission as sent are written; nil where it was changed
	base  *rooms
	moved room
	done  room

	lit      *daylight.Light
	observed *air.State
	weighed  *takeoff.Result
	held     *spray.Result
	powered  *flight.Model
	flown    *tract.Plan
	drifted  *drift.Result
	crewed   *crew.Result
	asked    *permits.Case
	checked  *permits.Checklist
}

// enterOn starts a mission through the rooms, with what is known of its field. The results of the rooms are large, so they are
// written where the answer has them.
func enterOn(land *tract.Land, m Mission) *rooms {
	a := new(Answer)
	return &rooms{
		m: m, land: land, into: a,
		weighed: &a.TakeoffWeight, held: &a.RatePressure, flown: &a.SortiePlan, drifted: &a.DriftRisk,
		crewed: &a.CrewPlan, checked: &a.Authorizations,
	}
}

// changed starts a mission that differs from this one in facts that move only the given rooms.
func (r *rooms) changed(m Mission, moved room) *rooms {
	return &rooms{m: m, land: r.land, base: r, moved: moved}
}

// once works a room out, or takes it over from the base.
func once[R any](r *rooms, which room, slot **R, same func(*rooms) *R, work func() R) *R {
	if r.done&which != 0 {
		return *slot
	}
	switch {
	case r.base != nil && r.moved&which == 0:
		*slot = same(r.base)
	case *slot != nil:
		**slot = work()
	default:
		result := work()
		*slot = &result
	}
	r.done |= which
	return *slot
}

func (r *rooms) light() *daylight.Light {
	return once(r, lightRoom, &r.lit, (*rooms).light, r.m.light)
}

func (r *rooms) sky() *air.State {
	return once(r, skyRoom, &r.observed, (*rooms).sky, func() air.State { return air.Observe(r.m.observation(*r.light())) })
}

func (r *rooms) weight() *takeoff.Result {
	return once(r, weightRoom, &r.weighed, (*rooms).weight, func() takeoff.Result { return takeoff.Weigh(r.m.takeoffInput(r.sky())) })
}

func (r *rooms) rate() *spray.Result {
	return once(r, rateRoom, &r.held, (*rooms).rate, func() spray.Result {
		if r.base != nil {
			return spray.Judge(r.m.SpraySystem.System, r.m.sprayJob(*r.weight()))
		}
		return spray.Hold(r.m.SpraySystem.System, r.m.sprayJob(*r.weight()))
	})
}

func (r *rooms) power() *flight.Model {
	return once(r, powerRoom, &r.powered, (*rooms).power, func() flight.Model { return flight.New(r.m.machine(), r.sky().Density) })
}

func (r *rooms) plan() *tract.Plan {
	return once(r, planRoom, &r.flown, (*rooms).plan, func() tract.Plan {
		job := r.m.tractJob(r.sky(), *r.weight(), *r.power())
		if r.base != nil {
			return r.land.Judge(job)
		}
		return r.land.Fly(job)
	})
}

// ground is the plan as far as drift and papers read it: the tract's area and the strips kept clear.
// No change of the load or the flight moves those, so the plan need not be flown again for them.
func (r *rooms) ground() *tract.Plan {
	if r.done&planRoom == 0 && r.base != nil && r.base.ground().Area > 0 {
		return r.base.ground()
	}
	return r.plan()
}

func (r *rooms) risk() *drift.Result {
	return once(r, riskRoom, &r.drifted, (*rooms).risk, func() drift.Result {
		in := r.m.driftInput(*r.sky(), r.weight(), *r.rate(), r.ground())
		if r.base != nil {
			return drift.Judge(in, false).Result
		}
		return drift.Assess(in)
	})
}

func (r *rooms) team() *crew.Result {
	return once(r, teamRoom, &r.crewed, (*rooms).team, func() crew.Result { return crew.Plan(r.m.crewInput(*r.light(), *r.plan())) })
}

// around is the drift as far as the papers read it: which neighbors lie downwind, which only the wind
// decides.
func (r *rooms) around() *drift.Result {
	if r.done&riskRoom == 0 && r.base != nil {
		return r.base.around()
	}
	return r.risk()
}

func (r *rooms) papers() *permits.Checklist {
	return once(r, papersRoom, &r.checked, (*rooms).papers, func() permits.Checklist {
		r.asked = permits.Open(r.m.permitFacts(*r.light(), *r.weight(), r.rate(), r.around(), r.ground()))
		return r.asked.Check()
	})
}

// findings is what one room found.
func (r *rooms) findings(which room) []finding.Finding {
	switch which {
	case skyRoom:
		return r.sky().Findings
	case weightRoom:
		return r.weight().Findings
	case rateRoom:
		return r.rate().Findings
	case powerRoom:
		return r.power().Findings
	case planRoom:
		return r.plan().Findings
	case riskRoom:
		return r.risk().Findings
	case teamRoom:
		return r.team().Findings
	case papersRoom:
		return r.papers().Findings
	default:
		return nil
	}
}

// core is the answer as far as a verdict needs it: every room's result and every finding.
func (r *rooms) core() Answer {
	var a Answer
	r.fill(&a)
	return a
}

// fill gives an answer what a verdict needs. A result that was written there is only worked out.
func (r *rooms) fill(a *Answer) {
	a.RulesAsOf = permits.AsOf()
	a.TakeoffWeight = *r.weight()
	a.RatePressure = *r.rate()
	a.SortiePlan = *r.plan()
	a.DriftRisk = *r.risk()
	a.CrewPlan = *r.team()
	a.Authorizations = *r.papers()
	dusk, stopBy := r.pastDusk()
	a.stopBy = stopBy
	a.gather(
		lightReport(*r.light()),
		report{r.sky().Findings, r.sky().Assumptions, r.sky().Sources},
		report{r.weight().Findings, r.weight().Assumptions, r.weight().Sources},
		report{r.rate().Findings, r.rate().Assumptions, r.rate().Sources},
		report{r.power().Findings, r.power().Assumptions, r.power().Sources},
		report{r.plan().Findings, r.plan().Assumptions, r.plan().Sources},
		report{r.risk().Findings, r.risk().Assumptions, r.risk().Sources},
		report{r.team().Findings, r.team().Assumptions, r.team().Sources},
		r.m.fitness(*r.plan(), *r.team()),
		dusk,
		report{r.papers().Findings, r.papers().Assumptions, r.papers().Sources},
	)
	a.settleSorties(r.m)
}

// whole is the answer with everything but the remedies and what is drawn from them. The mission must
// not be a changed one.
func (r *rooms) whole() *Answer {
	a := r.into
	r.fill(a)
	a.Record = r.asked.Record(r.m.application(r.plan()))
	a.AcrossTheLine = acrossTheLine(r.m, r.asked, *r.weight(), *r.papers())
	a.Cautions = cautions(*r.papers())
	return a
}
