package tract

import (
	"math"

	"tractcheck/feasibility/flight"
	"tractcheck/feasibility/units"
)

// Fly plans the sorties over the field.
//
// The lines run along the caller's course, else across the wind where Job.Crosswind asks for it,
// else along the course with the fewest turns. Each sortie climbs, ferries out, sprays along the
// lines with its mass falling, turns, and ferries back, until the tank is empty or the battery is
// down to its reserve; the next one takes up where it stopped, anywhere on a line. Sorties are
// dealt to the aircraft in turn.
//
// Quantities of the job must be positive and finite; a missing one gives an empty plan with a
// finding that names it. The work is bounded: at most 20,000 lines and 1,000 sorties are laid out
// one by one, beyond that averages serve and a finding says so. Accuracy: areas to 1 part in
// 1,000,000 on the map up to 20 km; passes exact; flight times as good as the stated turn time
// and ferry. Sources: see the package comment.
func Fly(field Field, job Job) Plan { return NewLand(field).Fly(job) }

// Fly plans the sorties of a job, as the function Fly does.
func (l *Land) Fly(job Job) Plan {
	r := &report{}
	return r.onto(l.fly(&job, true, r))
}

// Judge plans the sorties of a job and leaves out what decides nothing: the map, the other courses and
// what a headland costs.
func (l *Land) Judge(job Job) Plan {
	r := &report{}
	return r.onto(l.fly(&job, false, r))
}

// fly is Fly, or Judge where nothing is to be explained, without the report.
func (l *Land) fly(job *Job, explained bool, r *report) Plan {
	if pointer, ok := job.complete(); !ok {
		r.incomplete(pointer)
		return Plan{}
	}
	on := l.lay(job, r)
	if on == nil {
		if l.surveyed.ok { // how far the ground reaches is known all the same
			return Plan{drawn: &drawn{ground: l.surveyed.ground, coarse: true}}
		}
		return Plan{}
	}
	plan := on.plan()
	plan.drawn = &drawn{ground: on.ground, aircraft: job.Aircraft, coarse: on.layout.coarse}
	if on.bare() {
		return plan
	}
	k, turn := ready(job, on.course, r)
	p := l.join(on, turn, ferryDistance(&l.field, on.ground, &on.layout, r), explained)
	r.gaps(p)
	if explained {
		plan.drawn.path = p
	}
	if length := on.layout.length; length/k.tank > mostSorties {
		r.tooManySorties(length/k.tank, job)
		return plan
	}
	cut := k.cut(p, job)
	l.work.add(k.steps)
	switch {
	case cut.stuck:
		r.stuck(&k, p, &cut, job)
	case cut.count > mostSorties:
		r.tooManySorties(cut.count, job)
	default:
		cut.fill(&plan, &k)
		plan.drawn.list, plan.drawn.ends = cut.list, cut.ends
		r.sorties(&plan, &cut, job)
	}
	if job.WindSpeed > 0 {
		r.Cite(sourceWind) // how even a course sprays
	}
	if explained {
		others := l.others(on, job)
		plan.Courses = options(on, others, p, job, turn, &plan)
		plan.Headland = headland(on, others, p, &plan, job, turn)
	}
	return plan
}

// account works out where the ground goes. dry is how much of the tract lies in keep-outs and strips, m2.
func (on *laid) account(keptOut, dry float64) {
	g := on.ground
	sprayed, outside := covered(g, &on.layout)
	sprayed = max(0, min(sprayed, g.area-keptOut))
	strips := max(0, min(dry-keptOut, g.area-keptOut-sprayed))
	on.pastEdge = units.Area(outside)
	on.accounting = Accounting{
		Tract: units.Area(g.area), Sprayed: units.Area(sprayed),
		Unsprayed: units.Area(g.area - keptOut - sprayed), KeepOuts: units.Area(keptOut),
		Strips: units.Area(strips),
	}
}

// plan starts a plan with the lines and where the ground goes.
func (on *laid) plan() Plan {
	l := &on.layout
	return Plan{
		Area:            on.accounting.Tract,
		Accounting:      on.accounting,
		Treated:         units.Area(l.length * l.swath),
		SprayedPastEdge: on.pastEdge,
		Cleared:         on.strips,
		Passes:          l.passes,
		Segments:        capped(l.pieces),
		SprayLength:     units.Length(l.length),
		Course:          on.course.bearing,
		CourseBy:        on.course.by,
	}
}

// ready makes the aircraft and its turns ready, with what must be assumed for them.
func ready(job *Job, c course, r *report) (k craft, t turning) {
	turn := defaultTurn
	if job.TurnTime != nil && *job.TurnTime >= 0 && units.Finite(*job.TurnTime) {
		turn = *job.TurnTime
	} else {
		r.Assume("/flight/turn_time", "5 seconds to turn onto the next line (3 to 8 is usual)", "time a few turns and send the mean", sourceTurnTime)
	}
	r.assumeFlight(job)
	power, usable := &job.Power, job.Power.Usable
	if !powered(power, job.DryMass) {
		// Nothing is known, so nothing binds, and the finding says that the battery was not checked.
		r.unpowered()
		power, usable = &flight.Model{}, units.Energy(math.Inf(1))
	}
	k.ready(job, power, usable, c)
	return k, turning{turn: turn.SI(), speed: job.Speed.SI(), swath: job.Swath.SI()}
}

// powered reports whether a power model can tell anything.
func powered(m *flight.Model, mass units.Mass) bool {
	hover := m.Hover(mass)
	return m.Usable > 0 && hover > 0 && units.Finite(m.Usable) && units.Finite(hover)
}

// ferryDistance reports the ferry one way, where there is no launch point to measure from.
func ferryDistance(field *Field, g *ground, l *layout, r *report) float64 {
	if g.launch != nil {
		return 0
	}
	if field.LaunchPoint != nil {
		r.Assume("/field/launch_point", "the launch point is left out, since there is no boundary to measure it from", "send the boundary as GeoJSON", sourceOwn)
	}
	if d := field.FerryDistance; d != nil && *d >= 0 && units.Finite(*d) {
		return d.SI()
	}
	// Own choice: launch at the edge of the tract, half its longer extent away on the mean.
	_, along := frame{cos: -l.frame.sin, sin: l.frame.cos}.across(g.tract)
	half := max(l.width, along) / 2
	r.Assume("/field/ferry_distance", feet(units.Length(half))+" of ferry each way: launch at the edge of the tract, half its longer side away on the mean",
		"send the launch point with the boundary, or the mean ferry distance", sourceOwn)
	return half
}
