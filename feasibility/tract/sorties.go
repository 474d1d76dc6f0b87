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
	flown   []flown
	count   float64 // all sorties, with those not flown one by one
	scale   float64 // whole path over the part flown one by one
	stuck   bool    // the battery cannot serve the place stuckAt
	stuckAt float64 // m of path
}

// cut flies a path sortie by sortie.
func (k *craft) cut(p *path) cutting {
	c := cutting{scale: 1}
	most := int(min(mostListed, 2+p.length/k.tank))
	c.flown = make([]flown, 0, most)
	at := 0.0
	for p.length-at > p.tiny() && len(c.flown) < mostListed {
		f := k.longest(p, at)
		// Own choice: a sortie that the battery ends before one swath's length is sprayed is none.
		if least := min(p.length-at, k.tank, k.swath); f.endedBy == BoundBattery && f.to-at < least {
			c.stuck, c.stuckAt = true, at
			return c
		}
		if f.to == p.length {
			f.endedBy = k.nearest(f)
		}
		c.flown = append(c.flown, f)
		at = f.to
	}
	c.count = float64(len(c.flown))
	if p.length-at > p.tiny() && at > 0 {
		mean := at / c.count
		c.count += math.Ceil((p.length - at) / mean * (1 - units.Tolerance))
		c.scale = p.length / at
		if far := p.farthest(); !k.fits(p, far, far) {
			c.stuck, c.stuckAt = true, far
		}
	}
	return c
}

// nearest reports the bound that a sortie came nearest to.
func (k *craft) nearest(f flown) Bound {
	if f.energy/k.usable > (f.to-f.from)/k.tank {
		return BoundBattery
	}
	return k.tankBound
}

// most reports the bound that ended most sorties, the last one left out where there are others;
// where as many ended by the battery as by the tank, the battery.
func (c cutting) most() Bound {
	if len(c.flown) == 1 {
		return c.flown[0].endedBy
	}
	battery, other := 0, BoundTank
	for _, f := range c.flown[:len(c.flown)-1] {
		if f.endedBy == BoundBattery {
			battery++
		} else {
			other = f.endedBy
		}
	}
	if 2*battery >= len(c.flown)-1 {
		return BoundBattery
	}
	return other
}

// fill writes the sorties into a plan.
func (c cutting) fill(plan Plan, p *path, k *craft, job Job) Plan {
	var spray, time, ferry, energy, area float64
	aircraft := max(1, job.Aircraft)
	plan.List = make([]Sortie, 0, len(c.flown))
	for i, f := range c.flown {
		s := Sortie{
			Number:     units.Count(i + 1),
			Aircraft:   units.Count(i)%aircraft + 1,
			Fill:       job.Density.Volume(units.Mass(f.loaded)),
			Area:       units.Length(f.to - f.from).By(job.Swath),
			Passes:     capped(p.touched(f.from, f.to)),
			SprayTime:  units.Duration(f.spray),
			FlightTime: units.Duration(f.time),
			Energy:     units.Energy(f.energy),
			EndedBy:    f.endedBy,
		}
		if p.length-f.to > p.tiny() {
			s.ResumeLine, s.ResumeAlong = p.resume(f.to)
		}
		plan.List = append(plan.List, s)
		spray, time, ferry = spray+f.spray, time+f.time, ferry+f.ferry
		energy, area = max(energy, f.energy), max(area, s.Area.SI())
	}
	plan.Feasible = true
	plan.Sorties = capped(c.count)
	plan.BoundBy = c.most()
	plan.SprayTime, plan.FlightTime = units.Duration(spray*c.scale), units.Duration(time*c.scale)
	plan.FerryEach = units.Length(ferry / 2 / float64(len(c.flown)))
	plan.EnergyEach, plan.AreaEach = units.Energy(energy), units.Area(area)
	plan.SortiesPerBattery = 1
	if energy > 0 && !math.IsInf(k.usable, 0) {
		// As many of the dearest sorties as the battery carries with its reserve kept.
		plan.SortiesPerBattery = max(1, capped(math.Floor(k.usable/energy*(1+units.Tolerance))))
	}
	plan.SortiesPerBattery = min(plan.SortiesPerBattery, plan.Sorties)
	plan.AreaPerBattery = units.Area(min(area*plan.SortiesPerBattery.SI(), plan.Treated.SI()))
	return plan
}

// resume reports the line and the distance along it where the path goes on after a cut.
func (p *path) resume(at float64) (units.Count, units.Length) {
	if len(p.legs) == 0 {
		if !(p.meanLeg > 0) {
			return 0, 0
		}
		whole := math.Floor(at / p.meanLeg)
		return capped(whole + 1), units.Length(at - whole*p.meanLeg)
	}
	first := p.leg(at)
	return units.Count(p.legs[first].line), p.along(first, at)
}

// along reports how much of a leg's line has been sprayed at a place on that leg.
func (p *path) along(leg int, at float64) units.Length {
	along := max(0, at-p.legs[leg].start)
	for i := leg - 1; i >= 0 && p.legs[i].line == p.legs[leg].line; i-- {
		along += p.legs[i].length
	}
	return units.Length(along)
}
