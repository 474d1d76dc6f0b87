package tract

import (
	"math"

	"tractcheck/feasibility/units"
)

// Own choices: sorties flown one by one and listed; beyond them the rest is worked out from their
// mean. A job of more than mostSorties is not a plan.
const (
	mostListed  = 1_000
	mostSorties = 100_000
)

// cutting is the path cut into sorties.
type cutting struct {
	list    []Sortie
	ends    []float64 // where on the path each sortie ends, m
	count   float64   // all sorties, with those not flown one by one
	scale   float64   // whole path over the part flown one by one
	stuck   bool      // the battery cannot serve the place stuckAt
	stuckAt float64   // m of path

	spray, time, ferry, ferrying float64 // of those listed together: s, s, m and s
	energy, area                 float64 // of the one that takes most: J, m2
}

// cut flies a path sortie by sortie.
func (k *craft) cut(p *path, job *Job) cutting {
	c := cutting{scale: 1}
	most := int(min(mostListed, 2+p.length/k.tank))
	c.list, c.ends = make([]Sortie, 0, most), make([]float64, 0, most)
	at := p.spot(0)
	for p.length-at.at > p.tiny() && len(c.list) < mostListed {
		f := k.longest(p, at)
		// Own choice: a sortie that the battery ends before one swath's length is sprayed is none.
		if least := min(p.length-at.at, k.tank, k.swath); f.endedBy == BoundBattery && f.to-at.at < least {
			c.stuck, c.stuckAt = true, at.at
			return c
		}
		if f.to == p.length {
			f.endedBy = k.nearest(f, at)
		}
		next := p.spot(f.to)
		c.add(k.sortie(p, &f, at, next, job), &f, k)
		at = next
	}
	c.count = float64(len(c.list))
	if p.length-at.at > p.tiny() && at.at > 0 {
		mean := at.at / c.count
		c.count += math.Ceil((p.length - at.at) / mean * (1 - units.Tolerance))
		c.scale = p.length / at.at
		if far := p.farthest(); !k.fits(p, p.spot(far), far) {
			c.stuck, c.stuckAt = true, far
		}
	}
	return c
}

// nearest reports the bound that a sortie came nearest to.
func (k *craft) nearest(f flown, from spot) Bound {
	if f.energy/k.usable > (f.to-from.at)/k.tank {
		return BoundBattery
	}
	return k.tankBound
}

// sortie puts into the plan's terms what was flown between two places of the path.
func (k *craft) sortie(p *path, f *flown, from, next spot, job *Job) Sortie {
	s := Sortie{
		Fill:       job.Density.Volume(units.Mass(f.loaded)),
		Area:       units.Length(f.to - from.at).By(job.Swath),
		Passes:     capped(p.touched(from, f.to)),
		SprayTime:  units.Duration(f.spray),
		FlightTime: units.Duration(f.time),
		Energy:     units.Energy(f.energy),
		EndedBy:    f.endedBy,
	}
	if p.length-f.to > p.tiny() {
		s.ResumeLine, s.ResumeAlong = p.resumed(next)
	}
	return s
}

// add lists a sortie, dealt to the aircraft in turn.
func (c *cutting) add(s Sortie, f *flown, k *craft) {
	n := units.Count(len(c.list))
	s.Number, s.Aircraft = n+1, n%k.aircraft+1
	c.list, c.ends = append(c.list, s), append(c.ends, f.to)
	c.spray, c.time, c.ferry = c.spray+f.spray, c.time+f.time, c.ferry+f.ferry
	c.ferrying += f.ferry / k.ferry
	c.energy, c.area = max(c.energy, f.energy), max(c.area, s.Area.SI())
}

// most reports the bound that ended most sorties, the last one left out where there are others;
// where as many ended by the battery as by the tank, the battery.
func (c *cutting) most() Bound {
	if len(c.list) == 1 {
		return c.list[0].EndedBy
	}
	battery, other := 0, BoundTank
	for i := range c.list[:len(c.list)-1] {
		if by := c.list[i].EndedBy; by == BoundBattery {
			battery++
		} else {
			other = by
		}
	}
	if 2*battery >= len(c.list)-1 {
		return BoundBattery
	}
	return other
}

// fill writes the sorties into a plan.
func (c *cutting) fill(plan *Plan, k *craft) {
	plan.List = c.list
	plan.Feasible = true
	plan.Sorties = capped(c.count)
	plan.BoundBy = c.most()
	plan.SprayTime, plan.FlightTime = units.Duration(c.spray*c.scale), units.Duration(c.time*c.scale)
	plan.FerryEach = units.Length(c.ferry / 2 / float64(len(c.list)))
	plan.EnergyEach, plan.AreaEach = units.Energy(c.energy), units.Area(c.area)
	plan.SortiesPerBattery = 1
	if c.energy > 0 && !math.IsInf(k.usable, 0) {
		// As many of the dearest sorties as the battery carries with its reserve kept.
		plan.SortiesPerBattery = max(1, capped(math.Floor(k.usable/c.energy*(1+units.Tolerance))))
	}
	plan.SortiesPerBattery = min(plan.SortiesPerBattery, plan.Sorties)
	plan.AreaPerBattery = units.Area(min(c.area*plan.SortiesPerBattery.SI(), plan.Treated.SI()))
}

// resume reports the line and the distance along it where the path goes on after a cut.
func (p *path) resume(at float64) (units.Count, units.Length) { return p.resumed(p.spot(at)) }

// resumed is resume at a place whose leg is known.
func (p *path) resumed(s spot) (units.Count, units.Length) {
	if len(p.legs) == 0 {
		if !(p.meanLeg > 0) {
			return 0, 0
		}
		whole := math.Floor(s.at / p.meanLeg)
		return capped(whole + 1), units.Length(s.at - whole*p.meanLeg)
	}
	return units.Count(p.legs[s.leg].line), p.along(s.leg, s.at)
}

// along reports how much of a leg's line has been sprayed at a place on that leg.
func (p *path) along(leg int, at float64) units.Length {
	along := max(0, at-p.legs[leg].start)
	for i := leg - 1; i >= 0 && p.legs[i].line == p.legs[leg].line; i-- {
		along += p.long(p.legs[i])
	}
	return units.Length(along)
}
