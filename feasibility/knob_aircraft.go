package feasibility

import "tractcheck/feasibility/units"

// mostAircraft is how many aircraft a remedy may put to the job. Own choice.
const mostAircraft units.Count = 6

// aircraftCounts are other numbers of the same aircraft, one fewer or more first.
func aircraftCounts() choice {
	return choice{knob: KnobAircraftCount, moves: planRoom | teamRoom | papersRoom, options: countOptions}
}

func countOptions(r *rooms) []option {
	here := orElse(r.m.Aircraft.Count, 1)
	var from units.Quantity
	if r.m.Aircraft.Count != nil {
		from = here
	}
	var options []option
	for away := range mostAircraft {
		for _, n := range []units.Count{here - away - 1, here + away + 1} {
			if n < 1 || n > max(mostAircraft, here) {
				continue
			}
			options = append(options, option{[]Change{{Pointer: "/aircraft/count", From: from, To: n}}, func(m Mission) Mission {
				aircraft := *m.Aircraft
				aircraft.Count = &n
				m.Aircraft = &aircraft
				return m
			}})
		}
	}
	return options
}
