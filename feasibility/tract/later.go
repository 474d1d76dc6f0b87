package tract

import (
	"slices"

	"tractcheck/feasibility/units"
)

// Later is ground of the tract to leave for a day when the wind blows away from the neighbors.
type Later struct {
	Area   units.Area // sprayed by the plan as it stands
	Strips []LaterStrip
	Left   units.Count // strips whose part was not worked out, since the outline takes too much work
}

// mostPartWork is how many steps the strips may take. Own choice: some tenths of a second.
const mostPartWork = 20_000_000

// LaterStrip is the part of one neighbor. Strips may lap over each other; Later.Area counts ground once.
type LaterStrip struct {
	Clear Clear
	Area  units.Area
}

// SetBack reports what it costs to keep a distance from neighbors that the plan does not keep: strips
// along the sides that face them, as Job.Clear lays them. The plan is not changed. It is empty where the
// field has no place on the map.
func (p Plan) SetBack(strips []Clear) Later {
	if len(strips) == 0 || p.drawn == nil || !p.drawn.ground.mapped {
		return Later{}
	}
	return p.drawn.ground.setBack(strips)
}

// setBack is what strips were found to cost beside those that a ground has.
type setBack struct {
	asked []Clear
	later Later
}

// mostSetBacks is how many are kept, which bounds the memory. Own choice.
const mostSetBacks = 16

// setBack works out the cost of strips, or finds it where it was worked out before.
func (g *ground) setBack(strips []Clear) Later {
	for _, s := range g.setBacks {
		if slices.Equal(s.asked, strips) {
			return Later{s.later.Area, slices.Clone(s.later.Strips), s.later.Left}
		}
	}
	later := g.weigh(strips)
	if len(g.setBacks) < mostSetBacks {
		g.setBacks = append(g.setBacks, setBack{strips, Later{later.Area, slices.Clone(later.Strips), later.Left}})
	}
	return later
}

// weigh works out the cost of strips.
func (g ground) weigh(strips []Clear) (later Later) {
	g.work = &tally{} // of its own, whatever has been planned since
	g.work.allow(mostPartWork)
	f := newFrame(0)
	before := g.dry(f, nil)
	alongs := make([][]region, len(strips))
	for i, c := range strips {
		if g.work.over() {
			break
		}
		alongs[i] = g.facing(c.Bearing, c.laid())
	}
	all, steps := before, g.work.steps
	if !g.work.over() {
		all = g.dry(f, slices.Concat(alongs...))
	}
	if g.work.over() {
		later.Left = units.Count(len(strips))
		return later
	}
	steps = g.work.steps - steps
	later.Area = units.Area(max(0, all-before))
	for i, c := range strips {
		if len(alongs[i]) == 0 {
			continue
		}
		area := all - before
		if len(strips) > 1 {
			area = g.dry(f, alongs[i]) - before
		} else {
			g.work.add(steps) // it would be the same again
		}
		switch {
		case g.work.over():
			later.Left++
		case area > 0:
			later.Strips = append(later.Strips, LaterStrip{Clear: c, Area: units.Area(area)})
		}
	}
	return later
}

// StripsAlong draws strips as SetBack and Job.Clear lay them, with what of them is not sprayed anyway.
func (p Plan) StripsAlong(strips []Clear) []Polygon {
	if len(strips) == 0 || p.drawn == nil || !p.drawn.ground.mapped {
		return nil
	}
	g := *p.drawn.ground
	g.work = &tally{} // of its own, whatever has been planned since
	g.work.allow(mostPartWork)
	g.kept = nil
	for _, c := range strips {
		g.kept = append(g.kept, g.facing(c.Bearing, c.laid())...)
	}
	if g.work.over() {
		return nil
	}
	return g.strips()
}

// dry reports how much of the tract is not sprayed on purpose, with more strips beside the plan's own, m2.
func (g *ground) dry(f frame, more []region) float64 {
	strips := slices.Concat(slices.Concat(g.kept, more)...)
	return g.work.overlapArea(f, g.tract, g.keepOuts, f.edges(strips))
}

// keptOut reports how much of the tract lies in keep-outs, m2.
func (g *ground) keptOut() float64 {
	return min(g.work.overlapArea(newFrame(0), g.tract, g.keepOuts, nil), g.area)
}
