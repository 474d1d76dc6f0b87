package tract

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// followed reports the outer rings as closely as a headland follows them: within a distance, or, where they
// would have more than mostSides sides, within twice as much, and so on.
func (g *ground) followed(within float64) []orb.Ring {
	outers, _ := g.tract.sorted()
	strayed := make([][]float64, len(outers))
	for i, ring := range outers {
		strayed[i] = g.keptUpTo(ring, within)
	}
	rings := make([]orb.Ring, 0, len(outers))
	for ; ; within *= 2 {
		rings = rings[:0]
		sides := 0
		for i, ring := range outers {
			line := simplified(ring, strayed[i], within)
			rings, sides = append(rings, line), sides+len(line)-1
		}
		if sides <= max(mostSides, 3*len(outers)) || within > farthest {
			return rings
		}
	}
}

// keptUpTo reports of every corner of a ring up to what distance, squared, a line must keep it that follows
// the ring within that distance, by the method of Douglas and Peucker (1973): the corner that strays
// farthest from the straight way between two that are kept is kept, where it strays farther than that. A
// corner is kept only where those kept before it are. Corners below the least distance get 0.
func (g *ground) keptUpTo(ring orb.Ring, least float64) []float64 {
	out := make([]float64, len(ring))
	out[0], out[len(ring)-1] = math.Inf(1), math.Inf(1)
	type stretch struct {
		first, last int
		bound       float64
	}
	todo := []stretch{{0, len(ring) - 1, math.Inf(1)}}
	for len(todo) > 0 {
		s := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		farthest, most := 0, 0.0
		for i := s.first + 1; i < s.last; i++ {
			if away := planar.DistanceFromSegmentSquared(ring[s.first], ring[s.last], ring[i]); away > most {
				farthest, most = i, away
			}
		}
		g.work.add(s.last - s.first)
		if most > least*least {
			out[farthest] = min(most, s.bound)
			todo = append(todo, stretch{s.first, farthest, out[farthest]}, stretch{farthest, s.last, out[farthest]})
		}
	}
	return out
}

// simplified follows a ring within a distance.
func simplified(ring orb.Ring, strays []float64, within float64) orb.Ring {
	line := make(orb.Ring, 0, len(ring))
	for i, p := range ring {
		if strays[i] > within*within {
			line = append(line, p)
		}
	}
	if len(line) < 4 || planar.Area(line)*planar.Area(ring) <= 0 {
		return ring
	}
	return line
}
