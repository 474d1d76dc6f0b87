package tract

import (
	"math"

	"tractcheck/feasibility/flight"
	"tractcheck/feasibility/units"
)

// Own choices for the parts of a flight that no fact settles; all are reported as assumptions.
const (
	ferrySpeed  = 10 * units.MeterPerSecond // or the spraying speed, where that is higher
	climbSpeed  = 2 * units.MeterPerSecond
	groundTime  = 10 * units.Second // lifting off and setting down, together
	defaultTurn = 5 * units.Second  // of 3 to 8 (from memory)
)

// craft is one aircraft with its job, in SI.
type craft struct {
	power     flight.Model
	hover     flight.Curve
	ferrying  flight.Curve    // against the wind
	spraying  [2]flight.Curve // against and with the wind
	sameWays  bool            // the wind makes no difference between the two
	usable    float64         // J; infinite where the power model cannot tell
	dry       float64         // kg
	perMeter  float64         // kg of liquid sprayed on a meter of path
	least     float64         // kg of liquid on board at takeoff, at least
	tank      float64         // m of path that a fill sprays
	swath     float64         // m
	speed     float64         // m/s over the ground
	ferry     float64         // m/s
	climb     float64         // s, up and down, with setting down
	height    float64         // m
	tankBound Bound
	aircraft  units.Count // that the sorties are dealt to
	steps     int         // flights and hops looked at so far
}

// ready makes an aircraft ready for a job along a course. Its power at every mass that the job can
// have is worked out here, once.
func (k *craft) ready(job *Job, power *flight.Model, usable units.Energy, c course) {
	k.power, k.usable, k.dry = *power, usable.SI(), job.DryMass.SI()
	k.swath, k.speed, k.height = job.Swath.SI(), job.Speed.SI(), max(0, job.Height.SI())
	perMeter := job.Rate.SI() * job.Swath.SI() // m3 per m
	k.perMeter = perMeter * job.Density.SI()
	k.tank = job.Fill.SI() / perMeter
	if job.MinimumFill != nil {
		k.least = job.Density.Mass(min(*job.MinimumFill, job.Fill)).SI()
	}
	k.ferry = max(ferrySpeed, job.Speed).SI()
	k.climb = 2*k.height/climbSpeed.SI() + groundTime.SI()
	k.tankBound = job.fillBound()
	k.aircraft = max(1, job.Aircraft)
	lines, out := airSpeeds(job, c, k.ferry)
	full := job.DryMass + job.Density.Mass(job.Fill)
	k.hover = power.Curve(job.DryMass, full, 0)
	k.ferrying = power.Curve(job.DryMass, full, out)
	k.sameWays = lines[0] == lines[1]
	k.spraying[0] = power.Curve(job.DryMass, full, lines[0])
	if !k.sameWays {
		k.spraying[1] = power.Curve(job.DryMass, full, lines[1])
	}
}

// airSpeeds reports the air speed on the lines, against and with the wind, and on the ferry. The
// wind's part along the line is added or taken away and its part across comes in at a right
// angle; of the ferry's direction nothing is known, so all of the wind is taken as headwind.
func airSpeeds(job *Job, c course, ferry float64) (lines [2]units.Speed, out units.Speed) {
	wind := max(0, job.WindSpeed.SI())
	sin, cos := math.Sincos(job.WindFrom.SI() - c.bearing.SI())
	ahead, across := wind*math.Abs(cos), wind*math.Abs(sin)
	v := job.Speed.SI()
	return [2]units.Speed{
		units.Speed(math.Hypot(v+ahead, across)),
		units.Speed(math.Hypot(v-ahead, across)),
	}, units.Speed(ferry + wind)
}

// flown is what one sortie over a stretch of the path takes.
type flown struct {
	to          float64 // m of path, where it ends
	loaded      float64 // kg of liquid
	spray, time float64 // s
	ferry       float64 // m, out and back
	energy      float64 // J
	endedBy     Bound
}

// fly reports what a sortie over a stretch takes. Only what is sprayed is loaded, or the least
// fill where that is more.
//
// Energy = climb + ferry out at the loaded mass + spraying while the mass falls + hops at the mass
// of their place + ferry back and landing at the mass left. Lines are flown both ways, so
// spraying takes the mean of the energies against and with the wind.
func (k *craft) fly(p *path, from spot, to float64) flown {
	k.steps++
	f := flown{to: to, loaded: max(k.perMeter*(to-from.at), k.least)}
	start := k.dry + f.loaded
	end := start - k.perMeter*(to-from.at)
	out, back := p.ferries(from, to)
	f.ferry = out + back
	f.spray = (to - from.at) / k.speed
	f.energy = k.spray(start, end, f.spray)
	hopping := 0.0 // s, of turns and gaps
	p.hops(from, to, func(at, seconds float64) {
		hopping += seconds
		k.steps++
		f.energy += k.hover.At(units.Mass(start-k.perMeter*(at-from.at))).SI() * seconds
	})
	f.energy += k.ferrying.At(units.Mass(start)).SI() * out / k.ferry
	f.energy += k.ferrying.At(units.Mass(end)).SI() * back / k.ferry
	f.energy += (k.hover.At(units.Mass(start)) + k.hover.At(units.Mass(end))).SI() * k.climb / 2
	f.energy += k.power.Climb(units.Mass(start), units.Length(k.height)).SI()
	f.time = f.spray + hopping + (f.ferry/k.ferry + k.climb)
	return f
}

// spray reports the energy of the runs, J: the mean of both ways.
func (k *craft) spray(start, end, seconds float64) float64 {
	each := func(c *flight.Curve) float64 {
		return c.Spraying(units.Mass(start), units.Mass(end), units.Duration(seconds)).SI()
	}
	if k.sameWays {
		return each(&k.spraying[0])
	}
	return (each(&k.spraying[0]) + each(&k.spraying[1])) / 2
}

// carries reports whether a sortie leaves the reserve in the battery.
func (k *craft) carries(f flown) bool {
	return !math.IsNaN(f.energy) && units.AtMost(f.energy, k.usable)
}

// fits reports whether a sortie over a stretch leaves the reserve in the battery.
func (k *craft) fits(p *path, from spot, to float64) bool { return k.carries(k.fly(p, from, to)) }

// longest reports the longest sortie that starts at a place of the path, and what ends it. It
// reports an empty stretch where the battery does not even carry the aircraft out and back.
func (k *craft) longest(p *path, from spot) flown {
	full := min(p.length, from.at+k.tank)
	if p.length-full < p.tiny() {
		full = p.length
	}
	f := k.fly(p, from, full)
	if f.endedBy = k.tankBound; !k.carries(f) {
		f = k.fly(p, from, k.farthest(p, from, full))
		f.endedBy = BoundBattery
	}
	return f
}

// farthest reports how far a sortie comes that the battery ends before a place.
func (k *craft) farthest(p *path, from spot, full float64) float64 {
	if !k.fits(p, from, from.at) {
		return from.at
	}
	low, high := from.at, full // low fits, high does not
	// First leg by leg, then within the leg, where the energy grows without a jump.
	for first, last := from.leg+1, p.leg(full); first <= last && len(p.legs) > 0; {
		middle := (first + last) / 2
		if joint := p.legs[middle].start; k.fits(p, from, joint) {
			low, first = joint, middle+1
		} else {
			high, last = joint, middle-1
		}
	}
	// Just past the joint the hop onto the leg has been paid for.
	start := low
	if low > from.at {
		start += 2 * p.tiny()
	}
	if start >= high || !k.fits(p, from, start) {
		return low
	}
	return k.along(p, from, start, high)
}

// along reports the place between low, which fits, and high, which does not, where the battery is
// down to its reserve, by the Illinois form of the false-position method; within a leg the energy
// is smooth and nearly a straight line. It comes within a ten-millionth of the usable energy and
// never over it.
func (k *craft) along(p *path, from spot, low, high float64) float64 {
	const accuracy = 5e-8
	target := k.usable * (1 - accuracy)
	over := func(to float64) float64 {
		if energy := k.fly(p, from, to).energy; !math.IsNaN(energy) {
			return energy - target
		}
		return math.Inf(1)
	}
	atLow, atHigh := over(low), over(high)
	if atLow >= 0 { // it fits by less than the accuracy
		return low
	}
	kept := 0 // the end that stayed last time: -1 low, 1 high
	for range 60 {
		middle := (low*atHigh - high*atLow) / (atHigh - atLow)
		if !(middle > low && middle < high) {
			middle = (low + high) / 2
		}
		at := over(middle)
		switch {
		case math.Abs(at) <= accuracy*k.usable || high-low <= p.tiny():
			return middle
		case at < 0:
			low, atLow = middle, at
			if kept > 0 {
				atHigh /= 2
			}
			kept = 1
		default:
			high, atHigh = middle, at
			if kept < 0 {
				atLow /= 2
			}
			kept = -1
		}
	}
	return low
}
