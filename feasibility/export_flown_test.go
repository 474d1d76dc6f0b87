package feasibility

import (
	"tractcheck/feasibility/air"
	"tractcheck/feasibility/crew"
	"tractcheck/feasibility/flight"
	"tractcheck/feasibility/takeoff"
	"tractcheck/feasibility/tract"
)

// FlownRooms readies the rooms that fly a mission's tract: the power, the tract and the crew.
func FlownRooms(m Mission) func() crew.Result {
	light := m.light()
	sky := air.Observe(m.observation(light))
	weight := takeoff.Weigh(m.takeoffInput(&sky))
	return func() crew.Result {
		power := flight.New(m.machine(), sky.Density)
		return crew.Plan(m.crewInput(light, tract.Fly(m.Field.Ground, m.tractJob(&sky, weight, power))))
	}
}
