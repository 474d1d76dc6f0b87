package drift

import "math"

const (
	mostCells = 40
	// leastTop and topPerHeight say how far up the grid reaches over the release height, m and as its
	// multiple. Nothing passes the top, so a low one holds mist down that really thins out: with 14
	// heights alone the deposit at 400 m of spray let go 1 ft up stands four times too high. Own
	// design; a top of 100 m changes deposits up to 400 m by under 1 %.
	leastTop     = 60.0
	topPerHeight = 14.0
)

// grid is the vertical grid of a plume with the wind and the turbulence on it.
type grid struct {
	cells      int
	bottom     [mostCells + 1]float64
	thickness  [mostCells]float64
	volume     [mostCells]float64     // wind x thickness
	slowness   [mostCells]float64     // inverse of the wind
	apart      [mostCells + 1]float64 // between centers across the lower face
	stiffness  [mostCells + 1]float64 // apart over the air's diffusivity there
	turbulence float64                // vertical, half way to the release height
}

// newGrid lays cells from the crop to the release height, thinnest at the crop, and wider ones above.
func newGrid(height float64, m *medium, r resolution) grid {
	g := grid{cells: r.below + r.above}
	_, g.turbulence = m.exchange(height / 2)
	// The first term of a geometric series that sums to the height.
	thick := height * (r.widening - 1) / (math.Pow(r.widening, float64(r.below)) - 1)
	ratioAbove := widening(thick*math.Pow(r.widening, float64(r.below-1)), max(leastTop, topPerHeight*height), r.above)
	for j := range g.cells {
		if j >= r.below {
			thick *= ratioAbove
		} else if j > 0 {
			thick *= r.widening
		}
		g.thickness[j] = thick
		g.bottom[j+1] = g.bottom[j] + thick
		wind := m.at(g.bottom[j] + thick/2)
		g.volume[j], g.slowness[j] = thick*wind, 1/wind
		if j > 0 {
			diffusivity, _ := m.exchange(g.bottom[j])
			g.apart[j] = (g.thickness[j-1] + thick) / 2
			g.stiffness[j] = g.apart[j] / diffusivity
		}
	}
	return g
}

// widening finds the ratio of each cell's thickness to that of the cell below, with which a number
// of cells over one of a thickness span a depth: thick (q + q^2 + ... + q^n) = depth, by halving.
func widening(thick, depth float64, cells int) float64 {
	low, high := 1.0, 10.0
	for range 40 {
		ratio := (low + high) / 2
		spanned, next := 0.0, thick
		for range cells {
			next *= ratio
			spanned += next
		}
		if spanned < depth {
			low = ratio
		} else {
			high = ratio
		}
	}
	return low
}

// spread is a part of the spray shared among the cells.
type spread [mostCells]float64

// start is where a plume is let go: the same whole shared in two ways, for drops that settle through
// the cells and for drops that are mixed through them.
type start struct {
	settled, mixed spread
	top            float64 // nothing starts higher, m
	face           int     // the cell whose lower face is nearest to the top
}

// layer shares one whole evenly between two heights, which may be one.
func (g *grid) layer(bottom, top float64) start {
	const slices = 8
	s := start{top: top, face: 1}
	for i := range slices {
		z := bottom + (top-bottom)*(float64(i)+0.5)/slices
		j, settled := g.at(z)
		s.settled[j] += (1 - settled) / slices
		s.settled[j+1] += settled / slices
		j, mixed := g.centered(z)
		s.mixed[j] += (1 - mixed) / slices
		s.mixed[j+1] += mixed / slices
	}
	for s.face < g.cells-1 && g.bottom[s.face+1] <= top*(1+1e-9) {
		s.face++
	}
	return s
}

// at reports the cells between which drops at a height are shared, and the part of the upper, for
// drops that settle: a drop put in a cell then leaves it, on the mean, after the time of a fall
// through its full thickness, so that a cell counts at its top.
func (g *grid) at(height float64) (lower int, part float64) {
	for j := range g.cells - 1 {
		if height < g.bottom[j+2] {
			return j, max(0, (height-g.bottom[j+1])/g.thickness[j+1])
		}
	}
	return g.cells - 2, 1
}

// centered does the same for drops that are mixed: a cell counts at its middle.
func (g *grid) centered(height float64) (lower int, part float64) {
	for j := range g.cells - 1 {
		if middle := g.bottom[j+1] + g.thickness[j+1]/2; height < middle {
			return j, max(0, 1-(middle-height)/g.apart[j+1])
		}
	}
	return g.cells - 2, 1
}

// plumes are two classes of drops on their way down the wind, each let go at a height or from a
// layer. The airborne share is the sum over the cells of concentration x wind x thickness.
type plumes struct {
	concentration [mostCells]pair
	aged          [mostCells]pair // concentration x age of the drops there
	airborne      [lanes]float64
	wind          [lanes]float64 // that carries the drops still aloft, m/s
	age           [lanes]float64
	crossing      [lanes]float64 // see advance, of drops that fall at crossingAt, m/s
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

// fill lets a whole go in one lane of drops that fall at a speed, at the start of a flight.
func (p *plumes) fill(g *grid, lane int, s *start, settling float64) {
	// Settling is taken from the cell above as far as turbulence does not outweigh it.
	ratio := settling / g.turbulence
	settled := min(1, settling/2*g.stiffness[s.face]*math.Sqrt(1+ratio*ratio))
	amount := 0.0
	for j := range g.cells {
		c := (settled*s.settled[j] + (1-settled)*s.mixed[j]) / g.volume[j]
		p.concentration[j].set(lane, c)
		p.aged[j].set(lane, 0)
		amount += c * g.thickness[j]
	}
	p.airborne[lane], p.age[lane], p.wind[lane] = 1, 0, 1/amount
}

// The two stages of a step, see advance.
const (
	stage     = 1 - math.Sqrt2/2    // g, of the step
	carryOver = (1 - stage) / stage // (1-g)/g
)

// advance moves the plumes each a step down the wind that takes a time: settling at a speed, mixing
// by turbulence, landing at the crop. The balance u dc/dx = d(v c)/dz + d/dz(K dc/dz) is written for
// cells, with settling taken from the cell above, and solved by the implicit Runge-Kutta method of
// two stages and second order that damps what is fast (Alexander 1977, SIAM J. Numer. Anal. 14:1006,
// g = 1 - 1/sqrt 2, from memory). Both stages share one matrix, that of the middle of the step. The
// spread that taking settling from above adds by itself, v dz/2, is taken off the turbulence.
func (p *plumes) advance(g *grid, steps, ages, speeds *[lanes]float64) {
	var youths, perSteps [lanes]float64
	for k := range lanes {
		// A falling drop crosses the eddies, which shortens their hold on it by
		// (1 + (v/sigma_w)^2)^-1/2 (Csanady 1963, from memory). Young drops have not met the larger
		// eddies: by Taylor's theorem the diffusivity grows with age t over the Lagrangian time
		// T = K/sigma_w^2, here as K t/(t + T), which is 1/(1/K + 1/(sigma_w^2 t)).
		if v := speeds[k]; v != p.crossingAt[k] {
			ratio := v / g.turbulence
			p.crossing[k], p.crossingAt[k] = math.Sqrt(1+ratio*ratio), v
		}
		youths[k] = 1 / (g.turbulence * g.turbulence * ages[k])
		perSteps[k] = 1 / (stage * steps[k])
	}
	p.solve(g, paired(speeds), paired(&youths), paired(&perSteps))
}

// solve finds the concentrations of the next step by Thomas's elimination, done once for both stages.
func (p *plumes) solve(g *grid, settling, youth, perStep pair) {
	n := g.cells
	apart, stiffness, volume, thickness := g.apart[:n+1], g.stiffness[:n+1], g.volume[:n], g.thickness[:n]
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
		stays := perStep.scaled(volume[i])
		down := settling.plus(exchange)
		inverse := stays.plus(down).plus(next).minus(exchange.times(below)).inverse()
		k, b := stays.times(inverse), exchange.times(inverse)
		below = settling.plus(next).times(inverse)
		kept[i], fromBelow[i], fromAbove[i] = k, b, below
		last = k.times(c[i]).plus(b.times(last))
		first[i] = last
		exchange = next
	}
	aged, old := p.aged[:n], p.old[:n]
	overall := perStep.inverse()
	// Each drop ages by the time that the wind at its height takes.
	up := pair{}
	for i := n - 1; i >= 0; i-- {
		up = first[i].plus(fromAbove[i].times(up))
		old[i] = aged[i].plus(up.times(overall).scaled(g.slowness[i]))
		// c + (1-g)/g (c1 - c), c1 being the first stage.
		first[i] = up.scaled(carryOver).minus(c[i].scaled(carryOver - 1))
	}
	last = pair{}
	lastAged := pair{}
	for i := range n {
		last = kept[i].times(first[i]).plus(fromBelow[i].times(last))
		first[i] = last
		lastAged = kept[i].times(old[i]).plus(fromBelow[i].times(lastAged))
		old[i] = lastAged
	}
	var amount, airborne, sumAged pair
	up, upAged := pair{}, pair{}
	for i := n - 1; i >= 0; i-- {
		up = first[i].plus(fromAbove[i].times(up))
		c[i] = up
		amount = amount.plus(up.scaled(thickness[i]))
		airborne = airborne.plus(up.scaled(volume[i]))
		upAged = old[i].plus(fromAbove[i].times(upAged))
		old[i] = upAged.scaled(carryOver).minus(aged[i].scaled(carryOver - 1)).plus(up.times(overall).scaled(g.slowness[i]))
	}
	lastAged = pair{}
	for i := range n {
		lastAged = kept[i].times(old[i]).plus(fromBelow[i].times(lastAged))
		old[i] = lastAged
	}
	upAged = pair{}
	for i := n - 1; i >= 0; i-- {
		upAged = old[i].plus(fromAbove[i].times(upAged))
		aged[i] = upAged
		sumAged = sumAged.plus(upAged.scaled(volume[i]))
	}
	agedSum := sumAged.each()
	amounts, aloft := amount.each(), airborne.each()
	for k := range lanes {
		if aloft[k] < p.airborne[k] {
			p.airborne[k] = max(0, aloft[k])
		}
		if p.airborne[k] > nothing && amounts[k] > 0 {
			p.wind[k] = p.airborne[k] / amounts[k]
			p.age[k] = max(p.age[k], agedSum[k]/p.airborne[k])
		}
	}
}

// clear empties a lane.
func (p *plumes) clear(lane int) {
	for j := range p.concentration {
		p.concentration[j].set(lane, 0)
		p.aged[j].set(lane, 0)
	}
	p.airborne[lane], p.wind[lane], p.age[lane] = 0, 1, 0
}
