package drift

// resolution is how finely a landing is computed.
type resolution struct {
	classes  int     // of the spray volume
	below    int     // cells from the crop to the release height
	above    int     // cells over it
	widening float64 // of the thickness of a cell to the next below, up to the release height
	growth   float64 // of the steps along the wind
	parts    float64 // least parts in which a drop falls from where it was let go
}

// fine serves the answer, within 8 % root mean square of a flight with ten times the work; coarse
// serves the what-ifs behind the drivers, where the errors of both flights mostly cancel.
var (
	fine   = resolution{classes: 10, below: 10, above: 5, widening: 1.06, growth: 1.5, parts: 8}
	coarse = resolution{classes: 4, below: 4, above: 3, widening: 1.12, growth: 2, parts: 2}
)

const (
	mostPlaces = 64   // where a landing is booked
	mostSteps  = 200  // of a plume
	firstPlace = 0.25 // m along the wind
	placeRatio = 1.2  // of the distances at which a landing is booked
	// From farAway, m, on the steps grow by farGrowth: there little lands and nothing changes fast.
	farAway   = 150.0
	farGrowth = 1.6
	nothing   = 1e-5 // share of a plume below which it counts as landed
)

// flightPlan is all that decides where the spray of one line lands.
type flightPlan struct {
	classes [mostClasses]dropClass
	count   int
	height  float64 // of release above the crop, m
	rotor   rotor
	medium  medium
	speeds  *fall // terminal speeds of the spray in the medium
}

// landing is the share of a line's spray that has landed within a distance down the wind of where
// it was let go, class by class summed. It never falls with distance and never passes 1.
type landing struct {
	steps    int
	distance [mostPlaces]float64
	landed   [mostPlaces]float64
	between  [mostClasses]float64 // what each class lands between the last two distances
	factor   float64              // either way within which a deposit is taken to lie
}

// newLanding lays out the distances at which a landing is booked.
func newLanding(farthest float64) *landing {
	l := &landing{steps: 1, factor: uncertainty}
	for x := firstPlace; l.steps < mostPlaces-1 && x < farthest; x *= placeRatio {
		l.distance[l.steps] = x
		l.steps++
	}
	l.distance[l.steps] = farthest
	l.steps++
	return l
}

// land flies every class of a plan to a distance, m (at least firstPlace).
func (f *flightPlan) land(farthest float64, r resolution) *landing {
	l := newLanding(farthest)
	var s flight
	s.land(f, l, r)
	l.factor = s.wake.uncertainty()
	return l
}

// flight is what all plumes of a plan share on their way, and those that are flown now.
type flight struct {
	plan       flightPlan
	grid       grid
	wake       wake
	dry        drying
	resolution resolution
	farthest   float64
	missed     start // what the wake missed
	left       start // what it left
	next       int   // the start of the next departure: that of a class by what was missed and left
	plumes     plumes
	under      [lanes]underway
	tracks     [lanes]track
	step       [lanes]float64
	time       [lanes]float64
	speed      [lanes]float64
}

// land flies every class of a plan and books what lands within the distances of a landing.
func (s *flight) land(f *flightPlan, l *landing, r resolution) {
	s.plan, s.resolution, s.next = *f, r, 0
	s.wake, s.dry = f.rotor.below(f.height, f.medium), newDrying(f.medium)
	s.grid, s.farthest = newGrid(f.height, &f.medium, r), l.distance[l.steps-1]
	s.plumes.launch()
	bottom, top := s.wake.layer(f.height)
	s.missed, s.left = s.grid.layer(f.height, f.height), s.grid.layer(bottom, top)
	if s.wake.help > 0 {
		s.press(l)
	}
	s.fly(l)
	// The cubics between steps may swing by a hair.
	for i := 1; i < l.steps; i++ {
		l.landed[i] = min(1, max(l.landed[i-1], l.landed[i]))
	}
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
		s.plumes.advance(&s.grid, &s.step, &s.time, &s.speed)
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
	top    float64 // nothing started higher, m
	x      float64 // m down the wind
	now    float64 // diameter, m
	fall   float64 // speed of drops of that, m/s
	least  float64 // step, m
	age    float64 // at which drops have that diameter, s
	pace   float64 // at which the plume ages, s/m
	before float64 // the age a step before, s
}

// depart lets the next plume go in a lane, or leaves the lane empty.
func (s *flight) depart(k int) {
	d, more := s.departs()
	if !more {
		s.step[k], s.time[k], s.speed[k] = 1, 1, 1
		return
	}
	v, from := s.plan.speeds.speed(d.diameter), &s.missed
	if d.left {
		from = &s.left
	}
	s.under[k] = underway{
		departure: d, flying: true, now: d.diameter, fall: v, top: from.top,
		// The first step is a part of the way that the height takes, but no less than a hand's breadth.
		least: max(0.1, (s.resolution.growth-1)/2*from.top),
	}
	s.plumes.fill(&s.grid, k, from, v)
	s.under[k].pace = 1 / s.plumes.wind[k]
	s.tracks[k].begin()
}

// pace works out the next step of a lane.
func (s *flight) pace(k int) {
	u, p, growth := &s.under[k], &s.plumes, s.resolution.growth-1
	if u.x > farAway {
		growth = max(growth, farGrowth-1)
	}
	step, wind, top := max(u.least, growth*u.x), p.wind[k], u.top
	// Drops that fall fast take short steps while most of them are aloft.
	step = min(step, wind*max(top/(s.resolution.parts*u.fall*max(0.05, p.airborne[k])), growth/2*p.age[k]))
	if s.tracks[k].steps == mostSteps {
		step = s.farthest
	}
	// The drops of the middle of the step stand for all of it.
	middle := p.age[k] + step/2*u.pace
	if d := s.dry.after(u.now, u.diameter, u.fall, max(0, middle-u.age), s.plan.speeds); d != u.now {
		u.now, u.fall = d, s.plan.speeds.speed(d)
	}
	u.age, u.before = max(u.age, middle), p.age[k]
	s.step[k], s.time[k], s.speed[k] = step, middle, u.fall
}

// note keeps the step just flown in the track of a lane, and books the track at its end.
func (s *flight) note(k int, l *landing) {
	u, p, t := &s.under[k], &s.plumes, &s.tracks[k]
	step := s.step[k]
	u.pace = (p.age[k] - u.before) / step
	u.x += step
	t.add(u.x, 1-p.airborne[k], u.fall*p.concentration[0].each()[k])
	if t.steps <= mostSteps && u.x < s.farthest && p.airborne[k] > nothing {
		return
	}
	if p.airborne[k] <= nothing {
		t.share[t.steps-1], t.rate[t.steps-1] = 1, 0
	}
	t.book(l, u.class, u.share, u.from, u.to)
	u.flying = false
	p.clear(k)
}

// track is the share of one plume that has landed within a distance of its start, and how fast it
// grows there, 1/m.
type track struct {
	steps    int
	distance [mostSteps + 2]float64
	share    [mostSteps + 2]float64
	rate     [mostSteps + 2]float64
}

// begin starts a track anew.
func (t *track) begin() {
	t.steps, t.distance[0], t.share[0], t.rate[0] = 1, 0, 0, 0
}

// add puts a step at the end of a track.
func (t *track) add(distance, share, rate float64) {
	t.distance[t.steps], t.share[t.steps], t.rate[t.steps] = distance, share, rate
	t.steps++
}

// book adds a share of the spray that flies the track kept, let go evenly over from..to down the wind.
func (t *track) book(l *landing, class int, share, from, to float64) {
	before := l.landed[l.steps-1] - l.landed[l.steps-2]
	if to-from < 1e-6 {
		at := cursor{track: t}
		for i := 1; i < l.steps; i++ {
			l.landed[i] += share * at.landed(l.distance[i]-from)
		}
	} else {
		// The mean of the track over the starts is the difference of its integrals at the two ends.
		near, far, each := cursor{track: t}, cursor{track: t}, share/(to-from)
		for i := 1; i < l.steps; i++ {
			x := l.distance[i]
			l.landed[i] += each * (near.integral(x-from) - far.integral(x-to))
		}
	}
	l.between[class] += l.landed[l.steps-1] - l.landed[l.steps-2] - before
}

// cursor reads a track at distances that only grow.
type cursor struct {
	*track
	step int
	sum  float64 // integral up to the step
}

// to moves the cursor to the last step not beyond a distance, and reports the length of the next step
// and the part of it before the distance; false beyond the track's end.
func (c *cursor) to(x float64) (length, part float64, within bool) {
	for c.step+1 < c.steps && c.distance[c.step+1] <= x {
		length := c.distance[c.step+1] - c.distance[c.step]
		c.sum += length * ((c.share[c.step]+c.share[c.step+1])/2 + length*(c.rate[c.step]-c.rate[c.step+1])/12)
		c.step++
	}
	if c.step+1 >= c.steps {
		return 0, 0, false
	}
	length = c.distance[c.step+1] - c.distance[c.step]
	return length, (x - c.distance[c.step]) / length, true
}

// landed is the share landed within a distance, on the cubic through shares and rates; beyond the
// last step it stays.
func (c *cursor) landed(x float64) float64 {
	length, s, within := c.to(x)
	if x <= 0 || !within {
		return c.share[c.step]
	}
	i, rest := c.step, 1-s
	return rest*rest*((1+2*s)*c.share[i]+s*length*c.rate[i]) + s*s*((3-2*s)*c.share[i+1]-rest*length*c.rate[i+1])
}

// integral is that of the share landed, from 0 to a distance.
func (c *cursor) integral(x float64) float64 {
	if x <= 0 {
		return 0
	}
	length, s, within := c.to(x)
	i := c.step
	if !within {
		return c.sum + (x-c.distance[i])*c.share[i]
	}
	s2, s3, s4 := s*s, s*s*s, s*s*s*s
	return c.sum + length*((s-s3+s4/2)*c.share[i]+(s3-s4/2)*c.share[i+1]+
		length*((s2/2-2*s3/3+s4/4)*c.rate[i]+(s4/4-s3/3)*c.rate[i+1]))
}

// lay adds a share that lands evenly over from..to.
func (l *landing) lay(class int, share, from, to float64) {
	before := l.landed[l.steps-1] - l.landed[l.steps-2]
	for i := 1; i < l.steps; i++ {
		l.landed[i] += share * max(0, min(1, (l.distance[i]-from)/max(1e-9, to-from)))
	}
	l.between[class] += l.landed[l.steps-1] - l.landed[l.steps-2] - before
}

// within reports the share landed within a distance; beyond the last step it stays.
func (l *landing) within(x float64) float64 {
	if x <= 0 {
		return 0
	}
	low, high := 0, l.steps-1
	if x >= l.distance[high] {
		return l.landed[high]
	}
	for high-low > 1 {
		middle := (low + high) / 2
		if l.distance[middle] <= x {
			low = middle
		} else {
			high = middle
		}
	}
	part := (x - l.distance[low]) / (l.distance[high] - l.distance[low])
	return l.landed[low] + part*(l.landed[high]-l.landed[low])
}

// deposit reports the deposit at a distance down the wind of a field of a length along the wind,
// as a share of the rate. Lines side by side with an even cover let the sum over swaths close:
// each swath from a to b upwind adds within(x+b) - within(x+a), and the inner terms cancel.
func (l *landing) deposit(x, length float64) float64 {
	return max(0, l.within(x+length)-l.within(x))
}

// beyond reports the share of the spray of a field of a length along the wind that does not land
// in the field: the mean over the field of what is still aloft at the downwind edge.
func (l *landing) beyond(length float64) float64 {
	var sum float64
	for i := 1; i < l.steps; i++ {
		low := min(length, l.distance[i-1])
		high := min(length, l.distance[i])
		if high <= low {
			break
		}
		// Trapezoid: the line at a distance x upwind of the edge keeps aloft 1 - within(x).
		sum += (high - low) * (1 - (l.within(low)+l.within(high))/2)
	}
	rest := length - l.distance[l.steps-1]
	if rest > 0 {
		sum += rest * (1 - l.landed[l.steps-1])
	}
	return max(0, min(1, sum/length))
}
