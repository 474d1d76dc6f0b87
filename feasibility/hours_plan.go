package feasibility

import (
	"slices"
	"strconv"
	"strings"

	"tractcheck/feasibility/air"
	"tractcheck/feasibility/crew"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/flight"
	"tractcheck/feasibility/takeoff"
	"tractcheck/feasibility/tract"
)

// Bounds of the work. Own choices: a wind that goes round the compass meets few sets of neighbors, and
// a tract of a thousand corners takes some 20 ms to plan; for one of more corners both shrink in
// proportion.
const (
	mostStripSets = 12 // past it no strip is laid, so that a neighbor inside the label's buffer stops the hour
	mostFlown     = 24 // hours planned one by one; past it an hour counts as the hardest of all
	plainCorners  = 1000
)

// bounded shrinks a bound of the work for a tract of many corners; one is always left.
func (m Mission) bounded(most int) int {
	corners := 0
	for _, polygons := range [][]tract.Polygon{m.Field.Ground.Boundary, m.Field.Ground.KeepOuts} {
		for _, polygon := range polygons {
			for _, ring := range polygon {
				corners += len(ring)
			}
		}
	}
	return max(1, most*plainCorners/max(plainCorners, corners))
}

// planned is the tract planned with one set of strips left for neighbors.
type planned struct {
	strips string
	hour   int        // the mildest with these strips
	ground tract.Plan // as flown in that hour; the layout of the ground is that of all
	good   []int      // hours that nothing else forbids

	mission Mission // of the hour whose course the plan takes
	power   flight.Model
	plan    tract.Plan // for the strongest wind and the thinnest air of the good hours
	team    crew.Result
}

// stripsKey names the strips that the wind of the mission asks for; empty where there are none.
func (m Mission) stripsKey() string {
	if len(m.Field.Ground.Boundary) == 0 {
		return "" // only a tract on the map has sides to leave
	}
	var key strings.Builder
	for _, c := range m.clear() {
		key.WriteString(strconv.Itoa(int(c.Neighbor)))
		key.WriteByte(' ')
	}
	return key.String()
}

// plan finds the plan of a set of strips; nil where there is none.
func (d *day) plan(strips string) *planned {
	for _, p := range d.plans {
		if p.strips == strips {
			return p
		}
	}
	return nil
}

// layOut flies the tract once for each set of strips, in the mildest of its hours: the one with the
// least wind, and of those the one with the densest air.
func (d *day) layOut() {
	sets := d.mission.bounded(mostStripSets)
	for i := range d.hours {
		h := &d.hours[i]
		p := d.plan(h.strips)
		if p == nil && len(d.plans) >= sets {
			h.strips = ""
			p = d.plan("")
		}
		switch {
		case p == nil:
			d.plans = append(d.plans, &planned{strips: h.strips, hour: i})
		case milder(h, &d.hours[p.hour]):
			p.hour = i
		}
	}
	for _, p := range d.plans {
		h := &d.hours[p.hour]
		p.mission = d.in(h)
		p.power = flight.New(p.mission.machine(), h.sky.Density)
		p.ground = d.land.Judge(p.job(&h.sky, h.weight))
		p.plan = p.ground
	}
}

// milder reports whether an hour is milder than another.
func milder(h, other *hour) bool {
	if h.weather.WindSpeed != other.weather.WindSpeed {
		return h.weather.WindSpeed < other.weather.WindSpeed
	}
	return h.sky.Density > other.sky.Density
}

// job is how the field is to be flown in the hour of a plan's mission, with the plan's strips.
func (p *planned) job(sky *air.State, weight takeoff.Result) tract.Job {
	job := p.mission.tractJob(sky, weight, p.power)
	if p.strips == "" {
		job.Clear = nil
	}
	return job
}

// planAll plans the sorties for the good hours of each set of strips.
func (d *day) planAll() {
	flown, most := 0, d.mission.bounded(mostFlown)
	for _, p := range d.plans {
		p.good = d.goodWith(p.strips)
		if len(p.good) == 0 {
			continue
		}
		if d.hardest(p); !fails(p.plan) {
			continue
		}
		// Some hour of these is too hard, or all are: look at them one by one.
		for _, i := range p.good {
			found := stopsOf(p.plan)
			if flown < most {
				found = stopsOf(d.flownIn(i, p))
				flown++
			}
			d.hours[i].find(found...)
		}
		if p.good = d.goodWith(p.strips); len(p.good) > 0 {
			d.hardest(p)
		}
	}
	for _, p := range d.plans {
		p.team = crew.Plan(p.mission.crewInput(p.mission.light(), p.plan))
	}
}

// goodWith lists the hours with a set of strips that nothing forbids so far.
func (d *day) goodWith(strips string) []int {
	var good []int
	for i := range d.hours {
		if h := &d.hours[i]; h.strips == strips && h.good() {
			good = append(good, i)
		}
	}
	return good
}

// hardest plans for the strongest wind and the thinnest air of the good hours together, which no hour
// needs to have: what can be flown in that can be flown in each of them.
func (d *day) hardest(p *planned) {
	windiest, thinnest, height := p.good[0], p.good[0], d.mission.flightHeight()
	for _, i := range p.good {
		if d.hours[i].sky.WindAt(height) > d.hours[windiest].sky.WindAt(height) {
			windiest = i
		}
		if d.hours[i].sky.Density < d.hours[thinnest].sky.Density {
			thinnest = i
		}
	}
	p.mission = d.in(&d.hours[windiest])
	p.power = flight.New(p.mission.machine(), d.hours[thinnest].sky.Density)
	p.plan = d.land.Judge(p.job(&d.hours[windiest].sky, d.hours[thinnest].weight))
}

// flownIn plans one hour as it is.
func (d *day) flownIn(i int, p *planned) tract.Plan {
	h, own := &d.hours[i], *p
	own.mission = d.in(h)
	own.power = flight.New(own.mission.machine(), h.sky.Density)
	return d.land.Judge(own.job(&h.sky, h.weight))
}

// fails reports whether a plan stops the job.
func fails(plan tract.Plan) bool { return len(stopsOf(plan)) > 0 }

// stopsOf lists the stops of a plan.
func stopsOf(plan tract.Plan) []finding.Finding {
	return slices.DeleteFunc(slices.Clone(plan.Findings), func(f finding.Finding) bool { return f.Severity != finding.Stop })
}
