package tract

import (
	"fmt"
	"math"
	"slices"

	"tractcheck/feasibility/units"
)

// CourseOption is one way to lay the lines, with what it costs.
type CourseOption struct {
	Course     units.Bearing
	By         CourseChoice
	Chosen     bool
	Passes     units.Count
	Turns      units.Count    // onto the next line or across a gap
	TurnTime   units.Duration // of all turns
	FlightTime units.Duration // spraying, turns and ferries; of a course not chosen, with the chosen one's sorties and ferries
	Against    units.Speed    // air speed on the lines that are flown the most against the wind
	With       units.Speed    // and on those flown with it
	Note       string         // what it costs in time and evenness, in plain words
}

// options lists the chosen course and beside it the one with the fewest turns, the one across the
// wind and the caller's, as far as they are known and differ. Off the map there is one course only.
func options(g ground, l layout, p *path, c course, job Job, t turning, plan Plan) []CourseOption {
	chosen := option(l, p, c, job, t)
	chosen.Chosen, chosen.FlightTime = true, plan.FlightTime
	list := []CourseOption{chosen}
	overhead := max(0, plan.FlightTime.SI()-plan.SprayTime.SI()-chosen.TurnTime.SI()) // ferries and climbs
	for _, by := range []CourseChoice{CourseByFewestTurns, CourseByWind} {
		if by == c.by || l.coarse {
			continue
		}
		other, ok := rival(by, g, job)
		if !ok || shown(list, other) {
			continue
		}
		laid := other.layout(g, l.swath)
		if g.work.over() {
			break
		}
		if laid.coarse || laid.length <= 0 {
			continue
		}
		way := join(laid, t, nil, 0)
		o := option(laid, &way, other, job, t)
		if plan.Feasible {
			o.FlightTime = units.Duration(laid.length/t.speed + o.TurnTime.SI() + overhead)
		}
		list = append(list, o)
	}
	for i := range list {
		list[i].Note = compare(list[i], list[0], job)
	}
	return list
}

// sameCourse is how near two courses are taken to be the same. Own choice.
const sameCourse = 1 * units.Degree

// shown reports whether a list has a course with lines that run as those of another do.
func shown(list []CourseOption, c course) bool {
	return slices.ContainsFunc(list, func(o CourseOption) bool {
		apart := o.Course.Between(c.bearing)
		return min(apart, math.Pi-apart) < sameCourse
	})
}

// rival reports the course chosen in another way.
func rival(by CourseChoice, g ground, job Job) (course, bool) {
	if !g.mapped {
		return course{}, false
	}
	c := course{by: by}
	switch {
	case by == CourseByFewestTurns:
		c.angle, c.laid = fewestTurns(g, job)
		c.bearing = line(units.Bearing(math.Pi/2 - c.angle))
	case job.WindSpeed > 0:
		c.bearing = line(job.WindFrom + math.Pi/2)
		c.angle = math.Pi/2 - c.bearing.SI()
	default:
		return c, false
	}
	return c, true
}

// option counts the passes and the turns of a layout.
func option(l layout, p *path, c course, job Job, t turning) CourseOption {
	o := CourseOption{Course: c.bearing, By: c.by, Passes: l.passes}
	if l.coarse {
		o.Turns = capped(max(0, l.pieces-1))
		o.TurnTime = units.Duration(o.Turns.SI() * t.turn)
	} else {
		o.Turns = units.Count(max(0, len(p.legs)-1))
		for _, leg := range p.legs {
			o.TurnTime += units.Duration(leg.hopTime)
		}
	}
	air, _ := airSpeeds(job, c, 0)
	o.Against, o.With = air[0], air[1]
	return o
}

// compare says in words what a course costs beside the chosen one, and how even it sprays.
func compare(o, chosen CourseOption, job Job) string {
	text := fmt.Sprintf("%s passes and %s turns", o.Passes, o.Turns)
	switch extra := o.FlightTime - chosen.FlightTime; {
	case o.Chosen || o.FlightTime <= 0:
	case units.AtLeast(extra, units.Second):
		text += fmt.Sprintf(", about %s minutes more in the air than the course taken", figure(extra.In(units.Minute)))
	case units.AtMost(extra, -units.Second):
		text += fmt.Sprintf(", about %s minutes less in the air than the course taken", figure(-extra.In(units.Minute)))
	default:
		text += ", as long in the air as the course taken"
	}
	if !(job.WindSpeed > 0) {
		return text + ". How even it sprays depends on the wind, which is not known."
	}
	off := units.Angle(math.Abs(math.Remainder((o.Course - job.WindFrom).SI(), math.Pi))) // from along the wind
	if off >= math.Pi/2-2*sameCourse {
		return text + ". Across the wind: the aircraft flies alike both ways, and every pass drifts onto the one before it."
	}
	return text + fmt.Sprintf(". The lines lie %s degrees off the wind: the aircraft moves through the air at %s mph one way and %s mph the other, so passes differ in turn, and less drifts onto the pass before.",
		figure(off.In(units.Degree)), figure(o.Against.In(units.MilePerHour)), figure(o.With.In(units.MilePerHour)))
}
