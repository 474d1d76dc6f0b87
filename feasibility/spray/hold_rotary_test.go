package spray

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

const rpm = units.RevolutionPerMinute

// spinning is an invented system of two 70 mm discs at 10,000 rpm.
func spinning() System {
	return System{
		Atomizer: RotaryAtomizer, Count: 2,
		Rotary: &Rotary{DiscDiameter: 0.07 * units.Meter, Rotation: 10000 * rpm},
		Pump:   &Pump{MaxFlow: 2 * gpm, MaxPressure: 40 * psi},
	}
}

func TestHoldRotary(t *testing.T) {
	t.Parallel()
	job := twoGallons(10)
	job.SurfaceTension = new(waterTension)
	r := Hold(spinning(), job)
	assert.InDelta(t, 0.5253, r.FlowTotal.In(gpm), 0.00005)
	assert.Nil(t, r.Pressure)
	assert.Nil(t, r.PressureUsed)
	assert.True(t, r.WithinRange)
	assert.Equal(t, job.Rate, r.RateDelivered)
	// 0.994 L/min a disc: Frost gives 134 um at 1 L/min, above Walton and Prewett's 117 um.
	assert.InDelta(t, 134, r.Droplet.Spectrum.Dv05.In(um), 1)
	assert.Equal(t, rotaryUncertainty, r.Droplet.Uncertainty)
	assert.Equal(t, finding.Caution, found(t, r, CodeRotaryDrift).Severity)
	assert.Equal(t, BoundNone, r.SpeedRange.LowestBound)
	assert.Equal(t, BoundPumpFlow, r.SpeedRange.HighestBound)
	assert.InDelta(t, 34.27, r.SpeedRange.Highest.In(units.MilePerHour), 0.005) // 10 x 1.8/0.525253
	require.NotEmpty(t, r.Curve)
	assert.True(t, r.Curve[0].WithinRange)
	assert.False(t, r.Curve[len(r.Curve)-1].WithinRange)
	assert.Nil(t, r.Curve[0].Pressure)
}

func TestHoldRotaryWithoutPump(t *testing.T) {
	t.Parallel()
	s := spinning()
	s.Pump = nil
	r := Hold(s, twoGallons(10))
	assert.Equal(t, SpeedRange{LowestBound: BoundNone, HighestBound: BoundNone}, r.SpeedRange)
	assert.False(t, r.SpeedRange.Empty())
	assert.Equal(t, finding.Caution, found(t, r, CodePumpNotStated).Severity)
	assert.GreaterOrEqual(t, len(r.Curve), 8)
	assert.True(t, r.WithinRange)
}

func TestHoldRotaryBeyondThePump(t *testing.T) {
	t.Parallel()
	s := spinning()
	s.Pump.MaxFlow = 0.5 * gpm
	r := Hold(s, twoGallons(10))
	assert.False(t, r.WithinRange)
	assert.InDelta(t, 2*0.45/0.525253, r.RateDelivered.In(units.GallonPerAcre), 0.0001)
	assert.Equal(t, finding.Stop, found(t, r, CodePumpFlowExceeded).Severity)
	f := found(t, r, CodeRateNotHeld)
	assert.Equal(t, finding.Stop, f.Severity)
	assert.Contains(t, f.Message, "Fly at 8.56 mph or slower.")
}

func TestRotationRange(t *testing.T) {
	t.Parallel()
	for _, tc := range []struct {
		name      string
		low, high units.RotationRate
		used      units.RotationRate
		margin    float64 // rpm; 0: no finding
	}{
		{"inside", 5000 * rpm, 12000 * rpm, 10000 * rpm, 0},
		{"at the top", 5000 * rpm, 10000 * rpm, 10000 * rpm, 0},
		{"above", 5000 * rpm, 8000 * rpm, 8000 * rpm, -2000},
		{"below", 11000 * rpm, 16000 * rpm, 11000 * rpm, -1000},
	} {
		t.Run(tc.name, func(t *testing.T) {
			t.Parallel()
			s := spinning()
			s.Rotary.MinRotation, s.Rotary.MaxRotation = &tc.low, &tc.high
			r := Hold(s, twoGallons(10))
			same := spinning()
			same.Rotary.Rotation = tc.used
			assert.Equal(t, Hold(same, twoGallons(10)).Droplet, r.Droplet, "drops of the disc speed really used")
			assert.Equal(t, tc.margin == 0, r.WithinRange)
			if tc.margin == 0 {
				assert.NotContains(t, codes(r.Findings), CodeRotationOutOfRange)
				return
			}
			f := found(t, r, CodeRotationOutOfRange)
			assert.Equal(t, finding.Stop, f.Severity)
			assert.InDelta(t, tc.margin, f.Margin.(units.RotationRate).In(rpm), 1e-5)
			assert.False(t, r.Curve[0].WithinRange)
		})
	}
}

func TestRotaryMeasuredSpectra(t *testing.T) {
	t.Parallel()
	s := spinning()
	s.Rotary.Spectra = []RotationSpectrum{
		{Rotation: 8000 * rpm, Dv01: new(100 * um), Dv05: 200 * um, Dv09: new(320 * um)},
		{Rotation: 10000 * rpm, Dv01: new(80 * um), Dv05: 160 * um, Dv09: new(280 * um)},
	}
	r := Hold(s, twoGallons(10))
	assert.True(t, r.Droplet.Measured)
	assert.InDelta(t, 160, r.Droplet.Spectrum.Dv05.In(um), 1e-9)
	assert.NotContains(t, codes(r.Findings), CodeSizeStretched)
	s.Rotary.Rotation = 16000 * rpm
	r = Hold(s, twoGallons(10))
	assert.InDelta(t, 100, r.Droplet.Spectrum.Dv05.In(um), 1e-9, "size goes as one over disc speed")
	assert.Equal(t, atDiscSpectra, found(t, r, CodeSizeStretched).Subject)
	s.Rotary.Spectra[1].Dv05 = 250 * um
	assert.Equal(t, atDiscSpectra, found(t, Hold(s, twoGallons(10)), CodeSizesDisordered).Subject)
}

func TestRotaryFlowInSheets(t *testing.T) {
	t.Parallel()
	s := spinning()
	s.Pump = nil
	r := Hold(s, twoGallons(100)) // 9.9 L/min a disc, over 6.6
	f := found(t, r, CodeSizeStretched)
	assert.Contains(t, f.Message, "sheets")
	assert.NotContains(t, codes(Hold(s, twoGallons(10)).Findings), CodeSizeStretched)
}
