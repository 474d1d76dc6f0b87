package flight

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tractcheck/feasibility/units"
)

// drawnModel draws a machine of 5 to 150 kg, calibrated or not, in air of any altitude.
func drawnModel(t *rapid.T) (m Model, dry, full units.Mass) {
	dry = units.Mass(rapid.Float64Range(5, 80).Draw(t, "dry, kg"))
	full = dry * units.Mass(rapid.Float64Range(1.05, 4).Draw(t, "full over dry"))
	machine := Machine{
		Rotors:        &Rotors{Count: 6, Diameter: units.Length(rapid.Float64Range(0.4, 1.6).Draw(t, "rotor, m"))},
		BatteryEnergy: units.Energy(rapid.Float64Range(200, 3000).Draw(t, "battery, Wh")) * units.WattHour,
		EmptyMass:     dry, FullMass: full,
	}
	if rapid.Bool().Draw(t, "measured") {
		machine.FullEndurance = new(units.Duration(rapid.Float64Range(4, 20).Draw(t, "full, min")) * units.Minute)
	}
	return New(machine, units.Density(rapid.Float64Range(0.8, 1.3).Draw(t, "air, kg/m3"))), dry, full
}

// A curve stands for the model: power and spraying energy agree to the stated part.
func TestCurveAgreesWithTheModel(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		m, dry, full := drawnModel(t)
		air := units.Speed(rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(0.1, 25)).Draw(t, "air, m/s"))
		c := m.Curve(dry, full, air)
		at := func(label string) units.Mass {
			return dry + (full-dry)*units.Mass(rapid.Float64Range(0, 1).Draw(t, label))
		}
		from, to, during := at("from"), at("to"), 300*units.Second
		want := m.Forward(from, air)
		require.InDelta(t, want.SI(), c.At(from).SI(), 1e-7*want.SI())
		energy := m.Spraying(from, to, air, during)
		require.InDelta(t, energy.SI(), c.Spraying(from, to, during).SI(), 1e-6*energy.SI(), "the model's own quadrature is good to a millionth")
	})
}

// Outside of its masses, and where there can be no series, the curve is the model itself.
func TestCurveOutsideItsMasses(t *testing.T) {
	t.Parallel()
	m := New(Machine{Rotors: &Rotors{Count: 6, Diameter: 0.8382}, BatteryEnergy: 900 * units.WattHour, EmptyMass: 14, FullMass: 24}, 1.225)
	for name, tc := range map[string]struct {
		least, most, at units.Mass
	}{
		"too light":     {14, 24, 7},
		"too heavy":     {14, 24, 48},
		"one mass":      {14, 14, 14},
		"turned around": {24, 14, 20},
		"no mass":       {0, 24, 20},
		"too wide":      {0.001, 24, 20},
		"endless":       {14, units.Mass(math.Inf(1)), 20},
	} {
		t.Run(name, func(t *testing.T) {
			c := m.Curve(tc.least, tc.most, 7)
			require.Equal(t, m.Forward(tc.at, 7), c.At(tc.at))
			require.Equal(t, m.Spraying(tc.at, tc.at/2, 7, 60), c.Spraying(tc.at, tc.at/2, 60))
		})
	}
	c := m.Curve(14, 24, 7)
	require.Zero(t, c.Spraying(24, 14, 0))
	nothing := Model{}.Curve(14, 24, 7)
	require.Zero(t, nothing.At(20))
	require.Zero(t, nothing.Spraying(24, 14, 60))
}

func BenchmarkCurve(b *testing.B) {
	m := New(Machine{Rotors: &Rotors{Count: 6, Diameter: 0.8382}, BatteryEnergy: 900 * units.WattHour, EmptyMass: 14, FullMass: 24}, 1.225)
	b.Run("make", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			m.Curve(14, 24, 7)
		}
	})
	b.Run("spraying", func(b *testing.B) {
		c := m.Curve(14, 24, 7)
		b.ReportAllocs()
		for b.Loop() {
			c.Spraying(23, 15, 60)
		}
	})
}
