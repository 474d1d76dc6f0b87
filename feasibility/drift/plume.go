package drift

import "math"

// plumes are two classes of drops on their way, each followed in time since its release, so that all
// drops of a plume have one age and one size. A cell holds how many there are and how far down the
// wind they have come on the mean.
type plumes struct {
	concentration [mostCells]pair
	way           [mostCells]pair // concentration x mean distance of the drops there, m
	reach         [lanes]int      // cells from the crop that hold drops; the others hold none at all
	airborne      [lanes]float64  // share still aloft
	landing       [lanes]float64  // what landed in the last step, up to a factor
	landedWay     [lanes]float64  // that x the mean distance it came, m
	crossing      [lanes]float64  // see advance, of drops that fall at crossingAt, m/s
	crossingAt    [lanes]float64

	kept, fromBelow, fromAbove, next, nextWay [mostCells]pair // see eliminate
}

// launch empties all lanes for a flight.
func (p *plumes) launch() {
	for k := range lanes {
		p.crossingAt[k] = -1
		p.reach[k] = mostCells
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
		concentration := (settled*s.settled[j] + (1-settled)*s.mixed[j]) * each
		p.concentration[j].set(lane, concentration)
		p.way[j].set(lane, (settled*s.settledWay[j]+(1-settled)*s.mixedWay[j])*each)
		if concentration > 0 {
			p.reach[lane] = j + 1
		}
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
		p.rise(g, k, speeds[k], youths[k])
	}
	p.solve(g, paired(speeds), paired(&youths), paired(&perSteps))
}

// rise lets the drops of a lane that fall at a speed reach as many cells as turbulence carries them up to.
// It carries none across a face where settling outweighs it (see eliminate), and cells that hold none need
// not be solved.
func (p *plumes) rise(g *grid, lane int, fall, youth float64) {
	for n := p.reach[lane]; n > 0 && n < g.cells && fall/2*(p.crossing[lane]*g.stiffness[n]+youth*g.apart[n]) < 1; n++ {
		p.reach[lane] = n + 1
	}
}

// account books what a step left aloft and what landed: what settled out of the lowest cell, by the shares
// of the two stages. The second may swing below nothing where a plume comes to its end within a step.
func (p *plumes) account(aloft, lands, landsWay [lanes]float64) {
	then, thenWay := p.concentration[0].each(), p.way[0].each()
	for k := range lanes {
		p.airborne[k] = max(0, min(p.airborne[k], aloft[k]))
		p.landing[k], p.landedWay[k] = (1-stage)*lands[k], (1-stage)*landsWay[k]
		if then[k] > 0 && thenWay[k] > 0 {
			p.landing[k] += stage * then[k]
			p.landedWay[k] += stage * thenWay[k]
		}
	}
}

// clear empties a lane.
func (p *plumes) clear(lane int) {
	for j := range p.reach[lane] {
		p.concentration[j].set(lane, 0)
		p.way[j].set(lane, 0)
	}
	p.reach[lane], p.airborne[lane] = 0, 0
}
