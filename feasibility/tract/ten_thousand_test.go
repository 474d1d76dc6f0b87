package tract

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/units"
)

// blot is a ring that never crosses itself, of 3 to 14 corners at rising angles around a middle.
func blot(r *rand.Rand, x, y, least, most float64) []orb.Point {
	n := 3 + r.IntN(12)
	var out []orb.Point
	for i := range n {
		radius := least + (most-least)*r.Float64()
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		out = append(out, orb.Point{x + radius*cos, y + radius*sin})
	}
	return out
}

// blotField is a ragged tract with a hole half of the time and up to three keep-outs, which may
// lap over each other and over the edge.
func blotField(r *rand.Rand) Field {
	rings := [][]orb.Point{blot(r, 0, 0, 100, 300)}
	if r.IntN(2) == 0 {
		rings = append(rings, blot(r, 0, 0, 5, 45))
	}
	field := Field{Boundary: []Polygon{placed(rings...)}, FerryDistance: new(100 * units.Meter)}
	for range r.IntN(4) {
		field.KeepOuts = append(field.KeepOuts, placed(blot(r, 500*r.Float64()-250, 500*r.Float64()-250, 3, 90)))
	}
	return field
}

// TestTenThousandTracts holds the accounting of 10,000 random tracts against a measurement that
// shares no code with it, and the sorties against the lines.
func TestTenThousandTracts(t *testing.T) {
	t.Parallel()
	tracts := 10_000
	if testing.Short() {
		tracts = 500
	}
	r := rand.New(rand.NewPCG(20260612, 4))
	flown, worst := 0, 0.0
	for i := range tracts {
		field := blotField(r)
		job := tankJob(4)
		job.Swath = units.Length(4 + 16*r.Float64())
		job.Course = new(units.Bearing(2 * math.Pi * r.Float64()))
		if i%8 == 0 {
			job.Headland = units.Count(1 + i/8%2)
		}
		plan := Fly(field, job)
		g, ok := survey(field, &report{})
		if !ok {
			continue
		}
		if job.Headland > 0 {
			g.headlands(int(job.Headland), job.Swath.SI())
		}
		l := lay(&g, math.Pi/2-job.Course.SI(), job.Swath.SI())
		got, want := plan.Accounting, ruled(g, l)
		for name, pair := range map[string][2]float64{
			"tract":     {got.Tract.SI(), want.tract},
			"sprayed":   {got.Sprayed.SI(), want.sprayed},
			"unsprayed": {got.Unsprayed.SI(), want.unsprayed},
			"keep-outs": {got.KeepOuts.SI(), want.keptOut},
		} {
			off := math.Abs(pair[0]-pair[1]) / want.tract
			worst = max(worst, off)
			require.LessOrEqualf(t, off, 0.001, "tract %d: %s %.1f m2, measured %.1f m2 of %.1f", i, name, pair[0], pair[1], want.tract)
		}
		if plan.Feasible {
			flown++
			requireEachLineOnce(t, i, plan, l, job)
		}
	}
	require.Greater(t, flown, tracts*9/10, "most tracts must be flown for this to show anything")
	t.Logf("%d tracts, %d flown; accounting off by at most %.5f percent of the tract", tracts, flown, 100*worst)
}

// measured is where the ground goes, by ruling the tract.
type measured struct{ tract, sprayed, unsprayed, keptOut float64 }

// ruled measures a tract by ruling it with thin parallel lines: four lines between any two
// heights at which a swath or a side of a ring begins or ends, and of every line the stretches of tract, keep-out and swath by sorting the
// places where they begin and end.
func ruled(g ground, l layout) measured {
	var cuts []float64
	whole, width := l.frame.across(g.tract)
	low, high := whole, whole+width
	cuts = append(cuts, low, high)
	for i := range int(l.passes) {
		cuts = append(cuts, max(low, l.offset(i)-l.swath/2), min(high, l.offset(i)+l.swath/2))
	}
	for _, rings := range append([]region{g.tract}, g.keepOuts...) {
		for _, ring := range rings {
			for _, corner := range ring {
				_, n := l.frame.turn(corner)
				cuts = append(cuts, max(low, min(high, n)))
			}
		}
	}
	var laps []region
	for _, p := range l.laps {
		laps = append(laps, region{beside(p.from, p.to, 0, l.swath/2)})
		for _, corner := range laps[len(laps)-1][0] {
			_, n := l.frame.turn(corner)
			cuts = append(cuts, max(low, min(high, n)))
		}
	}
	slices.Sort(cuts)
	const lines = 4
	var sum measured
	for i := 1; i < len(cuts); i++ {
		step := (cuts[i] - cuts[i-1]) / lines
		for k := range lines {
			if step > 1e-9 {
				sum.rule(g, l, laps, cuts[i-1]+(float64(k)+0.5)*step, step)
			}
		}
	}
	return sum
}

// mark is a place where a ring (kind 0: tract, 1 and on: a keep-out) or a swath (kind -1) begins or ends.
type mark struct {
	u    float64
	kind int
	by   int
}

// rule adds one thin line at n.
func (m *measured) rule(g ground, l layout, laps []region, n, height float64) {
	var marks []mark
	cross := func(kind int, rings region) {
		for _, ring := range rings {
			for i := 1; i < len(ring); i++ {
				u0, n0 := l.frame.turn(ring[i-1])
				u1, n1 := l.frame.turn(ring[i])
				if (n0 <= n) != (n1 <= n) {
					marks = append(marks, mark{u: u0 + (u1-u0)*(n-n0)/(n1-n0), kind: kind})
				}
			}
		}
	}
	cross(0, g.tract)
	for i, rings := range g.keepOuts {
		cross(i+1, rings)
	}
	for _, r := range l.runs {
		if math.Abs(n-l.offset(r.line-1)) <= l.swath/2 {
			marks = append(marks, mark{r.from, -1, 1}, mark{r.to, -1, -1})
		}
	}
	for _, lap := range laps { // convex: the line enters at the first crossing and leaves at the second
		before := len(marks)
		cross(-1, lap)
		if here := marks[before:]; len(here) == 2 {
			slices.SortFunc(here, func(a, b mark) int { return cmp.Compare(a.u, b.u) })
			here[0].by, here[1].by = 1, -1
		} else {
			marks = marks[:before]
		}
	}
	slices.SortFunc(marks, func(a, b mark) int { return cmp.Compare(a.u, b.u) })
	within := make([]bool, len(g.keepOuts)+1)
	swaths, before := 0, math.Inf(-1)
	for _, at := range marks {
		if stretch := (at.u - before) * height; within[0] && stretch > 0 {
			m.tract += stretch
			switch {
			case slices.Contains(within[1:], true):
				m.keptOut += stretch
			case swaths > 0:
				m.sprayed += stretch
			default:
				m.unsprayed += stretch
			}
		}
		before = at.u
		if at.kind < 0 {
			swaths += at.by
		} else {
			within[at.kind] = !within[at.kind]
		}
	}
}

// requireEachLineOnce lays the sorties' stretches over the lines: from each resume point to the next, every run
// must be sprayed once and nothing else.
func requireEachLineOnce(t *testing.T, tract int, plan Plan, l layout, job Job) {
	t.Helper()
	whole := map[int]float64{} // length of each line
	for _, run := range l.runs {
		whole[run.line] += run.to - run.from
	}
	lines := int(l.passes)
	for i, p := range l.laps {
		if i == 0 || p.ring != l.laps[i-1].ring || p.pass != l.laps[i-1].pass {
			lines++
		}
		whole[lines] += math.Hypot(p.to[0]-p.from[0], p.to[1]-p.from[1])
	}
	var fill, length float64
	line, along := 1, 0.0
	for _, s := range plan.List {
		fill += s.Fill.SI()
		to, toAlong := int(s.ResumeLine), s.ResumeAlong.SI()
		if to == 0 {
			to, toAlong = lines+1, 0
		}
		sprayed := toAlong - along
		for k := line; k < to; k++ {
			sprayed += whole[k]
		}
		require.InDeltaf(t, sprayed*l.swath, s.Area.SI(), 1e-3*l.swath, "tract %d, sortie %v", tract, s.Number)
		length += sprayed
		line, along = to, toAlong
	}
	require.InEpsilonf(t, l.length, length, 1e-9, "tract %d: length of all sorties", tract)
	require.InEpsilonf(t, job.Rate.SI()*l.length*l.swath, fill, 1e-9, "tract %d: liquid", tract)
}
