package flight

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/units"
)

const kg = units.Kilogram

func TestForwardAtRestIsHover(t *testing.T) {
	t.Parallel()
	m := New(measured(), seaLevelDensity)
	assert.Equal(t, m.Hover(24*kg), m.Forward(24*kg, 0))
	assert.InEpsilon(t, m.Hover(24*kg).SI(), m.Forward(24*kg, 1e-6*units.MeterPerSecond).SI(), 1e-9, "and meets it without a step")
	assert.Equal(t, m.Forward(24*kg, 6*units.MeterPerSecond), m.Forward(24*kg, -6*units.MeterPerSecond), "the direction does not matter")
	assert.Zero(t, m.Forward(0*kg, 6*units.MeterPerSecond))
	assert.Zero(t, m.Hover(-1*kg))
}

// Power dips below hover at spraying speed and rises again, as all three published terms say.
func TestForwardPowerHasOneLow(t *testing.T) {
	t.Parallel()
	m := New(measured(), seaLevelDensity)
	hover := m.Hover(24 * kg)
	assert.Less(t, m.Forward(24*kg, 15*units.MilePerHour), hover)
	assert.Greater(t, m.Forward(24*kg, 60*units.MilePerHour), hover)
	falling := true
	last := hover
	for v := 0.25; v < 40; v += 0.25 {
		p := m.Forward(24*kg, units.Speed(v))
		if p > last {
			falling = false
		}
		require.Equal(t, falling, p < last, "one low only, at %v m/s", v)
		last = p
	}
}

// The terms of forward flight add up as documented.
func TestForwardTerms(t *testing.T) {
	t.Parallel()
	machine := oneHover(0.55)
	machine.DragArea = new(0.30 * units.SquareMeter)
	m := New(machine, seaLevelDensity)
	f := forwardFlow((24 * kg).Weight().SI(), 1.225, machine.Rotors.DiscArea().SI(), 0.30, 10)
	hover := idealHover(f.thrust, 1.225, machine.Rotors.DiscArea().SI()) / 0.55
	want := 0.75*hover*f.induced/f.hover + 0.25*hover*(1+4.65*(10.0/120)*(10.0/120)) + f.parasite/0.744
	assert.InEpsilon(t, want, m.Forward(24*kg, 10*units.MeterPerSecond).SI(), 1e-12)
}

func TestGlauertHolds(t *testing.T) {
	t.Parallel()
	for _, speed := range []float64{0, 0.1, 1, 3, 7, 15, 40, 200, 1e4} {
		f := forwardFlow(235.36, 1.225, 3.311, 0.30, speed)
		sin, cos := math.Sincos(math.Asin(f.drag / f.thrust))
		rhs := f.hover * f.hover / math.Hypot(speed*cos, speed*sin+f.induced)
		assert.InEpsilon(t, rhs, f.induced, 1e-9, "at %v m/s", speed)
	}
	assert.Zero(t, inducedVelocity(0, 5, 0))
}

// simpson integrates power over a falling mass by brute force.
func simpson(m Model, from, to units.Mass, air units.Speed, during units.Duration) float64 {
	const steps = 4000
	var sum float64
	for i := range steps + 1 {
		weight := 2.0
		switch {
		case i == 0 || i == steps:
			weight = 1
		case i%2 == 1:
			weight = 4
		}
		mass := from + units.Mass(float64(to-from)*float64(i)/steps)
		sum += weight * m.Forward(mass, air).SI()
	}
	return (sum/(3*steps) + m.spray) * during.SI()
}

func TestSprayingAgainstNumericIntegration(t *testing.T) {
	t.Parallel()
	cases := []struct {
		name     string
		from, to units.Mass
		air      units.Speed
	}{
		{"hover, closed form", 24 * kg, 14 * kg, 0},
		{"hover, rising mass", 14 * kg, 24 * kg, 0},
		{"hover, nearly one mass", 24 * kg, 23.99 * kg, 0},
		{"hover, one mass", 24 * kg, 24 * kg, 0},
		{"10 mph", 24 * kg, 14 * kg, 10 * units.MilePerHour},
		{"20 mph", 24 * kg, 14 * kg, 20 * units.MilePerHour},
		{"a tank of four times the machine", 50 * kg, 10 * kg, 15 * units.MilePerHour},
	}
	for _, machine := range []Machine{measured(), sprayer(), oneHover(0.5)} {
		m := New(machine, 1.1*units.KilogramPerCubicMeter)
		for _, tc := range cases {
			t.Run(tc.name, func(t *testing.T) {
				assert.InEpsilon(t, simpson(m, tc.from, tc.to, tc.air, 300*units.Second), m.Spraying(tc.from, tc.to, tc.air, 300*units.Second).SI(), 1e-6)
			})
		}
	}
	m := New(measured(), seaLevelDensity)
	assert.Zero(t, m.Spraying(24*kg, 14*kg, 0, 0))
	assert.Positive(t, m.Spraying(24*kg, -1*kg, 0, 10*units.Second).SI(), "a mass below nothing reads as nothing")
}

// Power at full mass times time is far too much and power at the mean mass a little too little.
func TestSprayingLiesBetween(t *testing.T) {
	t.Parallel()
	m := New(oneHover(0.55), seaLevelDensity)
	got := m.Spraying(24*kg, 14*kg, 0, 360*units.Second)
	assert.Less(t, m.Hover(19*kg).During(360*units.Second), got)
	assert.Greater(t, m.Hover(24*kg).During(360*units.Second), got)
}

func TestPumpDrawsWhileSpraying(t *testing.T) {
	t.Parallel()
	machine := measured()
	without := machine
	without.SprayPower = new(units.Power(0))
	with := New(machine, seaLevelDensity).Spraying(24*kg, 14*kg, 5*units.MeterPerSecond, 100*units.Second)
	bare := New(without, seaLevelDensity).Spraying(24*kg, 14*kg, 5*units.MeterPerSecond, 100*units.Second)
	assert.InEpsilon(t, 0.04*2700*100, float64(with-bare), 1e-9, "4 percent of hover power at the maker's maximum")
}

func TestSprayTime(t *testing.T) {
	t.Parallel()
	m := New(measured(), seaLevelDensity)
	const water = 1000 * units.KilogramPerCubicMeter
	rate := 2 * units.LiterPerMinute
	for _, air := range []units.Speed{0, 6 * units.MeterPerSecond} {
		empty := rate.Time(10 * units.Liter)
		all := m.Spraying(24*kg, 14*kg, air, empty)
		assert.InEpsilon(t, empty.SI(), m.SprayTime(24*kg, 14*kg, rate, water, air, all).SI(), 1e-9, "just enough for the tank")
		assert.InEpsilon(t, empty.SI(), m.SprayTime(24*kg, 14*kg, rate, water, air, 2*all).SI(), 1e-9, "the tank ends it")
		half := m.SprayTime(24*kg, 14*kg, rate, water, air, all/2)
		assert.Less(t, half, empty/2, "the first half of the energy goes faster")
		spent := m.Spraying(24*kg, 24*kg-water.Mass(rate.During(half)), air, half)
		assert.InEpsilon(t, float64(all/2), spent.SI(), 1e-9, "the budget is spent, and no more")
	}
	assert.InEpsilon(t, 100, m.SprayTime(24*kg, 14*kg, 0, water, 0, (m.Hover(24*kg)+units.Power(m.spray)).During(100*units.Second)).SI(), 1e-9, "no flow: constant mass")
	assert.Zero(t, m.SprayTime(24*kg, 14*kg, rate, water, 0, 0))
	assert.Zero(t, m.SprayTime(14*kg, 24*kg, rate, water, 0, 1*units.WattHour).SI(), "nothing to spray")
}

func TestHoverTimeClosedForm(t *testing.T) {
	t.Parallel()
	// m1 = (m0^(n+1) - E q (n+1)/K)^(1/(n+1)): the mass at which an energy is used.
	m := New(oneHover(0.55), seaLevelDensity)
	const q, k, budget = 10.0 / 360, 19.6050, 100.0 * 3600
	m1 := math.Pow(math.Pow(24, 2.5)-budget*q*2.5/k, 1/2.5)
	got := m.SprayTime(24*kg, 14*kg, units.Flow(q/1000), 1*units.KilogramPerLiter, 0, units.Energy(budget))
	assert.InEpsilon(t, (24-m1)/q, got.SI(), 1e-5, "K is printed to six digits")
}
