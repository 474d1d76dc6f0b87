package feasibility

import (
	"fmt"
	"strings"

	"tractcheck/feasibility/air"
	"tractcheck/feasibility/crew"
	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/flight"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/takeoff"
	"tractcheck/feasibility/tract"
)

// part names a part of the mission that a computation cannot do without.
type part string

const (
	aircraftPart    part = "aircraft"
	spraySystemPart part = "spray_system"
	flightPart      part = "flight"
	weatherPart     part = "weather"
	operationPart   part = "operation"
)

// needs reports an error that names every part of the list the mission lacks.
func (m Mission) needs(parts ...part) error {
	present := map[part]bool{
		aircraftPart:    m.Aircraft != nil,
		spraySystemPart: m.SpraySystem != nil,
		flightPart:      m.Flight != nil,
		weatherPart:     m.Weather != nil,
		operationPart:   m.Operation != nil,
	}
	var missing []string
	for _, p := range parts {
		if !present[p] {
			missing = append(missing, string(p))
		}
	}
	if len(missing) > 0 {
		return fmt.Errorf("mission lacks %s", strings.Join(missing, ", "))
	}
	return nil
}

// AssessTakeoffWeight fills TakeoffWeight. It needs Aircraft and Load, and reads Weather and
// Field (density altitude) and Operation (authority for 55 lb and over) where stated.
func AssessTakeoffWeight(m Mission) (Answer, error) {
	if err := m.needs(aircraftPart); err != nil {
		return Answer{}, err
	}
	sky := m.skyIfStated()
	weight := takeoff.Weigh(m.takeoffInput(sky))
	answer := Answer{RulesAsOf: permits.AsOf(), TakeoffWeight: weight}
	answer.gather(airReport(sky), report{weight.Findings, weight.Assumptions, weight.Sources})
	answer.Cautions = standingCautions(weightTopic)
	return rounded(answer), nil
}

// AssessRatePressure fills RatePressure. It needs SpraySystem, Load.ApplicationRate and Flight.
func AssessRatePressure(m Mission) (Answer, error) {
	if err := m.needs(spraySystemPart, flightPart); err != nil {
		return Answer{}, err
	}
	rate := spray.Hold(m.SpraySystem.System, m.sprayJob(m.liquid()))
	answer := Answer{RulesAsOf: permits.AsOf(), RatePressure: rate}
	answer.gather(report{rate.Findings, rate.Assumptions, rate.Sources})
	answer.Cautions = standingCautions(sprayTopic)
	return rounded(answer), nil
}

// AssessDriftRisk fills RatePressure and DriftRisk. It needs SpraySystem, Load, Flight and
// Weather, and reads Aircraft (the rotor wake) and Field where stated.
func AssessDriftRisk(m Mission) (Answer, error) {
	if err := m.needs(spraySystemPart, flightPart, weatherPart); err != nil {
		return Answer{}, err
	}
	sky := air.Observe(m.observation(m.light()))
	weight := m.liquid()
	var loaded *takeoff.Result
	if m.Aircraft != nil {
		weight = takeoff.Weigh(m.takeoffInput(&sky))
		loaded = &weight
	}
	rate := spray.Hold(m.SpraySystem.System, m.sprayJob(weight))
	risk := drift.Assess(m.driftInput(sky, loaded, rate, nil))
	answer := Answer{RulesAsOf: permits.AsOf(), RatePressure: rate, DriftRisk: risk}
	answer.gather(
		airReport(&sky),
		report{rate.Findings, rate.Assumptions, rate.Sources},
		report{risk.Findings, risk.Assumptions, risk.Sources},
	)
	answer.Cautions = standingCautions(sprayTopic, driftTopic)
	return rounded(answer), nil
}

// AssessSortiePlan fills TakeoffWeight, SortiePlan and CrewPlan. It needs Aircraft, Load, Flight
// and Field, and reads Weather where stated; without it the air is the standard atmosphere at the
// field's elevation and the wind is calm.
func AssessSortiePlan(m Mission) (Answer, error) {
	if err := m.needs(aircraftPart, flightPart); err != nil {
		return Answer{}, err
	}
	light, sky := m.light(), m.skyIfStated()
	weight := takeoff.Weigh(m.takeoffInput(sky))
	power := flight.New(m.machine(), m.airDensity(sky))
	plan := tract.Fly(m.Field.Ground, m.tractJob(sky, weight, power))
	team := crew.Plan(m.crewInput(light, plan))
	answer := Answer{RulesAsOf: permits.AsOf(), TakeoffWeight: weight, SortiePlan: plan, CrewPlan: team}
	answer.gather(
		airReport(sky),
		report{weight.Findings, weight.Assumptions, weight.Sources},
		report{power.Findings, power.Assumptions, power.Sources},
		report{plan.Findings, plan.Assumptions, plan.Sources},
		report{team.Findings, team.Assumptions, team.Sources},
		m.leastRate(),
		m.fitness(plan, team),
	)
	answer.Cautions = standingCautions(weightTopic, crewTopic)
	answer.settleSorties(m)
	return rounded(answer), nil
}

// AssessAuthorizations fills TakeoffWeight and Authorizations. It needs Aircraft, Load and
// Operation, and reads the rest where stated.
func AssessAuthorizations(m Mission) (Answer, error) {
	if err := m.needs(aircraftPart, operationPart); err != nil {
		return Answer{}, err
	}
	light, sky := m.light(), m.skyIfStated()
	weight := takeoff.Weigh(m.takeoffInput(sky))
	asked := permits.Open(m.permitFacts(light, weight, m.rateIfStated(weight), nil, nil))
	papers := asked.Check()
	answer := Answer{
		RulesAsOf: permits.AsOf(), TakeoffWeight: weight, Authorizations: papers,
		AcrossTheLine: acrossTheLine(m, asked, weight, papers),
		Record:        asked.Record(m.application(nil)),
	}
	answer.gather(
		lightReport(light),
		report{weight.Findings, weight.Assumptions, weight.Sources},
		report{papers.Findings, papers.Assumptions, papers.Sources},
	)
	answer.Cautions = append(standingCautions(), papers.Cautions...)
	return rounded(answer), nil
}
