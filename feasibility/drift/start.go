package drift

import "math"

// spread is a part of the spray shared among the cells.
type spread [mostCells]float64

// start is where and when a plume is put on the cells: the same whole shared in two ways, for drops
// that settle through the cells and for drops that are mixed through them, each with its way.
type start struct {
	settled, mixed       spread
	settledWay, mixedWay spread  // share x distance come down the wind, m
	time                 float64 // since the drops were let go, s
	nearest              float64 // distance come by the drops that land first, m
	diameter, fall       float64 // of the drops at that time; zero: as they were let go
	top                  float64 // hardly any start higher, m
	face                 int     // the cell whose lower face is nearest to the top
}

// layer shares one whole evenly between two heights, which may be one.
func (g *grid) layer(bottom, top float64) start {
	const parts = 8
	s := start{top: top}
	for i := range parts {
		g.put(&s, bottom+(top-bottom)*(float64(i)+0.5)/parts, 0, 1.0/parts)
	}
	g.tops(&s)
	return s
}

// put adds a part of the whole at a height, come a way down the wind.
func (g *grid) put(s *start, height, way, part float64) {
	j, upper := g.at(height)
	low, high := part*(1-upper), part*upper
	s.settled[j] += low
	s.settled[j+1] += high
	s.settledWay[j] += low * way
	s.settledWay[j+1] += high * way
	j, upper = g.centered(height)
	low, high = part*(1-upper), part*upper
	s.mixed[j] += low
	s.mixed[j+1] += high
	s.mixedWay[j] += low * way
	s.mixedWay[j+1] += high * way
}

// tops finds the face nearest to the top of a start.
func (g *grid) tops(s *start) {
	for s.face = 1; s.face < g.cells-1 && g.bottom[s.face+1] <= s.top*(1+1e-9); s.face++ {
	}
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

// puff is drops of one size on their way down together, in a normal distribution of heights about a
// mean. Wind that grows with height leans it: the lower drops have come less far.
type puff struct {
	height, variance float64 // m, m2
	time             float64 // since the release, s
	way              float64 // down the wind, m
	lean             float64 // covariance of height and way, m2
	diameter, fall   float64 // m, m/s
}

// clearOfGround is how many standard deviations of its height a puff stays above the crop, so that
// about one drop in a thousand would have landed.
const clearOfGround = 3.0

// descend follows a puff let go at the release height from face to face of the grid for as long as
// hardly any of it can have landed. No cells are needed so far, which blur a young plume.
func (s *flight) descend(diameter, fall float64) puff {
	g := &s.grid
	p := puff{height: s.plan.height, diameter: diameter, fall: fall}
	for j := s.resolution.below - 1; j >= 1; j-- {
		thick, low := g.thickness[j], g.bottom[j]
		mean, slope := g.mixed(j, p.fall, p.time+thick/(2*p.fall))
		time := thick / (p.fall - slope)
		variance := p.variance + 2*mean*time
		if slope > p.fall/2 || low*low < clearOfGround*clearOfGround*variance {
			break
		}
		shear := (g.wind[j] - g.wind[j-1]) / g.apart[j]
		p.lean += shear * (p.variance + variance) / 2 * time
		p.way += g.wind[j] * time
		p.diameter = s.dry.after(p.diameter, diameter, p.fall, time, s.plan.speeds)
		p.fall = s.plan.speeds.speed(p.diameter)
		p.height, p.variance, p.time = low, variance, p.time+time
	}
	return p
}

// mixed is the mean diffusivity in a cell of drops that fall at a speed, an age after their release, and
// its slope, which carries their mean height up, m/s.
func (g *grid) mixed(j int, fall, age float64) (mean, slope float64) {
	under, over := g.mixing(g.exchange[j], fall, age), g.mixing(g.exchange[j+1], fall, age)
	return (under + over) / 2, (over - under) / g.thickness[j]
}

// mixing is the diffusivity of drops that fall at a speed, an age after their release. A falling drop
// crosses the eddies, which shortens their hold on it by (1 + (v/sigma_w)^2)^-1/2 (Csanady 1963, from
// memory). Young drops have not met the larger eddies: by Taylor's theorem the diffusivity grows with
// age t over the Lagrangian time T = K/sigma_w^2, here as K t/(t + T), which is 1/(1/K + 1/(sigma_w^2 t)).
func (g *grid) mixing(exchange, fall, age float64) float64 {
	ratio := fall / g.turbulence
	return 1 / (math.Sqrt(1+ratio*ratio)/exchange + 1/(g.turbulence*g.turbulence*age))
}

// tenths are the means of ten equal parts of the standard normal distribution (any table of it).
var tenths = [...]float64{-1.755, -1.045, -0.677, -0.386, -0.126, 0.126, 0.386, 0.677, 1.045, 1.755}

// start puts a puff on the cells.
func (g *grid) start(p puff) start {
	s := start{time: p.time, diameter: p.diameter, fall: p.fall}
	deviation := math.Sqrt(p.variance)
	lean := 0.0
	if deviation > 0 {
		lean = p.lean / deviation
	}
	for _, z := range tenths {
		g.put(&s, p.height+z*deviation, p.way+z*lean, 1.0/float64(len(tenths)))
	}
	s.top = p.height + 2*deviation
	s.nearest = max(0, p.way-clearOfGround*lean)
	g.tops(&s)
	return s
}
