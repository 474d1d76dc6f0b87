package feasibility

// people is keeping everyone who takes no part out from under the flight.
func people() choice {
	return choice{knob: KnobOverPeople, moves: papersRoom, options: peopleOptions}
}

// overPeople points at the fact that this knob changes.
const overPeople = "/operation/over_people"

func peopleOptions(r *rooms) []option {
	if !r.m.Operation.OverPeople {
		return nil
	}
	return []option{{[]Change{{Pointer: overPeople, FromFact: new(true), ToFact: new(false)}}, func(m Mission) Mission {
		operation := *m.Operation
		operation.OverPeople = false
		m.Operation = &operation
		return m
	}}}
}
