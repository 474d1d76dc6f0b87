package drift

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Small changes make small changes: over random conditions, drop size, wind and height are swept in steps
// of 0.2 %, and the deposits over 0.05 % of the rate are compared from step to step. What a finer flight
// gives changes by about 1 % a step; the rest is the solution's own, from steps and cells that change.
func TestDeposit_hasNoJumps(t *testing.T) {
	t.Parallel()
	sweeps, steps := 150, 12
	if testing.Short() {
		sweeps = 30
	}
	random := rand.New(rand.NewPCG(11, 11))
	for _, factor := range []struct {
		name   string
		change func(*condition)
	}{
		{"drop size", func(c *condition) { c.dv05 *= 1.002 }},
		{"wind", func(c *condition) { c.wind *= 1.002 }},
		{"height", func(c *condition) { c.height *= 1.002 }},
	} {
		compared, over := 0, 0
		worst := 0.0
		for range sweeps {
			c := draw(random)
			var last [4]float64
			for i := range steps {
				l := c.plan().land(farthestBuffer+c.length, fine)
				for j, x := range walkAt {
					got := l.deposit(x, c.length)
					if i > 0 && min(got, last[j]) > floor {
						jump := math.Abs(math.Log(got / last[j]))
						compared++
						worst = max(worst, jump)
						if jump > 0.05 {
							over++
							t.Logf("%+v at %v m: %.4f %% to %.4f %%", c, x, 100*last[j], 100*got)
						}
					}
					last[j] = got
				}
				factor.change(&c)
			}
		}
		t.Logf("%s: %d of %d steps change a deposit by over 5 %%, worst %.1f %%", factor.name, over, compared, 100*worst)
		require.Greater(t, compared, 10*sweeps)
		assert.LessOrEqual(t, over, compared/2000, factor.name)
		assert.Less(t, worst, 0.10, factor.name)
	}
}

// What cells, steps and classes cost: the deposits of the answer over random conditions against flights
// of some thirty times the work.
func TestLand_standsNearFinerFlights(t *testing.T) {
	t.Parallel()
	count := 300
	if testing.Short() {
		count = 40
	}
	finer := resolution{classes: 40, below: 20, above: 10, widening: 1.1, growth: 1.12, parts: 20}
	random := rand.New(rand.NewPCG(12, 12))
	compared, over := 0, 0
	square, worst := 0.0, 0.0
	for range count {
		c := draw(random)
		f := c.plan()
		got := f.land(farthestBuffer+c.length, fine)
		f.count = split(sprayOf(c.dv05), finer.classes, &f.classes)
		want := f.land(farthestBuffer+c.length, finer)
		for _, x := range walkAt {
			if want.deposit(x, c.length) < floor {
				continue
			}
			off := math.Abs(got.deposit(x, c.length)/want.deposit(x, c.length) - 1)
			compared++
			square += off * off
			worst = max(worst, off)
			if off > 0.15 {
				over++
			}
		}
	}
	rms := math.Sqrt(square / float64(compared))
	t.Logf("%d deposits: root mean square %.1f %%, %d off by over 15 %%, worst %.0f %%", compared, 100*rms, over, 100*worst)
	assert.Less(t, rms, 0.06)
	assert.LessOrEqual(t, over, compared/100)
}
