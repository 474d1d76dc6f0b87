package tract

import (
	"math"

	"github.com/paulmach/orb/planar"
)

// mower lays the passes of a headland.
type mower struct {
	*band
	swath float64
	hedge hedge   // of the band's sides
	along [][]int // of each side the laps laid along it
	bars  []hedge // of the forbidden regions

	taken, kept []interval // of the side at hand, kept for their room
	shade       shade
	steps       int
}

// newMower readies passes along the sides of a band.
func newMower(g *ground, b *band, swath float64) *mower {
	m := &mower{band: b, swath: swath, hedge: plant(b.sides), along: make([][]int, len(b.sides))}
	for _, rings := range g.forbidden {
		m.bars = append(m.bars, plantRegion(rings))
	}
	return m
}

// round lays one pass round one ring, whose sides stand in m.sides from first on, and counts of every side
// how often there would be room but for ground that must stay dry.
func (m *mower) round(ring, pass, first int, barred []int) {
	count := len(barred)
	inward := (float64(pass) + 0.5) * m.swath
	for i := range count {
		if m.steps > mostMown {
			return
		}
		side := m.sides[first+i]
		length := planar.Distance(side.a, side.b)
		if !(length > shortest) {
			continue
		}
		before, after := first+(i+count-1)%count, first+(i+1)%count
		f := newFrame(math.Atan2(side.b[1]-side.a[1], side.b[0]-side.a[0]))
		u, n := f.turn(side.a)
		n += inward
		free := interval{u - reach(m.sides[before], side, inward), u + length + reach(side, m.sides[after], inward)}
		left := m.take(f, free, n, inward, first+i, before, after)
		if m.oppose(f, &left, n); left.from >= left.to {
			continue
		}
		room := subtract([]interval{free}, union(m.taken), nil)
		m.kept = subtract(room, union(m.barred(f, left, n)), m.kept[:0])
		if len(room) > 0 && len(m.kept) == 0 {
			barred[i]++
		}
		for _, piece := range m.kept {
			if piece.to-piece.from > closed {
				m.along[first+i] = append(m.along[first+i], len(m.laps))
				m.laps = append(m.laps, lap{ring: ring, pass: pass, from: f.back(piece.from, n), to: f.back(piece.to, n)})
			}
		}
	}
}

// take lists the stretches of a pass that lie nearer to other sides than to its own, and reports what they
// leave between the first and the last stretch that is free. The neighbors on the ring, which leave nothing
// where it is ragged, are looked at first.
func (m *mower) take(f frame, left interval, n, inward float64, own, before, after int) interval {
	m.taken = m.taken[:0]
	visit := func(k int) {
		if k != own {
			had := len(m.taken)
			m.taken = m.sides[k].in(f).near(n, inward*(1-1e-6), m.taken)
			left.shrink(m.taken[had:])
		}
	}
	visit(before)
	visit(after)
	m.steps += m.hedge.near(f, &left, n, inward, visit)
	return left
}

// oppose adds the stretches where a lap that comes back the other way, as through a neck of the tract,
// already sprays more than half of the swath.
func (m *mower) oppose(f frame, left *interval, n float64) {
	// A lap lies within 1.5 times its distance inward from its side, and so within 1.5 widths.
	far := m.swath/2 + 1.5*m.width
	m.steps += m.hedge.near(f, left, n, far, func(k int) {
		m.steps += len(m.along[k])
		for _, i := range m.along[k] {
			s := strut{m.laps[i].from, m.laps[i].to}.in(f)
			if s.b[0] < s.a[0]-math.Abs(s.b[1]-s.a[1]) { // within 45 degrees of straight back
				had := len(m.taken)
				m.taken = s.near(n, m.swath/2, m.taken)
				left.shrink(m.taken[had:])
			}
		}
	})
}

// barred lists the stretches where a swath would touch ground that must stay dry.
func (m *mower) barred(f frame, along interval, n float64) []interval {
	half := m.swath / 2
	m.shade.steps = 0
	m.taken = m.taken[:0]
	for i := range m.bars {
		m.taken = m.bars[i].shadow(f, along, n-half, n+half, &m.shade, m.taken)
	}
	m.steps += m.shade.steps
	return m.taken
}

// shrink takes stretches off the ends of another.
func (i *interval) shrink(away []interval) {
	for _, a := range away {
		if a.from <= i.from {
			i.from = max(i.from, a.to)
		}
		if a.to >= i.to {
			i.to = min(i.to, a.from)
		}
	}
}
