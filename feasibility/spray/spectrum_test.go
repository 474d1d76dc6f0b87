package spray

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"tractcheck/feasibility/units"
)

func TestSpectrumPassesThroughItsPoints(t *testing.T) {
	t.Parallel()
	for name, s := range map[string]Spectrum{
		"rosin-rammler": rosinRammler(236 * um),
		"skewed":        {Dv01: 90 * um, Dv05: 200 * um, Dv09: 700 * um},
		"narrow":        {Dv01: 195 * um, Dv05: 200 * um, Dv09: 206 * um},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			assert.InDelta(t, 0.1, s.VolumeBelow(s.Dv01).SI(), 1e-12)
			assert.InDelta(t, 0.5, s.VolumeBelow(s.Dv05).SI(), 1e-12)
			assert.InDelta(t, 0.9, s.VolumeBelow(s.Dv09).SI(), 1e-12)
			assert.InEpsilon(t, s.Dv01.SI(), s.Quantile(0.1).SI(), 1e-12)
			assert.InEpsilon(t, s.Dv05.SI(), s.Quantile(0.5).SI(), 1e-12)
			assert.InEpsilon(t, s.Dv09.SI(), s.Quantile(0.9).SI(), 1e-12)
		})
	}
}

func TestSpectrumIsRosinRammlerThroughout(t *testing.T) {
	t.Parallel()
	s := rosinRammler(300 * um)
	for _, d := range []float64{1, 10, 75, 150, 299, 301, 500, 900} {
		// F(D) = 1 - exp[-ln 2 (D/Dv0.5)^q]
		want := 1 - math.Exp(-math.Ln2*math.Pow(d/300, defaultExponent))
		assert.InDelta(t, want, s.VolumeBelow(units.Length(d)*um).SI(), 1e-12, "%g um", d)
	}
}

func TestDegenerateSpectra(t *testing.T) {
	t.Parallel()
	for name, s := range map[string]Spectrum{
		"all one size":  {Dv01: 200 * um, Dv05: 200 * um, Dv09: 200 * um},
		"no fine side":  {Dv01: 200 * um, Dv05: 200 * um, Dv09: 400 * um},
		"no coarse":     {Dv01: 100 * um, Dv05: 200 * um, Dv09: 200 * um},
		"out of order":  {Dv01: 300 * um, Dv05: 200 * um, Dv09: 100 * um},
		"middle only":   {Dv05: 200 * um},
		"absurdly wide": {Dv01: 1e-15, Dv05: 200 * um, Dv09: 1e3},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			last := units.Proportion(-1)
			for _, d := range []float64{0.001, 1, 50, 150, 199, 199.9, 200, 200.1, 201, 400, 1e4, 1e12} {
				got := s.VolumeBelow(units.Length(d) * um)
				assert.True(t, units.Finite(got))
				assert.GreaterOrEqual(t, got, last)
				assert.LessOrEqual(t, got, units.Whole)
				last = got
			}
			assert.InDelta(t, 0.5, s.VolumeBelow(200*um).SI(), 1e-12)
			for _, p := range []units.Proportion{-1, 0, 1e-15, 0.01, 0.3, 0.5, 0.7, 0.99, 1, 2} {
				assert.True(t, units.Finite(s.Quantile(p)), "quantile of %v", p)
			}
			assert.InDelta(t, 0.3, s.VolumeBelow(s.Quantile(0.3)).SI(), 1e-9)
			assert.InDelta(t, 0.7, s.VolumeBelow(s.Quantile(0.7)).SI(), 1e-9)
		})
	}
}

func TestSpectrumOfNothing(t *testing.T) {
	t.Parallel()
	var s Spectrum
	assert.Zero(t, s.VolumeBelow(150*um))
	assert.Zero(t, s.Quantile(0.5))
	assert.Zero(t, rosinRammler(100*um).VolumeBelow(0))
	assert.Zero(t, rosinRammler(100*um).VolumeBelow(-1))
}

func TestQuantileStaysFiniteWhereTheScaleEnds(t *testing.T) {
	t.Parallel()
	s := Spectrum{Dv01: 1e-300, Dv05: 1, Dv09: 1e300}
	assert.True(t, units.Finite(s.Quantile(1)))
	assert.True(t, units.Finite(s.Quantile(0)))
}

// drawSpectrum draws three rising points of any usual or odd shape.
func drawSpectrum(t *rapid.T) Spectrum {
	middle := rapid.Float64Range(1, 2000).Draw(t, "Dv0.5 um")
	down := rapid.Float64Range(1, 20).Draw(t, "Dv0.5/Dv0.1")
	up := rapid.Float64Range(1, 20).Draw(t, "Dv0.9/Dv0.5")
	return Spectrum{
		Dv01: units.Length(middle/down) * um, Dv05: units.Length(middle) * um, Dv09: units.Length(middle*up) * um,
	}
}

func TestVolumeBelowAndQuantileAreInverses(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s := drawSpectrum(t)
		p := rapid.Float64Range(1e-6, 1-1e-6).Draw(t, "share")
		back := s.VolumeBelow(s.Quantile(units.Proportion(p))).SI()
		if math.Abs(back-p) > 1e-9 {
			t.Fatalf("VolumeBelow(Quantile(%g)) = %g for %+v", p, back, s)
		}
	})
}

func TestVolumeBelowRises(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s := drawSpectrum(t)
		a := units.Length(rapid.Float64Range(0, 5000).Draw(t, "a um")) * um
		b := units.Length(rapid.Float64Range(0, 5000).Draw(t, "b um")) * um
		if a > b {
			a, b = b, a
		}
		if s.VolumeBelow(a) > s.VolumeBelow(b) {
			t.Fatalf("VolumeBelow falls from %v to %v for %+v", a, b, s)
		}
	})
}
