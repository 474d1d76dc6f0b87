package air

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tractcheck/feasibility/units"
)

func TestNeutralProfile(t *testing.T) {
	t.Parallel()
	s := State{Roughness: 3 * units.Centimeter}
	s.FrictionVelocity = units.Speed(karman * 3 / s.profile(10*units.Meter))
	for _, r := range published(t, "wind-profile.csv") {
		got := s.WindAt(units.Length(r.number(t, "height_m"))).SI()
		if r["law"] == "power" {
			assert.InEpsilon(t, r.number(t, "speed_m_s"), got, 0.09, "the power law stands within 9 %% of the logarithm at 2 m")
			continue
		}
		assert.InDelta(t, r.number(t, "speed_m_s"), got, 0.0005, "wind at %s m, m/s", r["height_m"])
		assert.InDelta(t, r.number(t, "friction_velocity_m_s"), s.FrictionVelocity.SI(), 0.00005, "friction velocity, m/s")
	}
}

func TestStabilityTermIsSmooth(t *testing.T) {
	t.Parallel()
	const step = 1e-6
	for _, joint := range []float64{0, 1} {
		below, at, above := stabilityTerm(joint-step), stabilityTerm(joint), stabilityTerm(joint+step)
		assert.InDelta(t, at, below, 1e-5, "no jump at %v", joint)
		assert.InDelta(t, at, above, 1e-5, "no jump at %v", joint)
	}
	assert.Zero(t, stabilityTerm(0))
	assert.Positive(t, stabilityTerm(-1), "unstable air evens the wind out")
	assert.InDelta(t, -5, stabilityTerm(1), 1e-12)
}

func TestProfileIntegratesItsGradient(t *testing.T) {
	t.Parallel()
	// d(profile)/dz = phi(z/L)/z, with phi = 1 + 5 zeta, 6, and (1 - 16 zeta)^-1/4 (Dyer 1974; Webb 1970).
	phi := func(zeta float64) float64 {
		switch {
		case zeta > 1:
			return 6
		case zeta >= 0:
			return 1 + 5*zeta
		default:
			x := (1 - 16*zeta)
			return 1 / math.Sqrt(math.Sqrt(x))
		}
	}
	for _, inverse := range []PerLength{-0.2, -0.03, 0, 0.03, 0.09, 0.5} {
		const steps = 20000
		low, high := 0.03, 20.0
		sum, width := 0.0, (high-low)/steps
		for i := range steps {
			z := low + (float64(i)+0.5)*width
			sum += phi(z*float64(inverse)) / z * width
		}
		assert.InEpsilon(t, sum, logProfile(units.Length(high), units.Length(low), inverse), 1e-4, "1/L %v", inverse)
	}
}

func TestWindPassesThroughTheMeter(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(r *rapid.T) {
		o := someObservation(r)
		s := Observe(o)
		require.InDelta(r, o.WindSpeed.SI(), s.WindAt(s.WindHeight).SI(), 1e-9)
		stop := s.Displacement + s.Roughness
		require.Zero(r, s.WindAt(stop))
		require.Zero(r, s.WindAt(0))
		require.Zero(r, s.WindAt(-1))
		low := units.Length(rapid.Float64Range(0, 50).Draw(r, "low"))
		high := low + units.Length(rapid.Float64Range(0, 50).Draw(r, "higher by"))
		require.GreaterOrEqual(r, s.WindAt(high), s.WindAt(low), "wind never falls with height")
		require.GreaterOrEqual(r, s.WindAt(low), units.Speed(0))

		stronger := o
		stronger.WindSpeed = o.WindSpeed + units.Speed(rapid.Float64Range(0, 5).Draw(r, "stronger by"))
		stronger.Lapse, o.Lapse = nil, nil
		if a, b := Observe(o), Observe(stronger); a.Stability == b.Stability {
			require.GreaterOrEqual(r, b.WindAt(high), a.WindAt(high), "more wind is never less")
		}
	})
}

func TestZeroStateHasNoWind(t *testing.T) {
	t.Parallel()
	assert.Zero(t, State{}.WindAt(10))
}

func TestMeterHeight(t *testing.T) {
	t.Parallel()
	corn, soil := 8*units.Foot, units.Length(0)
	cases := []struct {
		name    string
		crop    units.Length
		height  *units.Length
		want    units.Length
		assumed bool
		warned  bool
	}{
		{"stated above the crop", corn, new(12 * units.Foot), 12 * units.Foot, false, false},
		{"not stated", corn, nil, corn + 2*units.Meter, true, false},
		{"inside the crop", corn, new(6 * units.Foot), corn + 2*units.Meter, false, true},
		{"at the top of the crop", corn, &corn, corn + 2*units.Meter, false, true},
		{"on bare ground", soil, new(units.Foot), units.Foot, false, false},
		{"lying on bare ground", soil, new(units.Length(1e-9)), 2 * units.Meter, false, true},
	}
	for _, tc := range cases {
		t.Run(tc.name, func(t *testing.T) {
			o := fairDay()
			o.CropHeight, o.WindHeight = &tc.crop, tc.height
			s := Observe(o)
			assert.InDelta(t, tc.want.SI(), s.WindHeight.SI(), 1e-12)
			assert.Equal(t, tc.assumed, assumes(s, "/weather/wind_height"))
			assert.Equal(t, tc.warned, found(s, CodeWindHeightInCrop) != nil)
			assert.InDelta(t, o.WindSpeed.SI(), s.WindAt(tc.want).SI(), 1e-9)
		})
	}
}

func TestUnstatedMeterIsTheCarefulReading(t *testing.T) {
	t.Parallel()
	// Against a wind measured at 10 m, the height of weather stations, the default gives more wind
	// at every height of release.
	o := fairDay()
	o.WindHeight = nil
	careful := Observe(o)
	o.WindHeight = new(10 * units.Meter)
	station := Observe(o)
	for height := 2 * units.Meter; height < 20*units.Meter; height++ {
		assert.Greater(t, careful.WindAt(height), station.WindAt(height), "at %v", height)
	}
}

func TestGust(t *testing.T) {
	t.Parallel()
	o := fairDay()
	assert.Equal(t, *o.Gust, Observe(o).Gust)
	o.Gust = new(7.9 * units.MilePerHour)
	s := Observe(o)
	assert.Equal(t, o.WindSpeed, s.Gust)
	assert.NotNil(t, found(s, CodeGustBelowWind))
	o.Gust = &o.WindSpeed
	assert.Nil(t, found(Observe(o), CodeGustBelowWind), "a gust of the mean wind is none")
	o.Gust = nil
	s = Observe(o)
	assert.Equal(t, o.WindSpeed, s.Gust)
	assert.True(t, assumes(s, "/weather/gust"))
}

func TestSurface(t *testing.T) {
	t.Parallel()
	o := fairDay()
	o.CropHeight = new(units.Meter)
	s := Observe(o)
	assert.InDelta(t, 0.67, s.Displacement.SI(), 1e-12)
	assert.InDelta(t, 0.123, s.Roughness.SI(), 1e-12)
	o.CropHeight = new(units.Length(0))
	s = Observe(o)
	assert.Zero(t, s.Displacement)
	assert.InDelta(t, 0.005, s.Roughness.SI(), 1e-12, "smooth bare ground")
	o.CropHeight = nil
	s = Observe(o)
	assert.Equal(t, DefaultCropHeight, s.CropHeight)
	assert.InDelta(t, 0.03, s.Roughness.SI(), 0.005, "open flat grass of Davenport, to the printed digit")
}
