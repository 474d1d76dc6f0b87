package tract

import (
	"slices"

	"tractcheck/feasibility/units"
)

// Land is a field and what was worked out of it for the jobs planned on it so far: the ground, the strips
// left for neighbors, and the last ways in which the lines were laid. A job that differs from an earlier
// one in its load, its speed or its height alone is flown over the same lines, which are not laid again;
// the plans are those that Fly gives. A Land serves one goroutine at a time.
type Land struct {
	field    Field
	surveyed surveyed
	bare     cleared // without strips
	cleared  *cleared
	laid     []*laid // the one asked for last at the end
	room     [mostLaid]*laid
	joined   joined
	work     tally
	known    *known // of missions before this one; nil: there were none
}

// mostLaid is how many ways of laying the lines are kept, which bounds the memory. Own choice: those of a
// mission and of the courses tried for it.
const mostLaid = 8

// NewLand readies a field for jobs.
func NewLand(field Field) *Land { return &Land{field: field} }

// tally counts the steps of the work on a field. What is counted depends on the field and the jobs alone.
type tally struct{ steps, most int }

// add counts steps; a tally that is not there counts nothing.
func (t *tally) add(steps int) {
	if t != nil {
		t.steps += steps
	}
}

// over reports whether more steps were counted than there may be; what is worked on is then given up, and
// what has come of it so far means nothing.
func (t *tally) over() bool { return t != nil && t.most > 0 && t.steps > t.most }

// allow lets so many more steps be taken.
func (t *tally) allow(steps int) { t.most = t.steps + steps }

// mostPlanWork is how many steps the ground and the lines of one plan may take. Own choice: a second or two.
const mostPlanWork = 40_000_000

// Work reports how many steps the plans on this land have taken so far: sides of the ground looked at by
// lines, and lines looked at by sorties. A million of them take some hundredths of a second.
func (l *Land) Work() units.Count { return units.Count(l.work.steps) }

// surveyed is the field as ground.
type surveyed struct {
	done    bool
	counted bool // in the work of this mission
	ground  *ground
	ok      bool
	keptOut float64 // m2 of the tract in keep-outs
	steps   int     // that it took
	said    said
}

// cleared is the ground less the strips for neighbors.
type cleared struct {
	asked  []Clear
	ground *ground
	strips []Clear // those that were laid
	dry    float64 // m2 of the tract in keep-outs and strips
	steps  int     // that it took, with the survey
	over   bool    // given up, since it takes too many steps
	said   said
}

// laid is the lines of a job on the ground.
type laid struct {
	lie
	asked      []Clear
	ground     *ground
	course     course
	layout     layout
	accounting Accounting // where the ground goes
	pastEdge   units.Area
	strips     []Clear
	steps      int  // that it took
	over       bool // given up, since it takes too many steps
	said       said
	rivals     rivals
}

// lie is what of a job decides how its lines lie on the ground, the strips for neighbors apart.
type lie struct {
	swath           units.Length
	headland        units.Count
	course          units.Bearing
	caller, across  bool
	windy           bool
	windFrom        units.Bearing
	crosswindStated bool
}

// lie reports what of a job decides how its lines lie.
func (j Job) lie() lie {
	at := lie{swath: j.Swath, headland: j.Headland, windy: j.WindSpeed > 0, windFrom: j.WindFrom}
	if j.Course != nil {
		at.caller, at.course = true, *j.Course
	}
	if j.Crosswind != nil {
		at.crosswindStated, at.across = true, *j.Crosswind
	}
	return at
}

// survey makes ground of the field, once.
func (l *Land) survey(r *report) *surveyed {
	s := &l.surveyed
	switch {
	case !s.done:
		l.work.allow(mostPlanWork)
		before := l.work.steps
		g, ok := survey(l.field, r)
		g.work = &l.work
		s.ground, s.ok = &g, ok
		if s.ok {
			s.keptOut = s.ground.keptOut()
		}
		s.steps, s.said = l.work.steps-before, r.said()
		s.said.findings, s.said.assumptions = slices.Clone(r.Findings), slices.Clone(r.Assumptions) // r goes out with the plan
	case !s.counted:
		l.work.add(s.steps)
		r.repeat(&s.said)
	default:
		r.repeat(&s.said)
	}
	s.done, s.counted = true, true
	return s
}

// clear leaves strips for neighbors on the ground, anew only where they are not those of the last job.
func (l *Land) clear(strips []Clear) *cleared {
	if l.cleared == nil || !slices.Equal(l.cleared.asked, strips) {
		if l.cleared = l.known.clearing(strips); l.cleared == nil {
			l.cleared = l.clearAnew(strips)
		} else {
			l.work.add(l.cleared.steps - l.surveyed.steps)
		}
	}
	return l.cleared
}

// clearAnew leaves strips for neighbors on the ground.
func (l *Land) clearAnew(strips []Clear) *cleared {
	s, c := &l.surveyed, &l.bare
	if len(strips) > 0 {
		c = &cleared{asked: strips}
	}
	c.ground, c.dry, c.steps = s.ground, s.keptOut, s.steps
	if len(strips) > 0 {
		l.work.allow(mostPlanWork - c.steps)
		before, g, r := l.work.steps, *s.ground, brief()
		g.setBacks = nil
		c.strips, c.ground = g.keepClear(strips, r), &g
		if len(g.kept) > 0 {
			c.dry = g.dry(newFrame(0), nil)
		}
		c.steps, c.said = c.steps+l.work.steps-before, r.said()
	}
	c.over = c.steps > mostPlanWork
	return c
}

// lay puts the lines of a job on the ground, or finds them where they were laid before, and says what it
// finds. It reports nil where there is no ground. A job is charged for all that it stands on, also for what
// was worked out for an earlier one: whether it is given up depends on the job alone.
func (l *Land) lay(job *Job, r *report) *laid {
	if s := l.survey(r); !s.ok {
		return nil
	}
	c := l.clear(job.Clear)
	if c.over {
		r.tooRagged()
		return nil
	}
	r.repeat(&c.said)
	on := l.layOn(c, job)
	if on.over {
		r.tooRagged()
		return nil
	}
	r.repeat(&on.said)
	return on
}

// layOn finds the lines of a job among those of this mission and, charged as if laid anew, of missions before
// it, or lays them.
func (l *Land) layOn(c *cleared, job *Job) *laid {
	at := job.lie()
	if i := slices.IndexFunc(l.laid, func(on *laid) bool { return on.of(at, job.Clear) }); i >= 0 {
		on := l.laid[i]
		l.laid = append(slices.Delete(l.laid, i, i+1), on)
		return on
	}
	on := l.known.laying(at, job.Clear)
	if on != nil {
		l.work.add(on.steps)
	} else {
		l.work.allow(mostPlanWork - c.steps)
		before := l.work.steps
		on = l.layAnew(c, job)
		on.steps, on.over = l.work.steps-before, l.work.over()
	}
	if len(l.laid) >= mostLaid {
		l.laid = slices.Delete(l.laid, 1, 2) // the first is that of the job that all others are changes of
	}
	if l.laid == nil {
		l.laid = l.room[:0]
	}
	l.laid = append(l.laid, on)
	return on
}

// of reports whether lines lie as a job asks.
func (on *laid) of(at lie, strips []Clear) bool {
	return on.lie == at && slices.Equal(on.asked, strips)
}

// layAnew puts the lines of a job on the ground.
func (l *Land) layAnew(c *cleared, job *Job) *laid {
	on := &laid{lie: job.lie(), asked: job.Clear, ground: c.ground, strips: c.strips}
	r, swath := brief(), job.Swath.SI()
	if job.Headland > 0 {
		g := *c.ground
		g.setBacks = nil
		g.headlands(int(min(job.Headland, mostHeadlands)), swath)
		on.ground = &g
	}
	g := on.ground
	on.course = choose(g, job, r)
	on.layout = on.course.layout(g, swath)
	if on.layout.coarse && g.band.width > 0 {
		g.band, on.course.laid = band{}, nil
		on.layout = on.course.layout(g, swath)
	}
	on.course.laid = nil // it is the layout now
	if job.Headland > 0 && g.band.width == 0 {
		r.noHeadland()
	}
	on.account(l.surveyed.keptOut, c.dry)
	plan := on.plan()
	r.cleared(&plan)
	if on.bare() {
		r.nothingToSpray(&plan)
	} else {
		r.shape(&plan, &on.layout)
	}
	on.said = r.said()
	return on
}

// bare reports whether there is nothing to spray.
func (on *laid) bare() bool { return !(on.layout.length > 4*shortest) }

// joined is the lines of one way of laying them, joined in flying order.
type joined struct {
	on    *laid
	turn  turning
	ferry float64
	path  *path
	shown bool // a plan keeps the path to be drawn
}

// join joins lines in flying order, anew only where they or the turns are not those of the last job, and in
// the room of the last path where no plan keeps it.
func (l *Land) join(on *laid, turn turning, ferry float64, shown bool) *path {
	j := &l.joined
	if j.path == nil || j.on != on || j.turn != turn || j.ferry != ferry {
		var room []leg
		if j.path == nil || j.shown {
			j.path, j.shown = new(path), false
		} else {
			room = j.path.legs
		}
		j.on, j.turn, j.ferry = on, turn, ferry
		*j.path = joinIn(room, &on.layout, turn, on.ground.launch, ferry)
		l.work.add(len(j.path.legs))
	}
	j.shown = j.shown || shown
	return j.path
}
