package drift

// resolution is how finely a landing is computed.
type resolution struct {
	classes int     // of the spray volume
	below   int     // cells from the crop to the release height
	above   int     // cells over it
	growth  float64 // of the steps along the wind
	parts   float64 // least parts in which a drop falls from where it was let go
}

// fine serves the answer, within 8 % root mean square of a flight with ten times the work; coarse
// serves the what-ifs behind the drivers, where the errors of both flights mostly cancel.
var (
	fine   = resolution{classes: 10, below: 9, above: 4, growth: 1.33, parts: 7}
	coarse = resolution{classes: 6, below: 4, above: 3, growth: 1.5, parts: 3}
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
}

// newLanding lays out the distances at which a landing is booked.
func newLanding(farthest float64) *landing {
	l := &landing{steps: 1}
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
	f.landAt(l, r)
	return l
}

// landAt flies every class of a plan and books what lands within the distances of a landing.
func (f *flightPlan) landAt(l *landing, r resolution) {
	w := f.rotor.below(f.height, f.medium)
	s := flight{plan: f, wake: w, grid: newGrid(f.height, f.medium, r), dry: newDrying(f.medium), resolution: r, farthest: l.distance[l.steps-1]}
	s.plume.grid = s.grid
	bottom, top := w.layer(f.height)
	var direct, aided track
	missed, left := s.grid.layer(f.height, f.height), s.grid.layer(bottom, top)
	last := 0.0
	for i, c := range f.classes[:f.count] {
		l.between[i] -= l.landed[l.steps-1] - l.landed[l.steps-2]
		v := f.speeds.speed(c.diameter)
		if w.help < 1 {
			if c.diameter != last {
				s.follow(c.diameter, &missed, &direct)
			}
			direct.book(l, c.share*(1-w.help), 0, 0)
		}
		if w.help > 0 {
			from, to := w.touchdown(v)
			pressed := w.pressed(v)
			l.lay(c.share*w.help*pressed, from, to)
			if c.diameter != last {
				s.follow(c.diameter, &left, &aided)
			}
			aided.book(l, c.share*w.help*(1-pressed), from, to)
		}
		last = c.diameter
		l.between[i] += l.landed[l.steps-1] - l.landed[l.steps-2]
	}
	// The cubics between steps may swing by a hair.
	for i := 1; i < l.steps; i++ {
		l.landed[i] = min(1, max(l.landed[i-1], l.landed[i]))
	}
}

// flight is what all plumes of a plan share on their way.
type flight struct {
	plan       *flightPlan
	wake       wake
	grid       *grid
	dry        drying
	resolution resolution
	farthest   float64
	plume      plume // in flight
}

// track is the share of one plume that has landed within a distance of its start, and how fast it
// grows there, 1/m.
type track struct {
	steps    int
	distance [mostSteps + 2]float64
	share    [mostSteps + 2]float64
	rate     [mostSteps + 2]float64
}

// follow flies a plume of drops of a size from where it is let go and keeps its track.
func (s *flight) follow(first float64, from *start, t *track) {
	p, height := &s.plume, from.top
	t.steps = 1
	d, v := first, s.plan.speeds.speed(first)
	diameter := d
	p.fill(from, v)
	growth := s.resolution.growth - 1
	// The first step is a part of the way that the height takes, but no less than a hand's breadth.
	least := max(0.1, growth/2*height)
	gain := 0.0 // of the wind that carries the plume, per meter
	for x := 0.0; t.steps <= mostSteps && x < s.farthest && p.airborne > nothing; t.steps++ {
		if x > farAway {
			growth = farGrowth - 1
		}
		step := max(least, growth*x)
		// Drops that fall fast take short steps while most of them are aloft.
		step = min(step, p.wind*max(height/(s.resolution.parts*v*max(0.05, p.airborne)), growth/2*p.age))
		if t.steps == mostSteps {
			step = s.farthest
		}
		wind := p.wind
		time := step / max(wind/2, wind+gain*step/2)
		d = s.dry.after(d, first, v, time)
		if d != diameter {
			diameter = d
			v = s.plan.speeds.speed(d)
		}
		p.advance(step, time, v)
		gain = (p.wind - wind) / step
		x += step
		t.distance[t.steps], t.share[t.steps], t.rate[t.steps] = x, 1-p.airborne, v*p.concentration[0]
	}
	if p.airborne <= nothing {
		t.share[t.steps-1], t.rate[t.steps-1] = 1, 0
	}
}

// book adds a share of the spray that flies the track kept, let go evenly over from..to down the wind.
func (t *track) book(l *landing, share, from, to float64) {
	if to-from < 1e-6 {
		at := cursor{track: t}
		for i := 1; i < l.steps; i++ {
			l.landed[i] += share * at.landed(l.distance[i]-from)
		}
		return
	}
	// The mean of the track over the starts is the difference of its integrals at the two ends.
	near, far := cursor{track: t}, cursor{track: t}
	for i := 1; i < l.steps; i++ {
		x := l.distance[i]
		l.landed[i] += share * (near.integral(x-from) - far.integral(x-to)) / (to - from)
	}
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
func (l *landing) lay(share, from, to float64) {
	for i := 1; i < l.steps; i++ {
		l.landed[i] += share * max(0, min(1, (l.distance[i]-from)/max(1e-9, to-from)))
	}
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
