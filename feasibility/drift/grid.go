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
	profile    [mostCells]float64     // of the wind as the air has it
	wind       [mostCells]float64     // as the plan takes it
	apart      [mostCells + 1]float64 // between centers across the lower face
	exchange   [mostCells + 1]float64 // the air's diffusivity there
	stiffness  [mostCells + 1]float64 // apart over that
	turbulence float64                // vertical, half way to the release height
	height     float64                // of release
}

// lay lays cells from the crop to the release height, thinnest at the crop, and wider ones above, and
// reads the wind in them.
func (g *grid) lay(height float64, m *medium, r resolution) {
	g.cells, g.height = r.below+r.above, height
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
		g.profile[j] = m.wind(g.bottom[j] + thick/2)
		if j > 0 {
			g.apart[j] = (g.thickness[j-1] + thick) / 2
		}
	}
}

// blow puts a plan's wind and turbulence on the cells.
func (g *grid) blow(m *medium) {
	_, g.turbulence = m.exchange(g.height / 2)
	for j := range g.cells {
		g.wind[j] = m.taken(g.profile[j])
		if j > 0 {
			g.exchange[j], _ = m.exchange(g.bottom[j])
			g.stiffness[j] = g.apart[j] / g.exchange[j]
		}
	}
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
