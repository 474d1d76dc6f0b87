package drift

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// A track passes through its steps, never falls between them, and its integral is that of what it reads.
func TestTrack_readsBetweenItsSteps(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		var track track
		track.begin(rapid.Float64Range(0, 5).Draw(t, "nearest"))
		x, share := track.distance[0], 0.0
		for range rapid.IntRange(1, 20).Draw(t, "steps") {
			x += rapid.Float64Range(0.01, 30).Draw(t, "further")
			share += (1 - share) * rapid.Float64Range(0, 0.9).Draw(t, "landed")
			track.add(x, share)
		}
		track.slope()
		at, sum := cursor{track: &track}, cursor{track: &track}
		read, numeric := 0.0, 0.0
		const parts = 4000
		end := track.distance[track.steps-1] + 1
		for i := range parts {
			z := (float64(i) + 1) / parts * end
			got := at.landed(z)
			require.GreaterOrEqual(t, got, read-1e-12)
			numeric += (got + read) / 2 * end / parts
			read = got
		}
		require.InDelta(t, track.share[track.steps-1], read, 1e-12)
		require.InDelta(t, numeric, sum.integral(end), 2e-3*end)
		nodes := cursor{track: &track}
		for i := range track.steps {
			require.InDelta(t, track.share[i], nodes.landed(track.distance[i]), 1e-9)
		}
	})
}

// Steps that come no further are put with the one before, and the end lies beyond.
func TestTrack_add(t *testing.T) {
	t.Parallel()
	var track track
	track.begin(0)
	track.add(2, 0.5)
	track.add(1, 0.6)
	track.add(3, 0.55)
	track.end()
	require.Equal(t, 4, track.steps)
	assert.Equal(t, []float64{0, 2, 3, 4}, track.distance[:4])
	assert.Equal(t, []float64{0, 0.6, 0.6, 1}, track.share[:4])
}

// Where the air hardly mixes, a puff is a drop: it comes down at its terminal speed and is carried by the
// wind on its way, here by the integral of the log profile, (u*/k) ((z+z0) (ln((z+z0)/z0) - 1)), over the
// speed.
func TestDescend_inStillAirIsTheFallOfADrop(t *testing.T) {
	t.Parallel()
	f := unaided(4, 3, 300)
	f.medium.friction, f.medium.depression = leastFriction, 0
	var s flight
	s.land(f, newLanding(50), resolution{classes: 12, below: 24, above: 5, widening: 1.02, growth: 1.5, parts: 8})
	v := f.speeds.speed(300e-6)
	p := s.descend(300e-6, v)
	require.Less(t, p.height, 1.0)
	assert.InEpsilon(t, (4-p.height)/v, p.time, 0.01)
	profile := func(z float64) float64 {
		z += f.medium.base
		return z * (math.Log(z/f.medium.base) - 1)
	}
	friction := 3 * vonKarman / math.Log(10/f.medium.base)
	assert.InEpsilon(t, friction/vonKarman*(profile(4)-profile(p.height))/v, p.way, 0.01)
	assert.Less(t, math.Sqrt(p.variance), 0.1)
	assert.Positive(t, p.lean, "lower drops have come less far")
}

// A start shares one whole, at the heights and ways of its puff.
func TestStart_sharesOneWhole(t *testing.T) {
	t.Parallel()
	g := gridOf(4, neutral(3), fine)
	p := puff{height: 2, variance: 0.25, way: 12, lean: 0.4, time: 3}
	s := g.start(p)
	var settled, mixed, height, way float64
	for j := range g.cells {
		settled, mixed = settled+s.settled[j], mixed+s.mixed[j]
		height, way = height+s.settled[j]*g.bottom[j+1], way+s.settledWay[j]
	}
	assert.InDelta(t, 1, settled, 1e-12)
	assert.InDelta(t, 1, mixed, 1e-12)
	assert.InDelta(t, p.height, height, 0.02)
	assert.InDelta(t, p.way, way, 1e-9)
	assert.InDelta(t, p.way-clearOfGround*p.lean/math.Sqrt(p.variance), s.nearest, 1e-9)
}
