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

// windAt is the wind of the cell around a height, m/s.
func (g *grid) windAt(height float64) float64 {
	for j := range g.cells {
		if height < g.bottom[j+1] {
			return g.volume[j] / g.thickness[j]
		}
	}
	return g.volume[g.cells-1] / g.thickness[g.cells-1]
}

// at reports the cells between which drops at a height are shared, and the part of the upper. A
// cell counts at its top: a drop put in a cell leaves it, on the mean, after the time of a fall
// through its full thickness.
func (g *grid) at(height float64) (lower int, part float64) {
	for j := range g.cells - 1 {
		if height < g.bottom[j+2] {
			return j, max(0, (height-g.bottom[j+1])/g.thickness[j+1])
		}
	}
	return g.cells - 2, 1
}

// spread is a part of the spray shared among the cells.
type spread [mostCells]float64

// layer shares one whole evenly between two heights.
func (g *grid) layer(bottom, top float64) spread {
	const slices = 16
	var s spread
	for i := range slices {
		j, part := g.at(bottom + (top-bottom)*(float64(i)+0.5)/slices)
		s[j] += (1 - part) / slices
		s[j+1] += part / slices
	}
	return s
}

// plume is one class of drops on its way down the wind. The airborne share is the sum over the
// cells of concentration x wind x thickness.
type plume struct {
	grid          *grid
	concentration [mostCells]float64
	airborne      float64
	age           float64
	landed        float64
}

// release lets a share go at a height.
func (p *plume) release(share, height float64) {
	j, part := p.grid.at(height)
	p.put(j, share*(1-part))
	p.put(j+1, share*part)
}

// fill lets a share go as a spread.
func (p *plume) fill(share float64, s *spread) {
	for j := range p.grid.cells {
		p.concentration[j] += share * s[j] / p.grid.volume[j]
	}
	p.airborne += share
}

func (p *plume) put(cell int, share float64) {
	p.concentration[cell] += share / p.grid.volume[cell]
	p.airborne += share
}

// meanWind is the wind that carries the drops still aloft, m/s.
func (p *plume) meanWind() float64 {
	var amount float64
	for j := range p.grid.cells {
		amount += p.concentration[j] * p.grid.thickness[j]
	}
	if amount <= 0 || p.airborne <= 0 {
		return p.grid.volume[0] / p.grid.thickness[0]
	}
	return p.airborne / amount
}

// advance moves the plume a step down the wind that takes a time: settling at a speed, mixing by
// turbulence, landing at the crop. The balance u dc/dx = d(v c)/dz + d/dz(K dc/dz) is written for
// cells and solved implicitly, with settling taken from the cell above: no share turns negative
// and none is lost. The spread that this scheme adds by itself is taken off the turbulence.
func (p *plume) advance(step, time, settling float64) {
	g, n := p.grid, p.grid.cells
	p.age += time
	// A falling drop crosses the eddies, which shortens their hold on it by
	// (1 + (v/sigma_w)^2)^-1/2 (Csanady 1963, from memory). Young drops have not met the larger
	// eddies: by Taylor's theorem the diffusivity grows with age t over the Lagrangian time
	// T = K/sigma_w^2, here as K t/(t + T), which is 1/(1/K + 1/(sigma_w^2 t)).
	ratio := settling / g.turbulence
	crossing := math.Sqrt(1 + ratio*ratio)
	youth := 1 / (g.turbulence * g.turbulence * p.age)
	// First-order steps in time spread by v^2 dt/2, first-order settling by v dz/2.
	stepSpread := settling * settling * time / 2
	perStep := 1 / step
	var inverse, upper [mostCells]float64
	carry := 0.0 // turbulent exchange across the lower face of the cell, m/s
	for j := range n {
		above := 0.0
		if j+1 < n {
			mixing := 1 / (crossing*g.stiffness[j+1] + youth*g.apart[j+1])
			above = max(0, mixing-stepSpread*g.closeness[j+1]-settling/2)
			upper[j] = settling + above
		}
		inflow := g.volume[j] * perStep
		diagonal := inflow + settling + carry + above
		right := inflow * p.concentration[j]
		if j > 0 {
			// Thomas's elimination of the cell below.
			factor := carry * inverse[j-1]
			diagonal -= factor * upper[j-1]
			right += factor * p.concentration[j-1]
		}
		inverse[j], p.concentration[j] = 1/diagonal, right
		carry = above
	}
	p.concentration[n-1] *= inverse[n-1]
	for j := n - 2; j >= 0; j-- {
		p.concentration[j] = (p.concentration[j] + upper[j]*p.concentration[j+1]) * inverse[j]
	}
	landed := min(p.airborne, settling*p.concentration[0]*step)
	p.landed += landed
	p.airborne -= landed
}

// land lets down what is left.
func (p *plume) land() {
	p.landed += p.airborne
	p.airborne = 0
}
