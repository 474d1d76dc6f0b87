package drift

import "math"

// plumes are two classes of drops on their way, each followed in time since its release, so that all
// drops of a plume have one age and one size. A cell holds how many there are and how far down the
// wind they have come on the mean.
type plumes struct {
	concentration [mostCells]pair
	way           [mostCells]pair // concentration x mean distance of the drops there, m
	airborne      [lanes]float64  // share still aloft
	landing       [lanes]float64  // what landed in the last step, up to a factor
	landedWay     [lanes]float64  // that x the mean distance it came, m
	crossing      [lanes]float64  // see advance, of drops that fall at crossingAt, m/s
	crossingAt    [lanes]float64

	kept, fromBelow, fromAbove, first, old [mostCells]pair // see solve
}

// launch empties all lanes for a flight.
func (p *plumes) launch() {
	for k := range lanes {
		p.crossingAt[k] = -1
		p.clear(k)
	}
}

// fill lets a whole go in one lane of drops that fall at a speed.
func (p *plumes) fill(g *grid, lane int, s *start, fall float64) {
	// Settling is taken from the cell above as far as turbulence does not outweigh it.
	ratio := fall / g.turbulence
	settled := min(1, fall/2*g.stiffness[s.face]*math.Sqrt(1+ratio*ratio))
	for j := range g.cells {
		each := 1 / g.thickness[j]
		p.concentration[j].set(lane, (settled*s.settled[j]+(1-settled)*s.mixed[j])*each)
		p.way[j].set(lane, (settled*s.settledWay[j]+(1-settled)*s.mixedWay[j])*each)
	}
	p.airborne[lane] = 1
}

// came is the mean distance that the drops of a lane came which landed in the last step, m; false
// where none did.
func (p *plumes) came(lane int) (way float64, some bool) {
	if p.landing[lane] <= 0 {
		return 0, false
	}
	return p.landedWay[lane] / p.landing[lane], true
}

// The two stages of a step, see advance.
const (
	stage     = 1 - math.Sqrt2/2    // g, of the step
	carryOver = (1 - stage) / stage // (1-g)/g
)

// advance moves the plumes each a step in time: settling at a speed, mixing by turbulence, landing at
// the crop. The balance dc/dt = d(v c)/dz + d/dz(K dc/dz) is written for cells, with settling taken from
// the cell above, and solved by the implicit Runge-Kutta method of two stages and second order that
// damps what is fast (Alexander 1977, SIAM J. Numer. Anal. 14:1006, g = 1 - 1/sqrt 2, from memory). Both
// stages share one matrix, that of the middle of the step. The spread that taking settling from above
// adds by itself, v dz/2, is taken off the turbulence. ages are those at the middle of the step; for the
// mixing see grid.mixing.
func (p *plumes) advance(g *grid, steps, ages, speeds *[lanes]float64) {
	var youths, perSteps [lanes]float64
	for k := range lanes {
		if v := speeds[k]; v != p.crossingAt[k] {
			ratio := v / g.turbulence
			p.crossing[k], p.crossingAt[k] = math.Sqrt(1+ratio*ratio), v
		}
		youths[k] = 1 / (g.turbulence * g.turbulence * ages[k])
		perSteps[k] = 1 / (stage * steps[k])
	}
	p.solve(g, paired(speeds), paired(&youths), paired(&perSteps))
}

// solve finds the concentrations of the next step by Thomas's elimination, done once for both stages,
// and the ways beside them, which grow by the wind in each cell.
func (p *plumes) solve(g *grid, settling, youth, perStep pair) {
	n := g.cells
	apart, stiffness, wind, thickness := g.apart[:n+1], g.stiffness[:n+1], g.wind[:n], g.thickness[:n]
	c, first := p.concentration[:n], p.first[:n]
	kept, fromBelow, fromAbove := p.kept[:n], p.fromBelow[:n], p.fromAbove[:n]
	crossing, half := paired(&p.crossing), settling.scaled(0.5)
	// Each cell of a stage is kept x itself + fromBelow x the cell below + fromAbove x the one above.
	// exchange is the turbulent exchange across the lower face of a cell, m/s; none across the ends.
	var exchange, last, below pair
	for i := range n {
		var next pair
		if i < n-1 {
			next = crossing.scaled(stiffness[i+1]).plus(youth.scaled(apart[i+1])).inverse().minus(half).positive()
		}
		stays := perStep.scaled(thickness[i])
		down := settling.plus(exchange)
		inverse := stays.plus(down).plus(next).minus(exchange.times(below)).inverse()
		k, b := stays.times(inverse), exchange.times(inverse)
		below = settling.plus(next).times(inverse)
		kept[i], fromBelow[i], fromAbove[i] = k, b, below
		last = k.times(c[i]).plus(b.times(last))
		first[i] = last
		exchange = next
	}
	way, old := p.way[:n], p.old[:n]
	overall := perStep.inverse()
	up := pair{}
	for i := n - 1; i >= 0; i-- {
		up = first[i].plus(fromAbove[i].times(up))
		old[i] = way[i].plus(up.times(overall).scaled(wind[i]))
		// c + (1-g)/g (c1 - c), c1 being the first stage.
		first[i] = up.scaled(carryOver).minus(c[i].scaled(carryOver - 1))
	}
	lands := up.each()
	last = pair{}
	lastWay := pair{}
	for i := range n {
		last = kept[i].times(first[i]).plus(fromBelow[i].times(last))
		first[i] = last
		lastWay = kept[i].times(old[i]).plus(fromBelow[i].times(lastWay))
		old[i] = lastWay
	}
	var aloft pair
	up, upWay := pair{}, pair{}
	for i := n - 1; i >= 0; i-- {
		up = first[i].plus(fromAbove[i].times(up))
		c[i] = up
		aloft = aloft.plus(up.scaled(thickness[i]))
		upWay = old[i].plus(fromAbove[i].times(upWay))
		old[i] = upWay.scaled(carryOver).minus(way[i].scaled(carryOver - 1)).plus(up.times(overall).scaled(wind[i]))
	}
	landsWay := upWay.each()
	lastWay = pair{}
	for i := range n {
		lastWay = kept[i].times(old[i]).plus(fromBelow[i].times(lastWay))
		old[i] = lastWay
	}
	upWay = pair{}
	for i := n - 1; i >= 0; i-- {
		upWay = old[i].plus(fromAbove[i].times(upWay))
		way[i] = upWay
	}
	shares := aloft.each()
	then, thenWay := c[0].each(), way[0].each()
	for k := range lanes {
		p.airborne[k] = max(0, min(p.airborne[k], shares[k]))
		// What lands is what settles out of the lowest cell, by the shares of the two stages. The second
		// may swing below nothing where a plume comes to its end within a step.
		p.landing[k], p.landedWay[k] = (1-stage)*lands[k], (1-stage)*landsWay[k]
		if then[k] > 0 && thenWay[k] > 0 {
			p.landing[k] += stage * then[k]
			p.landedWay[k] += stage * thenWay[k]
		}
	}
}

// clear empties a lane.
func (p *plumes) clear(lane int) {
	for j := range p.concentration {
		p.concentration[j].set(lane, 0)
		p.way[j].set(lane, 0)
	}
	p.airborne[lane] = 0
}
