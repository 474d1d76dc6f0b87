package drift

import "math"

const (
	mostCells  = 24
	ratioBelow = 1.12 // of the thickness of a cell to the next below, up to the release height
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
	volume     [mostCells]float64 // wind x thickness
	apart      [mostCells]float64 // between centers across the lower face
	stiffness  [mostCells]float64 // apart over the air's diffusivity there
	closeness  [mostCells]float64 // inverse of apart
	turbulence float64            // vertical, half way to the release height
}

// newGrid lays cells from the crop to the release height, thinnest at the crop, and wider ones above.
func newGrid(height float64, m medium, r resolution) *grid {
	g := &grid{cells: r.below + r.above}
	_, g.turbulence = m.exchange(height / 2)
	// The first term of a geometric series that sums to the height.
	thick := height * (ratioBelow - 1) / (math.Pow(ratioBelow, float64(r.below)) - 1)
	ratioAbove := widening(thick*math.Pow(ratioBelow, float64(r.below-1)), max(leastTop, topPerHeight*height), r.above)
	for j := range g.cells {
		if j >= r.below {
			thick *= ratioAbove
		} else if j > 0 {
			thick *= ratioBelow
		}
		g.thickness[j] = thick
		g.bottom[j+1] = g.bottom[j] + thick
		g.volume[j] = thick * m.at(g.bottom[j]+thick/2)
		if j > 0 {
			diffusivity, _ := m.exchange(g.bottom[j])
			g.apart[j] = (g.thickness[j-1] + thick) / 2
			g.stiffness[j] = g.apart[j] / diffusivity
			g.closeness[j] = 1 / g.apart[j]
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

// plume is one class of drops on its way down the wind, let go at a height or from a layer. The
// airborne share is the sum over the cells of concentration x wind x thickness.
type plume struct {
	grid          *grid
	concentration [mostCells]float64
	before        [mostCells]float64 // a step ago
	stepBefore    float64            // m; 0 before the first step
	airborne      float64
	wind          float64 // that carries the drops still aloft, m/s
	age           float64
	crossing      float64 // see advance, of drops that fall at crossingAt, m/s
	crossingAt    float64

	exchange, diagonal, right [mostCells + 1]float64 // see solve
}

// fill lets a whole go of drops that fall at a speed, at the start of a flight.
func (p *plume) fill(s *start, settling float64) {
	g := p.grid
	// Settling is taken from the cell above as far as turbulence does not outweigh it.
	ratio := settling / g.turbulence
	settled := min(1, settling/2*g.stiffness[s.face]*math.Sqrt(1+ratio*ratio))
	p.airborne, p.age, p.stepBefore = 1, 0, 0
	amount := 0.0
	for j := range g.cells {
		p.concentration[j] = (settled*s.settled[j] + (1-settled)*s.mixed[j]) / g.volume[j]
		amount += p.concentration[j] * g.thickness[j]
	}
	p.wind = 1 / amount
}

// advance moves the plume a step down the wind that takes a time: settling at a speed, mixing by
// turbulence, landing at the crop. The balance u dc/dx = d(v c)/dz + d/dz(K dc/dz) is written for
// cells, with settling taken from the cell above, and solved implicitly by the backward difference
// of second order over steps of unequal length. The spread that taking settling from above adds by
// itself, v dz/2, is taken off the turbulence.
func (p *plume) advance(step, time, settling float64) {
	g := p.grid
	// A falling drop crosses the eddies, which shortens their hold on it by
	// (1 + (v/sigma_w)^2)^-1/2 (Csanady 1963, from memory). Young drops have not met the larger
	// eddies: by Taylor's theorem the diffusivity grows with age t over the Lagrangian time
	// T = K/sigma_w^2, here as K t/(t + T), which is 1/(1/K + 1/(sigma_w^2 t)).
	if settling != p.crossingAt {
		ratio := settling / g.turbulence
		p.crossing, p.crossingAt = math.Sqrt(1+ratio*ratio), settling
	}
	p.age += time
	// c = a c' - b c'' + w step L(c), with the states of one and two steps ago; Euler's at first.
	now, old, weight := 1.0, 0.0, 1.0
	if p.stepBefore > 0 {
		r := step / p.stepBefore
		scale := 1 / (1 + 2*r)
		now, old, weight = (1+r)*(1+r)*scale, r*r*scale, (1+r)*scale
	}
	p.stepBefore = step
	p.solve(settling, 1/(g.turbulence*g.turbulence*p.age), 1/(weight*step), now, old)
	amount, airborne := 0.0, 0.0
	for j := range g.cells {
		c := p.concentration[j]
		amount += c * g.thickness[j]
		airborne += c * g.volume[j]
	}
	if airborne < p.airborne {
		p.airborne = max(0, airborne)
	}
	if p.airborne > nothing && amount > 0 {
		p.wind = p.airborne / amount
	}
}

// solve finds the concentrations of the next step: Thomas's elimination, from the bottom and from
// the top at once, which halves the wait of each cell for the one before.
func (p *plume) solve(settling, youth, perStep, now, old float64) {
	g, n := p.grid, p.grid.cells
	// exchange is the turbulent exchange across the lower face of a cell, m/s; none across the ends.
	exchange, diagonal, right := &p.exchange, &p.diagonal, &p.right
	exchange[n] = 0
	for j := n - 1; j >= 0; j-- {
		if exchange[j] = 0; j > 0 {
			if mixing := 1/(p.crossing*g.stiffness[j]+youth*g.apart[j]) - settling/2; mixing > 0 {
				exchange[j] = mixing
			}
		}
		inflow := g.volume[j] * perStep
		diagonal[j] = inflow + settling + exchange[j] + exchange[j+1]
		right[j] = inflow * (now*p.concentration[j] - old*p.before[j])
		p.before[j] = p.concentration[j]
	}
	middle := n / 2
	for i := range middle {
		if i > 0 {
			factor := exchange[i] * diagonal[i-1]
			diagonal[i] -= factor * (settling + exchange[i])
			right[i] += factor * right[i-1]
		}
		diagonal[i] = 1 / diagonal[i] // from here on the inverse
		k := n - 1 - i
		if k == middle {
			continue
		}
		if k < n-1 {
			factor := (settling + exchange[k+1]) * diagonal[k+1]
			diagonal[k] -= factor * exchange[k+1]
			right[k] += factor * right[k+1]
		}
		diagonal[k] = 1 / diagonal[k]
	}
	below := exchange[middle] * diagonal[middle-1]
	above := (settling + exchange[middle+1]) * diagonal[middle+1]
	up := (right[middle] + below*right[middle-1] + above*right[middle+1]) /
		(diagonal[middle] - below*(settling+exchange[middle]) - above*exchange[middle+1])
	p.concentration[middle] = up
	down := up
	for i := middle - 1; i >= 0; i-- {
		down = (right[i] + (settling+exchange[i+1])*down) * diagonal[i]
		p.concentration[i] = down
		if k := 2*middle - i; k < n {
			up = (right[k] + exchange[k]*up) * diagonal[k]
			p.concentration[k] = up
		}
	}
}
