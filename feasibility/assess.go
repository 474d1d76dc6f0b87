package feasibility

import (
	"tractcheck/feasibility/air"
	"tractcheck/feasibility/crew"
	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/flight"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/takeoff"
	"tractcheck/feasibility/tract"
)

// Assess answers a mission: every part worked out, the findings gravest first, the remedies that
// were found and verified, and the verdict drawn from them. It needs every part of the mission
// (crew apart); the error is for a part left out, which only a programmer can cause.
func Assess(m Mission) (Answer, error) {
	if err := m.needs(aircraftPart, spraySystemPart, flightPart, weatherPart, operationPart); err != nil {
		return Answer{}, err
	}
	answer := survey(m)
	answer.Remedies = remedies(m, answer)
	answer.Verdict = verdict(answer)
	answer.Headline = headline(answer)
	return rounded(answer), nil
}

// survey lets the mission flow through the rooms once and gathers what they say.
func survey(m Mission) Answer {
	light := m.light()
	sky := air.Observe(m.observation(light))
	weight := takeoff.Weigh(m.takeoffInput(&sky))
	rate := spray.Hold(m.SpraySystem.System, m.sprayJob(weight))
	power := flight.New(m.machine(), sky.Density)
	plan := tract.Fly(m.Field.Ground, m.tractJob(&sky, weight, power))
	risk := drift.Assess(m.driftInput(sky, &weight, rate, &plan))
	team := crew.Plan(m.crewInput(light, plan))
	facts := m.permitFacts(light, weight, &rate, &risk, &plan)
	papers := permits.Check(facts)

	answer := Answer{
		RulesAsOf:      permits.AsOf(),
		TakeoffWeight:  weight,
		RatePressure:   rate,
		DriftRisk:      risk,
		SortiePlan:     plan,
		Authorizations: papers,
		AcrossTheLine:  acrossTheLine(m, facts, weight, papers),
		Record:         permits.Record(facts, m.application(&plan)),
		CrewPlan:       team,
	}
	answer.gather(
		lightReport(light),
		report{sky.Findings, sky.Assumptions, sky.Sources},
		report{weight.Findings, weight.Assumptions, weight.Sources},
		report{rate.Findings, rate.Assumptions, rate.Sources},
		report{power.Findings, power.Assumptions, power.Sources},
		report{plan.Findings, plan.Assumptions, plan.Sources},
		report{risk.Findings, risk.Assumptions, risk.Sources},
		report{team.Findings, team.Assumptions, team.Sources},
		m.fitness(plan, team),
		report{papers.Findings, papers.Assumptions, papers.Sources},
	)
	answer.Cautions = cautions(papers)
	answer.settleSorties(m)
	return answer
}
