package drift

// flight is what all plumes of a plan share on their way, and those that are flown now.
type flight struct {
	plan       flightPlan
	grid       grid
	wake       wake
	dry        drying
	resolution resolution
	farthest   float64
	left       start // what the wake left
	next       int   // the start of the next departure: that of a class by what was missed and left
	plumes     plumes
	under      [lanes]underway
	tracks     [lanes]track
	step       [lanes]float64 // in time, s
	middle     [lanes]float64 // age of the drops at the middle of it, s
	speed      [lanes]float64 // at which they fall then, m/s
}

// land flies every class of a plan and books what lands within the distances of a landing. The plans that
// one flight lands in turn are of one job, with one profile of the wind, so that its cells are laid again
// only for another height.
func (s *flight) land(f *flightPlan, l *landing, r resolution) {
	if s.grid.height != f.height || s.resolution != r {
		s.grid.lay(f.height, &f.medium, r)
	}
	s.grid.blow(&f.medium)
	s.plan, s.resolution, s.next = *f, r, 0
	s.wake, s.dry, s.farthest = f.rotor.below(f.height, f.medium), newDrying(f.medium), l.distance[l.steps-1]
	s.plumes.launch()
	if s.wake.help > 0 {
		s.left = s.grid.layer(s.wake.layer(f.height))
		s.press(l)
	}
	s.fly(l)
}

// press books what the wake presses into the crop.
func (s *flight) press(l *landing) {
	for i, c := range s.plan.classes[:s.plan.count] {
		v := s.plan.speeds.speed(c.diameter)
		from, to := s.wake.touchdown(v)
		l.lay(i, c.share*s.wake.help*s.wake.pressed(v), from, to)
	}
}

// departure is a plume that is to be flown: drops of a class and a share of the spray, let go from a
// start evenly over from..to down the wind.
type departure struct {
	class           int
	diameter, share float64
	left            bool // by the wake, or missed by it
	from, to        float64
}

// departs hands out the plumes of a plan in turn: of each class what the wake missed, then what it
// left; false when all have gone.
func (s *flight) departs() (d departure, more bool) {
	for s.next < 2*s.plan.count {
		i, left := s.next/2, s.next%2 == 1
		s.next++
		c := s.plan.classes[i]
		switch {
		case !left && s.wake.help < 1:
			return departure{class: i, diameter: c.diameter, share: c.share * (1 - s.wake.help)}, true
		case left && s.wake.help > 0:
			v := s.plan.speeds.speed(c.diameter)
			from, to := s.wake.touchdown(v)
			return departure{class: i, diameter: c.diameter, share: c.share * s.wake.help * (1 - s.wake.pressed(v)), left: true, from: from, to: to}, true
		}
	}
	return departure{}, false
}

// fly flies the plumes side by side; the next takes the place of one that has landed.
func (s *flight) fly(l *landing) {
	for {
		aloft := 0
		for k := range lanes {
			if !s.under[k].flying {
				s.depart(k)
			}
			if s.under[k].flying {
				aloft++
				s.pace(k)
			}
		}
		if aloft == 0 {
			return
		}
		s.plumes.advance(&s.grid, &s.step, &s.middle, &s.speed)
		for k := range lanes {
			if s.under[k].flying {
				s.note(k, l)
			}
		}
	}
}

// underway is a plume and how far it has come.
type underway struct {
	departure
	flying bool
	top    float64 // hardly any started higher, m
	wind   float64 // over that, m/s
	begun  float64 // when it was put on the cells, s since the release
	time   float64 // s since the release
	dried  float64 // age at which the drops have the diameter, s
	now    float64 // diameter, m
	fall   float64 // speed of drops of that, m/s
	least  float64 // step, s
	aloft  float64 // share, before the last step
}

// depart lets the next plume go in a lane, or leaves the lane empty.
func (s *flight) depart(k int) {
	d, more := s.departs()
	if !more {
		s.step[k], s.middle[k], s.speed[k] = 1, 1, 1
		return
	}
	v := s.plan.speeds.speed(d.diameter)
	u := &s.under[k]
	*u = underway{departure: d, flying: true, aloft: 1, now: d.diameter, fall: v}
	from := &s.left
	if !d.left {
		missed := s.grid.start(s.descend(d.diameter, v))
		from = &missed
		u.begun, u.time, u.dried, u.now, u.fall = from.time, from.time, from.time, from.diameter, from.fall
	}
	u.top, u.wind = from.top, s.grid.wind[from.face]
	// The first step is a part of the time that the height takes to fall or mix through.
	u.least = (s.resolution.growth - 1) / 4 * u.top / (u.fall + s.grid.turbulence)
	s.plumes.fill(&s.grid, k, from, u.fall)
	s.tracks[k].begin(from.nearest)
}

// pace works out the next step of a lane.
func (s *flight) pace(k int) {
	u, growth := &s.under[k], s.resolution.growth-1
	step := max(u.least, growth*(u.time-u.begun))
	// Drops that fall fast take short steps while most of them are aloft.
	step = min(step, max(u.top/(s.resolution.parts*u.fall*max(0.05, s.plumes.airborne[k])), growth/2*u.time))
	// The drops of the middle of the step stand for all of it.
	middle := u.time + step/2
	if d := s.dry.after(u.now, u.diameter, u.fall, middle-u.dried, s.plan.speeds); d != u.now {
		u.now, u.fall = d, s.plan.speeds.speed(d)
	}
	u.dried = middle
	s.step[k], s.middle[k], s.speed[k] = step, middle, u.fall
}

// note keeps the step just flown in the track of a lane, and books the track at its end.
func (s *flight) note(k int, l *landing) {
	u, p, t := &s.under[k], &s.plumes, &s.tracks[k]
	before := u.aloft
	u.time, u.aloft = u.time+s.step[k], p.airborne[k]
	way, some := p.came(k)
	if some && before-p.airborne[k] > nothing {
		// No drop comes further in a step than the wind at the top carries it, with room for a plume
		// that has come unevenly far: what little lands last is no measure of its way.
		way = min(way, t.distance[t.steps-1]+2*u.wind*s.step[k])
		// Half of what landed in the step came less far than the mean.
		t.add(way, 1-(before+p.airborne[k])/2)
	}
	if t.steps <= mostSteps && way < s.farthest && p.airborne[k] > nothing && u.time < longestFlight {
		return
	}
	if p.airborne[k] <= nothing {
		t.end()
	}
	t.book(l, u.class, u.share, u.from, u.to)
	u.flying = false
	p.clear(k)
}
