package feasibility

import (
	"math"

	"tractcheck/feasibility/units"
)

// leastAcross is the least angle between a course and the wind's line that can be called across the
// wind. Own choice, as in the contract: half a right angle.
const leastAcross = 45 * units.Degree

// courses are lines turned by 30, 60 or 90 degrees either way from those flown, the least turn first.
func courses() choice {
	return choice{knob: KnobCourse, moves: planRoom | riskRoom | teamRoom | papersRoom, options: courseOptions}
}

func courseOptions(r *rooms) []option {
	here := r.plan().Course
	var from units.Quantity
	if r.m.Flight.Course != nil {
		here, from = *r.m.Flight.Course, *r.m.Flight.Course
	}
	var options []option
	for _, turn := range []float64{30, -30, 60, -60, 90} {
		degrees := math.Mod(math.Round(here.In(units.BearingDegree))+turn+360, 360)
		course := units.Bearing(degrees * float64(units.BearingDegree))
		if r.m.asksAcross() && !liesAcross(course, r.m.Weather.WindFrom) {
			continue // the contract refuses it
		}
		options = append(options, option{[]Change{{Pointer: "/flight/course", From: from, To: course}}, func(m Mission) Mission {
			flight := *m.Flight
			flight.Course = &course
			m.Flight = &flight
			return m
		}})
	}
	return options
}

// asksAcross reports whether the mission asks for lines across the wind.
func (m Mission) asksAcross() bool { return m.Flight.Crosswind != nil && *m.Flight.Crosswind }

// liesAcross reports whether a course lies across the line of a wind.
func liesAcross(course, wind units.Bearing) bool {
	angle := course.Between(wind)
	return units.AtLeast(min(angle, units.Angle(math.Pi)-angle), leastAcross)
}
