package drift

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
)

// walker is an independent, slow solution of the same physics: drops followed one by one, each a
// random walk in the turbulence. It shares with the room the laws (drag, evaporation, wind, mixing,
// wake) but neither grid nor steps, so it checks how the room solves them.
type walker struct {
	plan   flightPlan
	wake   wake
	dry    drying
	random *rand.Rand
}

const (
	walkTime = 0.04 // s
	walkers  = 400  // of each class
)

// deposits reports the deposit of a field of a length at distances, and the standard error of each.
func (w *walker) deposits(at []float64, length float64) (deposit, scatter []float64) {
	deposit, scatter = make([]float64, len(at)), make([]float64, len(at))
	for _, c := range w.plan.classes[:w.plan.count] {
		hits := make([]float64, len(at))
		for i := range walkers {
			x := w.drop(c.diameter, (float64(i)+0.5)/walkers, at[len(at)-1]+length)
			for j := range at {
				if x > at[j] && x <= at[j]+length {
					hits[j]++
				}
			}
		}
		for j := range at {
			p := hits[j] / walkers
			deposit[j] += c.share * p
			scatter[j] += c.share * c.share * p * (1 - p) / walkers
		}
	}
	for j := range scatter {
		scatter[j] = math.Sqrt(scatter[j])
	}
	return deposit, scatter
}

// drop lands one drop; which, from 0 to 1, says whether the wake catches it. A drop is given up
// beyond a distance.
func (w *walker) drop(first, which, farthest float64) float64 {
	d := first
	v := w.plan.speeds.speed(d)
	x, z := 0.0, w.plan.height
	if which < w.wake.help {
		time := w.wake.depth / (w.wake.depth/w.wake.time + v)
		middle := w.plan.medium.at(w.plan.height-w.wake.depth/2) * time
		from, to := max(0, middle-w.wake.spread), middle+w.wake.spread
		x = from + (to-from)*w.random.Float64()
		if w.random.Float64() < w.wake.pressed(v) {
			return x
		}
		bottom, top := w.wake.layer(w.plan.height)
		z = bottom + (top-bottom)*w.random.Float64()
	}
	for age := walkTime / 2; x <= farthest; age += walkTime {
		x += w.plan.medium.at(z) * walkTime
		// Turbulence turns back at the crop; settling lands there.
		z = math.Abs(z + w.kick(z, v, age))
		if z -= v * walkTime; z <= 0 {
			return x
		}
		d = w.dry.after(d, first, v, walkTime)
		v = w.plan.speeds.speed(d)
	}
	return math.Inf(1)
}

// kick is a step of the random walk for a diffusivity that varies with height:
// dz = dK/dz dt + sqrt(2 K dt) N.
func (w *walker) kick(z, v, age float64) float64 {
	const h = 0.01
	k := w.diffusivity(z, v, age)
	slope := (w.diffusivity(z+h, v, age) - k) / h
	return slope*walkTime + math.Sqrt(2*k*walkTime)*w.random.NormFloat64()
}

// diffusivity is that of falling drops of an age, with crossing trajectories and Taylor's growth.
func (w *walker) diffusivity(z, v, age float64) float64 {
	k, _ := w.plan.medium.exchange(z)
	_, turbulence := w.plan.medium.exchange(w.plan.height / 2)
	k /= math.Sqrt(1 + (v/turbulence)*(v/turbulence))
	return k * age / (age + k/(turbulence*turbulence))
}

// The room's answer against the random walk over conditions that span height, wind, size, dryness,
// stability and wake: within 15 % of the deposit at 5, 10, 20 and 40 m, and twice the walk's own
// standard error.
func TestLand_agreesWithRandomWalk(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("slow")
	}
	for i, tc := range []struct {
		height, wind, dv05, depression, obukhov float64
		wake                                    bool
	}{
		{3, 3, 250, 6, 0, true},
		{4, 4, 400, 2, 0, false},
		{2, 5, 200, 9, 0, true},
		{2, 2.5, 300, 4, 0.03, true},
		{3, 6, 300, 8, -0.05, true},
	} {
		t.Run(fmt.Sprintf("%+v", tc), func(t *testing.T) {
			t.Parallel()
			f := line(tc.height, tc.wind, tc.dv05)
			if !tc.wake {
				f.rotor = rotor{}
			}
			f.medium.depression, f.medium.obukhov = tc.depression, tc.obukhov
			w := walker{plan: f, wake: f.rotor.below(f.height, f.medium), dry: newDrying(f.medium), random: rand.New(rand.NewPCG(1, uint64(i)))}
			const length = 30
			at := []float64{5, 10, 20, 40}
			want, scatter := w.deposits(at, length)
			l := f.land(200, fine)
			for j, x := range at {
				got := l.deposit(x, length)
				t.Logf("%v m: walk %.3f +- %.3f %%, solved %.3f %%", x, 100*want[j], 100*scatter[j], 100*got)
				assert.InDelta(t, want[j], got, 0.15*want[j]+2*scatter[j], "%v m", x)
			}
		})
	}
}
