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
func options(on *laid, b *rivals, p *path, job *Job, t turning, plan *Plan) []CourseOption {
	chosen := option(&on.layout, p, on.course, job, t)
	chosen.Chosen, chosen.FlightTime = true, plan.FlightTime
	list := append(make([]CourseOption, 0, 1+len(b.ways)), chosen)
	overhead := max(0, plan.FlightTime.SI()-plan.SprayTime.SI()-chosen.TurnTime.SI()) // ferries and climbs
	for i := range b.ways {
		other, l := b.ways[i].course, &b.ways[i].layout
		joined := join(l, t, nil)
		o := option(l, &joined, other, job, t)
		if plan.Feasible {
			o.FlightTime = units.Duration(l.length/t.speed + o.TurnTime.SI() + overhead)
		}
		list = append(list, o)
	}
	for i := range list {
		list[i].Note = compare(&list[i], &list[0], job)
	}
	return list
}

// rivals is what other ways to lay the lines come to, beside one way.
type rivals struct {
	done             bool
	ways             []way   // other courses
	flat             *layout // along the same course without a headland; nil: not asked for, or not known
	sprayed, outside float64 // m2, of flat
	steps            int     // that it took
}

// way is lines along another course.
type way struct {
	course course
	layout layout
}

// others lays the lines in other ways, as far as half the steps of a plan go. They are laid once, and charged
// as if anew each time.
func (l *Land) others(on *laid, job *Job) *rivals {
	b := &on.rivals
	if b.done {
		l.work.add(b.steps)
		return b
	}
	l.work.allow(mostPlanWork / 2)
	before := l.work.steps
	b.lay(on, job)
	if on.ground.band.width > 0 {
		b.level(on)
	}
	b.done, b.steps = true, l.work.steps-before
	return b
}

// lay lays the lines along other courses.
func (b *rivals) lay(on *laid, job *Job) {
	courses := []units.Bearing{on.course.bearing}
	for _, by := range []CourseChoice{CourseByFewestTurns, CourseByWind} {
		if by == on.course.by || on.layout.coarse {
			continue
		}
		other, ok := rival(by, on.ground, job)
		if !ok || shown(courses, other) {
			continue
		}
		laid := other.layout(on.ground, on.layout.swath)
		if on.ground.work.over() {
			return
		}
		if laid.coarse || laid.length <= 0 {
			continue
		}
		other.laid = nil
		b.ways, courses = append(b.ways, way{other, laid}), append(courses, other.bearing)
	}
}

// level lays the lines without the headland.
func (b *rivals) level(on *laid) {
	bare := *on.ground
	bare.band = band{}
	flat := lay(&bare, on.course.angle, on.layout.swath)
	if flat.coarse || bare.work.over() {
		return
	}
	if b.sprayed, b.outside = covered(&bare, &flat); !bare.work.over() {
		b.flat = &flat
	}
}

// sameCourse is how near two courses are taken to be the same. Own choice.
const sameCourse = 1 * units.Degree

// shown reports whether a list has a course with lines that run as those of another do.
func shown(list []units.Bearing, c course) bool {
	return slices.ContainsFunc(list, func(b units.Bearing) bool {
		apart := b.Between(c.bearing)
		return min(apart, math.Pi-apart) < sameCourse
	})
}

// rival reports the course chosen in another way.
func rival(by CourseChoice, g *ground, job *Job) (course, bool) {
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
func option(l *layout, p *path, c course, job *Job, t turning) CourseOption {
	o := CourseOption{Course: c.bearing, By: c.by, Passes: l.passes}
	if l.coarse {
		o.Turns = capped(max(0, l.pieces-1))
		o.TurnTime = units.Duration(o.Turns.SI() * t.turn)
	} else {
		o.Turns = units.Count(max(0, len(p.legs)-1))
		for _, leg := range p.legs {
			o.TurnTime += units.Duration(leg.hop)
		}
	}
	air, _ := airSpeeds(job, c, 0)
	o.Against, o.With = air[0], air[1]
	return o
}

// compare says in words what a course costs beside the chosen one, and how even it sprays.
func compare(o, chosen *CourseOption, job *Job) string {
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
