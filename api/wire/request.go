package wire

import "tractcheck/feasibility"

// Request is a mission, or the parts of one, as the caller sends it. One shape serves every
// endpoint; which members an endpoint needs is in its schema and in needs. A nil pointer is a
// member that was not sent.
type Request struct {
	Reference   *string      `json:"reference,omitzero" validate:"omitempty,max=200"`
	Units       *string      `json:"units,omitzero" validate:"omitempty,oneof=us si"`
	Aircraft    *Aircraft    `json:"aircraft,omitzero"`
	SpraySystem *SpraySystem `json:"spray_system,omitzero"`
	Load        *Load        `json:"load,omitzero"`
	Flight      *Flight      `json:"flight,omitzero"`
	Field       *Field       `json:"field,omitzero"`
	Weather     *Weather     `json:"weather,omitzero"`
	Operation   *Operation   `json:"operation,omitzero"`
	Crew        *Crew        `json:"crew,omitzero"`
	MayChange   []string     `json:"may_change,omitzero" validate:"max=12,unique,dive,oneof=fill speed height swath application_rate disc_rotation nozzle_size nozzle_type course aircraft_count hour over_people"`
}

// Mission is pass 3 of reading a request, its meaning: the single-struct rules of the tags, the
// members the endpoint needs, every unit and range, and the facts that contradict each other. It
// reports every fault it finds; where there is one, the mission must not be used. It never panics,
// whatever the shape of the request, and changes nothing.
//
// A fault that pass 2 found at the same pointer may be found here again; the reader keeps one.
func (r *Request) Mission(endpoint Endpoint) (feasibility.Mission, []Fault) {
	return r.missionOn(nil, endpoint)
}

// missionOn is Mission, with the field taken over where it is known.
func (r *Request) missionOn(known *mappedField, endpoint Endpoint) (feasibility.Mission, []Fault) {
	if r == nil {
		r = &Request{}
	}
	m := &mapper{known: known}
	m.tags(r)
	mission := m.mission(endpoint, r)
	return mission, m.once()
}

// mission maps a request, but for the rules of the tags.
func (m *mapper) mission(endpoint Endpoint, r *Request) feasibility.Mission {
	m.needs(endpoint, r)
	mission := feasibility.Mission{
		Aircraft:    m.aircraft(r.Aircraft),
		SpraySystem: m.spraySystem(r.SpraySystem),
		Load:        m.load(r.Load),
		Flight:      m.flight(r.Flight),
		Field:       m.fieldOf(r),
		Weather:     m.weather(r.Weather),
		Operation:   m.operation(r.Operation),
		Crew:        m.crew(r.Crew),
		MayChange:   mayChange(r.MayChange),
		Scales:      r.scales(),
	}
	m.acrossParts(r, mission)
	return mission
}

// system reports the unit system of the answer; US customary units where the caller chose none.
func (r *Request) system() system {
	if r != nil && r.Units != nil && *r.Units == "si" {
		return siUnits
	}
	return usUnits
}
