package drift

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/units"
)

// neutral is neutral air over short grass at 20 C with a Delta T of 6 C, by the wind at 10 m.
func neutral(wind float64) medium {
	const roughness = 0.03
	friction := wind * vonKarman / math.Log(10/roughness)
	return medium{
		airDensity: tableAir, viscosity: tableViscosity, celsius: 20, pressure: 101325, depression: 6,
		liquidDensity: tableWater, nonvolatile: defaultNonvolatile, friction: friction, base: roughness, gain: 1,
		wind: func(z float64) float64 { return friction / vonKarman * math.Log((z+roughness)/roughness) },
	}
}

// sprayOf is a spectrum of the usual relative span about a middle, um.
func sprayOf(dv05 float64) spray.Spectrum {
	return spray.Spectrum{Dv05: units.Length(dv05) * units.Micrometer}
}

// line is a plan of a mid-size machine (41 kg on 2.7 m2 of disc at 4.5 m/s), nozzles under rotors.
func line(height, wind, dv05 float64) *flightPlan {
	f := &flightPlan{
		height: height, medium: neutral(wind),
		rotor: rotor{thrust: 41 * units.StandardGravity, disc: 2.7, speed: 4.5, captured: capturedUnderRotors, assumed: assumedWake},
	}
	f.count = split(sprayOf(dv05), fine.classes, &f.classes)
	f.speeds = newFall(tableWater, tableAir, tableViscosity)
	return f
}

// unaided is the same line without a wake.
func unaided(height, wind, dv05 float64) *flightPlan {
	f := line(height, wind, dv05)
	f.rotor = rotor{}
	return f
}

func TestSplit_sharesSumToOne(t *testing.T) {
	t.Parallel()
	for _, count := range []int{1, 6, 12, 40} {
		var c [mostClasses]dropClass
		n := split(sprayOf(250), count, &c)
		sum := 0.0
		for i := range n {
			sum += c[i].share
			if i > 0 {
				assert.GreaterOrEqual(t, c[i].diameter, c[i-1].diameter)
			}
		}
		assert.InDelta(t, 1, sum, 1e-12, "%d classes", count)
	}
}

// One size of drop in even wind without turbulence lands at u h/v: the analytic answer.
func TestLand_dropOfOneSizeInEvenWind(t *testing.T) {
	t.Parallel()
	m := neutral(0)
	m.wind = func(float64) float64 { return 3 }
	m.friction, m.depression = 0.01, 0
	for _, um := range []float64{100, 200, 400} {
		f := flightPlan{height: 3, medium: m, count: 1, speeds: newFall(tableWater, tableAir, tableViscosity)}
		f.classes[0] = dropClass{diameter: um * 1e-6, share: 1}
		l := f.land(500, fine)
		want := 3 * 3 / terminalSpeed(um*1e-6, tableWater, tableAir, tableViscosity)
		// The mean landing distance is the integral of what is still aloft.
		assert.InEpsilon(t, want, 500*l.beyond(500), 0.05, "%v um", um)
		assert.Less(t, l.within(0.5*want), 0.12, "%v um: few land in half the distance", um)
		assert.Greater(t, l.within(1.7*want), 0.9, "%v um: most have landed", um)
	}
}

func BenchmarkLand(b *testing.B) {
	for _, bench := range []struct {
		name string
		r    resolution
	}{{"fine", fine}, {"coarse", coarse}} {
		b.Run(bench.name, func(b *testing.B) {
			f := line(3, 3, 250)
			f.count = split(sprayOf(250), bench.r.classes, &f.classes)
			b.ReportAllocs()
			for b.Loop() {
				f.land(400, bench.r)
			}
		})
	}
}

func TestLand_conservesTheSpray(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		f := line(rapid.Float64Range(0.3, 12).Draw(t, "height"), rapid.Float64Range(0.2, 15).Draw(t, "wind"),
			rapid.Float64Range(60, 700).Draw(t, "dv05"))
		if rapid.Bool().Draw(t, "unaided") {
			f.rotor = rotor{}
		}
		length := rapid.Float64Range(4, 400).Draw(t, "length")
		l := f.land(farthestBuffer+length, fine)
		for i := 1; i < l.steps; i++ {
			require.GreaterOrEqual(t, l.landed[i], l.landed[i-1]-1e-12, "landed only grows")
		}
		require.LessOrEqual(t, l.landed[l.steps-1], 1+1e-9)
		// In the field, beyond it to 1 km, and aloft there: the whole.
		inField := 1 - l.beyond(length)
		landedBeyond := integral(func(x float64) float64 { return l.deposit(x, length) }, farthestBuffer) / length
		aloft := 1 - integral(func(x float64) float64 { return l.within(farthestBuffer + length - x) }, length)/length
		require.InDelta(t, 1, inField+landedBeyond+aloft, 0.003)
	})
}

// integral is Simpson's rule on steps that widen with distance.
func integral(f func(float64) float64, to float64) float64 {
	sum, x := 0.0, 0.0
	for x < to {
		step := min(to-x, max(0.02, x/200))
		sum += step / 6 * (f(x) + 4*f(x+step/2) + f(x+step))
		x += step
	}
	return sum
}

func TestLand_convergesWithFinerSteps(t *testing.T) {
	t.Parallel()
	finest := resolution{classes: 40, below: 16, above: 8, widening: 1.12, growth: 1.08, parts: 24}
	for _, tc := range []struct{ height, wind, dv05 float64 }{{3, 3, 250}, {2, 5, 180}, {4, 4, 400}, {3, 8, 300}} {
		t.Run(fmt.Sprint(tc), func(t *testing.T) {
			t.Parallel()
			for _, f := range []*flightPlan{line(tc.height, tc.wind, tc.dv05), unaided(tc.height, tc.wind, tc.dv05)} {
				a := f.land(400, fine)
				f.count = split(sprayOf(tc.dv05), finest.classes, &f.classes)
				b := f.land(400, finest)
				require.GreaterOrEqual(t, b.distance[b.steps-1], 400.0)
				for _, x := range []float64{5, 10, 20, 50} {
					want := b.deposit(x, 150)
					assert.InDelta(t, want, a.deposit(x, 150), 0.15*want+traces, "%v m", x)
				}
			}
		})
	}
}

func TestLanding_summedOverSwathsIsTheField(t *testing.T) {
	t.Parallel()
	l := line(3, 4, 250).land(500, fine)
	const swath, count = 4.0, 25
	for _, x := range []float64{1, 10, 40} {
		sum := 0.0
		for k := range count {
			sum += l.deposit(x+float64(k)*swath, swath)
		}
		assert.InEpsilon(t, sum, l.deposit(x, swath*count), 1e-9)
	}
}

func TestWake_speedAtWhichItStopsHelping(t *testing.T) {
	t.Parallel()
	r := line(3, 3, 250).rotor
	hover := r.below(3, neutral(3)).hover
	last := 2.0
	for _, ratio := range []float64{0.2, 0.6, 1, 1.2, 1.4, 1.6, 2} {
		r.speed = ratio * hover
		w := r.below(3, neutral(0.5))
		assert.LessOrEqual(t, w.help, last, "faster never helps more")
		last = w.help
		if ratio >= noHelp {
			assert.Zero(t, w.help)
		}
	}
	assert.Zero(t, rotor{}.below(3, neutral(3)).help)
}

// The grid reaches as far up as it says from any height, and finer cells there change less than the room's own error.
func TestGrid_reachesUp(t *testing.T) {
	t.Parallel()
	for _, height := range []float64{0.3, 1, 3, 10} {
		for _, r := range []resolution{fine, coarse} {
			var g grid
			g.lay(height, new(neutral(3)), r)
			above := g.bottom[g.cells] - g.bottom[r.below]
			assert.InEpsilon(t, height, g.bottom[r.below], 1e-9, "the cells below sum to the release height")
			assert.InEpsilon(t, max(leastTop, topPerHeight*height), above, 1e-6)
		}
		higher := resolution{classes: fine.classes, below: fine.below, above: fine.above + 3, widening: fine.widening, growth: fine.growth, parts: fine.parts}
		a, b := line(height, 3, 220).land(1300, fine), line(height, 3, 220).land(1300, higher)
		for _, x := range []float64{10, 50, 200, 400} {
			assert.InEpsilon(t, b.deposit(x, 300), a.deposit(x, 300), 0.20, "%v m up, at %v m", height, x)
		}
	}
}

// gridOf is a grid with the wind on it.
func gridOf(height float64, m medium, r resolution) (g grid) {
	g.lay(height, &m, r)
	g.blow(&m)
	return g
}

func TestPlume_losesNothing(t *testing.T) {
	t.Parallel()
	g := gridOf(3, neutral(5), fine)
	var p plumes
	p.launch()
	half := g.layer(0, 1)
	p.fill(&g, 1, &half, 0.25)
	require.InDelta(t, 1, p.airborne[1], 1e-12)
	for _, step := range []float64{0.01, 0.02, 1, 2, 50, 1e4} {
		before := p.airborne[1]
		p.advance(&g, &[lanes]float64{1, step}, &[lanes]float64{1, step}, &[lanes]float64{1, 0.25})
		require.LessOrEqual(t, p.airborne[1], before)
		require.GreaterOrEqual(t, p.airborne[1], 0.0)
		require.Zero(t, p.airborne[0], "the other lane stays empty")
	}
	assert.InDelta(t, 0, p.airborne[1], 1e-2)
}
