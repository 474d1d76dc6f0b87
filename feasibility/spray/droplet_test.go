package spray

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// measuredNozzle is an invented nozzle with spectra at 2 and 4 bar.
func measuredNozzle() Hydraulic {
	return Hydraulic{
		Type: AirInduction, RatedFlow: 0.15 * gpm, RatedPressure: fortyPSI,
		Spectra: []PressureSpectrum{
			{Pressure: 2 * units.Bar, Dv01: new(200 * um), Dv05: 400 * um, Dv09: new(700 * um)},
			{Pressure: 4 * units.Bar, Dv01: new(150 * um), Dv05: 300 * um, Dv09: new(600 * um)},
		},
	}
}

func sizingOf(h Hydraulic) (sizing, *ledger) {
	log := newLedger()
	return newSizing(h, Job{}, log), log
}

func TestMeasuredSpectraComeBackAtTheirPressures(t *testing.T) {
	t.Parallel()
	h := measuredNozzle()
	z, log := sizingOf(h)
	assert.Empty(t, log.findings)
	for _, r := range h.Spectra {
		d := z.at(r.Pressure)
		assert.InEpsilon(t, r.Dv01.SI(), d.Spectrum.Dv01.SI(), 1e-12)
		assert.InEpsilon(t, r.Dv05.SI(), d.Spectrum.Dv05.SI(), 1e-12)
		assert.InEpsilon(t, r.Dv09.SI(), d.Spectrum.Dv09.SI(), 1e-12)
		assert.True(t, d.Measured)
		assert.Equal(t, measuredUncertainty, d.Uncertainty)
		assert.False(t, z.stretched(r.Pressure))
	}
}

func TestMeasuredSpectraBetweenPressures(t *testing.T) {
	t.Parallel()
	z, _ := sizingOf(measuredNozzle())
	// The geometric middle of the pressures gives the geometric middle of the sizes.
	d := z.at(units.Pressure(2.8284271247461903) * units.Bar)
	assert.InEpsilon(t, 346.41016, d.Spectrum.Dv05.In(um), 1e-6)
	assert.InEpsilon(t, 173.20508, d.Spectrum.Dv01.In(um), 1e-6)
	assert.Equal(t, Coarse, d.Class)
	assert.Contains(t, d.Basis, "measured by the caller")
}

func TestMeasuredSpectraBeyondPressuresFollowTheModel(t *testing.T) {
	t.Parallel()
	z, _ := sizingOf(measuredNozzle())
	// Air induction goes with p^-0.40: twice 4 bar makes 300 um into 300 x 2^-0.4 = 227.36 um.
	d := z.at(8 * units.Bar)
	assert.InDelta(t, 227.36, d.Spectrum.Dv05.In(um), 0.01)
	assert.InEpsilon(t, 0.5, float64(d.Spectrum.Dv01/d.Spectrum.Dv05), 1e-9, "the shape is kept")
	assert.Contains(t, d.Basis, "beyond")
	assert.Greater(t, d.Uncertainty, measuredUncertainty)
	assert.True(t, z.stretched(8*units.Bar))
	assert.InEpsilon(t, 400*1.3195079, z.at(1*units.Bar).Spectrum.Dv05.In(um), 1e-6)
	log := newLedger()
	z.judge(8*units.Bar, log)
	require.Len(t, log.findings, 1)
	assert.Equal(t, CodeSizeStretched, log.findings[0].Code)
	assert.LessOrEqual(t, z.at(units.Pressure(1e30)).Uncertainty, units.Whole)
}

func TestMissingPointsTakeTheDefaultSpan(t *testing.T) {
	t.Parallel()
	h := measuredNozzle()
	h.Spectra = []PressureSpectrum{{Pressure: 3 * units.Bar, Dv05: 300 * um}}
	z, log := sizingOf(h)
	assert.Equal(t, rosinRammler(300*um), z.at(3*units.Bar).Spectrum)
	require.Len(t, log.assumptions, 2)
	assert.Contains(t, log.assumptions[1].Assumed, "relative span 1.3")
}

func TestDisorderedSpectra(t *testing.T) {
	t.Parallel()
	bar := func(p float64, dv05 float64) PressureSpectrum {
		return PressureSpectrum{Pressure: units.Pressure(p) * units.Bar, Dv05: units.Length(dv05) * um}
	}
	crossed := bar(3, 300)
	crossed.Dv01, crossed.Dv09 = new(400*um), new(200*um)
	for _, tc := range []struct {
		name   string
		rows   []PressureSpectrum
		faulty bool
		at3    float64 // Dv0.5 at 3 bar, um
	}{
		{"falling pressures are sorted", []PressureSpectrum{bar(4, 250), bar(3, 300)}, false, 300},
		{"a pressure twice keeps the finer", []PressureSpectrum{bar(3, 300), bar(3, 280)}, true, 280},
		{"a pressure twice keeps the finer, other order", []PressureSpectrum{bar(3, 280), bar(3, 300)}, true, 280},
		{"rising sizes", []PressureSpectrum{bar(3, 300), bar(4, 350)}, true, 300},
		{"points out of order", []PressureSpectrum{crossed}, true, 300},
		{"a row without a size is left out", []PressureSpectrum{bar(2, 0), bar(3, 300)}, true, 300},
	} {
		t.Run(tc.name, func(t *testing.T) {
			t.Parallel()
			h := measuredNozzle()
			h.Spectra = tc.rows
			z, log := sizingOf(h)
			got := z.at(3 * units.Bar).Spectrum
			assert.InEpsilon(t, tc.at3, got.Dv05.In(um), 1e-9)
			assert.LessOrEqual(t, got.Dv01, got.Dv05)
			assert.GreaterOrEqual(t, got.Dv09, got.Dv05)
			assert.Equal(t, tc.faulty, len(log.findings) == 1)
			if tc.faulty {
				assert.Equal(t, CodeSizesDisordered, log.findings[0].Code)
			}
		})
	}
}

func TestUnusableSpectraFallBackToTheModel(t *testing.T) {
	t.Parallel()
	h := measuredNozzle()
	h.Spectra = []PressureSpectrum{{Pressure: 0, Dv05: 300 * um}}
	z, log := sizingOf(h)
	assert.False(t, z.at(3*units.Bar).Measured)
	assert.Equal(t, CodeSizesDisordered, log.findings[0].Code)
}

func TestDeclaredClasses(t *testing.T) {
	t.Parallel()
	h := Hydraulic{
		Type: FlatFan, RatedFlow: 0.15 * gpm, RatedPressure: fortyPSI,
		Classes: []PressureClass{
			{FromPressure: 45 * psi, Class: Fine},
			{FromPressure: 20 * psi, Class: Medium}, // sorted by the room
		},
	}
	z, log := sizingOf(h)
	assert.Empty(t, log.findings)
	for _, tc := range []struct {
		p         units.Pressure
		want      Class
		stretched bool
	}{{10 * psi, Medium, true}, {20 * psi, Medium, false}, {44.9 * psi, Medium, false}, {45 * psi, Fine, false}, {500 * psi, Fine, false}} {
		d := z.at(tc.p)
		assert.Equal(t, tc.want, d.Class, "at %s", inPSI(tc.p))
		assert.Empty(t, d.ClassOther)
		assert.False(t, d.Measured)
		assert.Contains(t, d.Basis, "declared by the caller")
		assert.GreaterOrEqual(t, d.Uncertainty, modelUncertainty)
		assert.Equal(t, tc.stretched, z.stretched(tc.p))
	}
	z.judge(10*psi, log)
	require.Len(t, log.findings, 1)
	assert.Contains(t, log.findings[0].Message, "No droplet class is declared for 10 psi")
}

func TestDisorderedClasses(t *testing.T) {
	t.Parallel()
	h := Hydraulic{Type: FlatFan, RatedFlow: 0.15 * gpm, RatedPressure: fortyPSI}
	for name, rows := range map[string][]PressureClass{
		"coarser with pressure": {{20 * psi, Fine}, {40 * psi, Coarse}},
		"not a class":           {{20 * psi, Fine}, {40 * psi, "mist"}},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			other := h
			other.Classes = rows
			_, log := sizingOf(other)
			require.Len(t, log.findings, 1)
			assert.Equal(t, CodeSizesDisordered, log.findings[0].Code)
		})
	}
}

func TestSurfaceTensionIsSettled(t *testing.T) {
	t.Parallel()
	for _, tc := range []struct {
		name    string
		job     Job
		want    units.SurfaceTension
		assumed bool
	}{
		{"stated", Job{SurfaceTension: new(35 * units.MillinewtonPerMeter)}, 35 * units.MillinewtonPerMeter, false},
		{"stated, useless", Job{SurfaceTension: new(units.SurfaceTension)}, adjuvantedTension, true},
		{"not stated is the finer", Job{}, adjuvantedTension, true},
		{"adjuvant", Job{Adjuvanted: new(true)}, adjuvantedTension, true},
		{"no adjuvant", Job{Adjuvanted: new(false)}, waterTension, true},
	} {
		t.Run(tc.name, func(t *testing.T) {
			t.Parallel()
			log := newLedger()
			assert.Equal(t, tc.want, settleTension(tc.job, log))
			assert.Equal(t, tc.assumed, len(log.assumptions) == 1)
		})
	}
}

func TestFanAngleFactor(t *testing.T) {
	t.Parallel()
	for _, tc := range []struct{ degrees, want float64 }{
		{15, 1.25}, {65, 1.25}, {72.5, 1.205}, {80, 1.16}, {95, 1.08}, {110, 1}, {115, 0.985}, {120, 0.97}, {180, 0.97},
	} {
		assert.InDelta(t, tc.want, angleFactor(units.Angle(tc.degrees)*units.Degree), 1e-9, "%g degrees", tc.degrees)
	}
	wide := ModelDv05(HollowCone, 0.2*gpm, 3*units.Bar, 120*units.Degree, waterTension)
	narrow := ModelDv05(HollowCone, 0.2*gpm, 3*units.Bar, 65*units.Degree, waterTension)
	assert.Equal(t, wide, narrow, "the angle of a hollow cone is in its factor")
}

func TestUnknownFamilyIsTheFinest(t *testing.T) {
	t.Parallel()
	got := ModelDv05("unheard_of", 0.2*gpm, 3*units.Bar, 110*units.Degree, waterTension)
	for _, family := range []NozzleType{FlatFan, PreOrifice, AirInduction, HollowCone} {
		assert.LessOrEqual(t, got, ModelDv05(family, 0.2*gpm, 3*units.Bar, 110*units.Degree, waterTension))
	}
	assert.Equal(t, 30*psi, rangeOf("unheard_of").Min)
}

func TestModelIsLessCertainBeyondItsSpan(t *testing.T) {
	t.Parallel()
	inside, beyond := modelSpread(0.15*gpm, 3*units.Bar)
	assert.Equal(t, modelUncertainty, inside)
	assert.False(t, beyond)
	outside, beyond := modelSpread(0.15*gpm, 12*units.Bar)
	assert.InDelta(t, 0.25+0.2*0.693147, outside.SI(), 1e-6)
	assert.True(t, beyond)
	most, _ := modelSpread(units.Flow(1e9), units.Pressure(1e-9))
	assert.Equal(t, units.Whole, most)
}

// The laws of the default model that the physics demands.
func TestModelLaws(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		family := rapid.SampledFrom([]NozzleType{FlatFan, PreOrifice, AirInduction, HollowCone}).Draw(t, "family")
		size := units.Flow(rapid.Float64Range(0.01, 5).Draw(t, "gpm")) * gpm
		p := units.Pressure(rapid.Float64Range(1, 200).Draw(t, "psi")) * psi
		angle := units.Angle(rapid.Float64Range(20, 160).Draw(t, "degrees")) * units.Degree
		tension := units.SurfaceTension(rapid.Float64Range(20, 73).Draw(t, "mN/m")) * units.MillinewtonPerMeter
		more := rapid.Float64Range(1, 10).Draw(t, "factor")
		base := ModelDv05(family, size, p, angle, tension)
		if ModelDv05(family, size, p*units.Pressure(more), angle, tension) > base {
			t.Fatal("more pressure is coarser")
		}
		if ModelDv05(family, size*units.Flow(more), p, angle, tension) < base {
			t.Fatal("a bigger nozzle is finer")
		}
		if ModelDv05(family, size, p, angle*units.Angle(more), tension) > base {
			t.Fatal("a wider fan is coarser")
		}
		if ModelDv05(family, size, p, angle, tension*units.SurfaceTension(more)) < base {
			t.Fatal("more surface tension is finer")
		}
	})
}

func TestRotaryLaws(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		disc := units.Length(rapid.Float64Range(0.02, 0.3).Draw(t, "m"))
		n := units.RotationRate(rapid.Float64Range(500, 20000).Draw(t, "rpm")) * units.RevolutionPerMinute
		q := units.Flow(rapid.Float64Range(0.01, 5).Draw(t, "L/min")) * lpm
		more := rapid.Float64Range(1, 5).Draw(t, "factor")
		base := RotaryDv05(disc, n, q, waterTension, RatingDensity)
		if RotaryDv05(disc, n*units.RotationRate(more), q, waterTension, RatingDensity) > base {
			t.Fatal("a faster disc is coarser")
		}
		if RotaryDv05(disc, n, q*units.Flow(more), waterTension, RatingDensity) < base {
			t.Fatal("more flow is finer")
		}
		if RotaryDv05(disc, n, q, waterTension/units.SurfaceTension(more), RatingDensity) > base {
			t.Fatal("less surface tension is coarser")
		}
	})
}

// codes lists the codes of findings, for short comparisons.
func codes(found []finding.Finding) []finding.Code {
	out := make([]finding.Code, 0, len(found))
	for _, f := range found {
		out = append(out, f.Code)
	}
	return out
}

func TestStatedFanAngleIsUsed(t *testing.T) {
	t.Parallel()
	s := fan()
	assumed := Hold(s, twoGallons(10))
	s.Hydraulic.FanAngle = new(80 * units.Degree)
	stated := Hold(s, twoGallons(10))
	assert.InEpsilon(t, 1.16, float64(stated.Droplet.Spectrum.Dv05/assumed.Droplet.Spectrum.Dv05), 1e-9)
	assert.Len(t, stated.Assumptions, len(assumed.Assumptions)-1)
}
