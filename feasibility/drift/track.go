package drift

// track is the share of one plume that has landed within a distance of where it was let go.
type track struct {
	steps    int
	distance [mostSteps + 3]float64
	share    [mostSteps + 3]float64
	rate     [mostSteps + 3]float64 // at which the share grows there, 1/m; see slope
}

// begin starts a track anew; nothing lands before the nearest distance.
func (t *track) begin(nearest float64) {
	t.steps, t.distance[0], t.share[0] = 1, nearest, 0
}

// add puts a step at the end of a track: what has landed by now has come no further than a distance.
func (t *track) add(distance, share float64) {
	if last := t.steps - 1; distance <= t.distance[last]*(1+1e-9)+1e-9 {
		t.share[last] = max(share, t.share[last])
		return
	}
	t.distance[t.steps], t.share[t.steps] = distance, max(share, t.share[t.steps-1])
	t.steps++
}

// end puts the end on the track of a plume that has landed: as far beyond the last step as that lies
// beyond the one before.
func (t *track) end() {
	last := t.steps - 1
	further := 0.1
	if last > 0 {
		further = t.distance[last] - t.distance[last-1]
	}
	t.add(t.distance[last]+further, 1)
}

// slope works out the rates of a track so that the cubics through its steps never fall and never swing
// over: weighted harmonic means of the slopes on both sides (Fritsch and Butland 1984, SIAM J. Sci.
// Stat. Comput. 5:300, from memory), none at the ends.
func (t *track) slope() {
	t.rate[0], t.rate[t.steps-1] = 0, 0
	for i := 1; i < t.steps-1; i++ {
		before, after := t.distance[i]-t.distance[i-1], t.distance[i+1]-t.distance[i]
		gained, gains := t.share[i]-t.share[i-1], t.share[i+1]-t.share[i]
		if gained <= 0 || gains <= 0 {
			t.rate[i] = 0
			continue
		}
		near, far := 2*after+before, after+2*before
		t.rate[i] = (near + far) / (near*before/gained + far*after/gains)
	}
}

// book adds a share of the spray that flies the track kept, let go evenly over from..to down the wind.
func (t *track) book(l *landing, class int, share, from, to float64) {
	t.slope()
	before := l.landed[l.steps-1] - l.landed[l.steps-2]
	end, i := t.distance[t.steps-1]+to, 1
	if to-from < 1e-6 {
		for at := (cursor{track: t}); i < l.steps && l.distance[i] < end; i++ {
			l.landed[i] += share * at.landed(l.distance[i]-from)
		}
	} else {
		// The mean of the track over the starts is the difference of its integrals at the two ends.
		near, far, each := cursor{track: t}, cursor{track: t}, share/(to-from)
		for ; i < l.steps && l.distance[i] < end; i++ {
			x := l.distance[i]
			l.landed[i] += each * (near.integral(x-from) - far.integral(x-to))
		}
	}
	for all := share * t.share[t.steps-1]; i < l.steps; i++ {
		l.landed[i] += all
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
	x = max(x, c.distance[0])
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
	if x <= c.distance[0] || !within {
		return c.share[c.step]
	}
	i, rest := c.step, 1-s
	return rest*rest*((1+2*s)*c.share[i]+s*length*c.rate[i]) + s*s*((3-2*s)*c.share[i+1]-rest*length*c.rate[i+1])
}

// integral is that of the share landed, from 0 to a distance.
func (c *cursor) integral(x float64) float64 {
	if x <= c.distance[0] {
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
