package flight

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tractcheck/feasibility/units"
)

// absurd draws a positive number from 1e-6 to 1e9.
func absurd(t *rapid.T, label string) float64 {
	return math.Pow(10, rapid.Float64Range(-6, 9).Draw(t, label))
}

// maybe draws a positive quantity of any size, or nil.
func maybe[Q ~float64](t *rapid.T, label string) *Q {
	if !rapid.Bool().Draw(t, "states "+label) {
		return nil
	}
	return new(Q(absurd(t, label)))
}

func anyMachine(t *rapid.T) Machine {
	m := Machine{
		BatteryEnergy:  units.Energy(absurd(t, "energy")),
		UsableShare:    maybe[units.Proportion](t, "usable"),
		DragArea:       maybe[units.Area](t, "drag area"),
		EmptyEndurance: maybe[units.Duration](t, "empty endurance"),
		FullEndurance:  maybe[units.Duration](t, "full endurance"),
		EmptyMass:      units.Mass(absurd(t, "empty mass")),
		FullMass:       units.Mass(absurd(t, "full mass")),
		SprayPower:     maybe[units.Power](t, "spray power"),
	}
	if rapid.Bool().Draw(t, "states rotors") {
		m.Rotors = &Rotors{
			Count:    units.Count(rapid.IntRange(1, 1000).Draw(t, "rotors")),
			Diameter: units.Length(absurd(t, "diameter")),
			Coaxial:  rapid.Bool().Draw(t, "coaxial"),
		}
	}
	return m
}

// plausible draws a machine as they are built and a pair of hover times near what it would do.
func plausible(t *rapid.T) Machine {
	full := rapid.Float64Range(10, 100).Draw(t, "full kg")
	m := Machine{
		BatteryEnergy: units.Energy(rapid.Float64Range(12, 30).Draw(t, "Wh per kg")*full) * units.WattHour,
		EmptyMass:     units.Mass(full*rapid.Float64Range(0.4, 0.8).Draw(t, "empty share")) * units.Kilogram,
		FullMass:      units.Mass(full) * units.Kilogram,
		Rotors:        &Rotors{Count: units.Count(2 * rapid.IntRange(2, 4).Draw(t, "pairs")), Coaxial: rapid.Bool().Draw(t, "coaxial")},
	}
	discs := float64(m.Rotors.Count)
	if m.Rotors.Coaxial {
		discs /= 2
	}
	loading := rapid.Float64Range(10, 18).Draw(t, "kg/m2")
	m.Rotors.Diameter = units.Length(math.Sqrt(full / loading / discs * 4 / math.Pi))
	if rapid.Bool().Draw(t, "states full endurance") {
		m.FullEndurance = new(units.Duration(rapid.Float64Range(5, 12).Draw(t, "full min")) * units.Minute)
	}
	if rapid.Bool().Draw(t, "states empty endurance") {
		m.EmptyEndurance = new(units.Duration(rapid.Float64Range(12, 25).Draw(t, "empty min")) * units.Minute)
	}
	return m
}

func TestAnyMachineIsFinite(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		m := New(anyMachine(t), units.Density(absurd(t, "density")))
		from, to := units.Mass(absurd(t, "from")), units.Mass(absurd(t, "to"))
		air, during := units.Speed(absurd(t, "speed")), units.Duration(absurd(t, "time"))
		spent := m.Spraying(from, to, air, during)
		for label, x := range map[string]float64{
			"usable":     m.Usable.SI(),
			"disc area":  m.DiscArea.SI(),
			"efficiency": m.Efficiency.SI(),
			"hover":      m.Hover(from).SI(),
			"forward":    m.Forward(from, air).SI(),
			"endurance":  m.Endurance(from).SI(),
			"climb":      m.Climb(from, units.Length(absurd(t, "height"))).SI(),
			"spraying":   spent.SI(),
			"spray time": m.SprayTime(max(from, to), min(from, to), units.Flow(absurd(t, "flow")), 1*units.KilogramPerLiter, air, m.Usable).SI(),
		} {
			require.False(t, math.IsNaN(x) || math.IsInf(x, 0), "%s is %v", label, x)
			require.GreaterOrEqual(t, x, 0.0, "%s", label)
		}
		for _, f := range m.Findings {
			for _, q := range []units.Quantity{f.Measured, f.Limit, f.Margin} {
				require.True(t, q == nil || !math.IsNaN(q.SI()) && !math.IsInf(q.SI(), 0), "%s: %v", f.Code, q)
			}
		}
	})
}

func TestHeavierNeverFliesLonger(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		m := New(anyMachine(t), units.Density(absurd(t, "density")))
		light := units.Mass(absurd(t, "mass"))
		heavy := light * units.Mass(rapid.Float64Range(1, 10).Draw(t, "times"))
		require.LessOrEqual(t, float64(m.Endurance(heavy)), float64(m.Endurance(light)))
		air := units.Speed(rapid.Float64Range(0, 30).Draw(t, "speed"))
		require.LessOrEqual(t, m.Forward(light, air).SI(), m.Forward(heavy, air).SI()*(1+1e-12))
	})
}

func TestThinnerAirNeverHoversCheaper(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		machine := anyMachine(t)
		density := units.Density(rapid.Float64Range(0.5, 1.5).Draw(t, "density"))
		thinner := density * units.Density(rapid.Float64Range(0.5, 1).Draw(t, "thinner"))
		dense, thin := New(machine, density), New(machine, thinner)
		mass := machine.FullMass
		require.GreaterOrEqual(t, float64(thin.Hover(mass)), float64(dense.Hover(mass)))
		require.LessOrEqual(t, float64(thin.Endurance(mass)), float64(dense.Endurance(mass)))
	})
}

// Whatever was measured and believed comes back, or a little less is promised.
func TestCalibrationNeverPromisesMoreThanMeasured(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		machine := plausible(t)
		machine.UsableShare = new(units.Whole)
		m := New(machine, seaLevelDensity)
		for _, p := range machine.points() {
			p.ideal = discsOf(machine).idealPower(p.mass)
			if p.efficiency() > 1 {
				continue
			}
			got := m.Hover(units.Mass(p.mass)).SI()
			require.GreaterOrEqual(t, got, p.power*(1-1e-12))
			if m.law.exponent > leastExponent && m.law.exponent < mostExponent {
				require.InEpsilon(t, p.power, got, 1e-12, "%s", p.subject)
			}
		}
	})
}

func TestSprayingAddsUp(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		machine := plausible(t)
		m := New(machine, units.Density(rapid.Float64Range(0.8, 1.3).Draw(t, "density")))
		air := units.Speed(rapid.Float64Range(0, 12).Draw(t, "speed"))
		part := units.Mass(rapid.Float64Range(0.05, 0.95).Draw(t, "part"))
		middle := machine.FullMass + part*(machine.EmptyMass-machine.FullMass)
		whole := m.Spraying(machine.FullMass, machine.EmptyMass, air, 300*units.Second)
		first := m.Spraying(machine.FullMass, middle, air, 300*units.Duration(part))
		second := m.Spraying(middle, machine.EmptyMass, air, 300*units.Duration(1-part))
		require.InEpsilon(t, whole.SI(), (first + second).SI(), 1e-6, "two legs cost what one does")
		require.GreaterOrEqual(t, whole.SI()*(1+1e-9), m.Spraying(machine.EmptyMass, machine.EmptyMass, air, 300*units.Second).SI())
		require.LessOrEqual(t, whole.SI(), m.Spraying(machine.FullMass, machine.FullMass, air, 300*units.Second).SI()*(1+1e-9))
	})
}

func TestSprayTimeSpendsTheBudget(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		machine := plausible(t)
		m := New(machine, 1.15*units.KilogramPerCubicMeter)
		air := units.Speed(rapid.Float64Range(0, 12).Draw(t, "speed"))
		flow := units.Flow(rapid.Float64Range(0.1, 10).Draw(t, "L/min")) * units.LiterPerMinute
		budget := m.Usable * units.Energy(rapid.Float64Range(0.01, 1).Draw(t, "share"))
		got := m.SprayTime(machine.FullMass, machine.EmptyMass, flow, 1*units.KilogramPerLiter, air, budget)
		left := machine.FullMass - (1 * units.KilogramPerLiter).Mass(flow.During(got))
		spent := m.Spraying(machine.FullMass, left, air, got)
		require.LessOrEqual(t, spent.SI(), budget.SI()*(1+1e-6), "never over the budget")
		if left > machine.EmptyMass*(1+1e-9) {
			require.InEpsilon(t, budget.SI(), spent.SI(), 1e-6, "liquid is left only when the budget is spent")
		}
	})
}
