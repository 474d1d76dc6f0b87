package flight

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// sprayer is an invented machine: six rotors, 30 lb empty, 54 lb full, 450 Wh.
func sprayer() Machine {
	return Machine{
		Rotors:        &Rotors{Count: 6, Diameter: 0.84 * units.Meter},
		BatteryEnergy: 450 * units.WattHour,
		EmptyMass:     30 * units.Pound,
		FullMass:      54 * units.Pound,
	}
}

// measured is the sprayer with both hover times: power grows with the power 1.5 of mass.
func measured() Machine {
	m := sprayer()
	m.EmptyEndurance = new(24 * units.Minute)
	m.FullEndurance = new(10 * units.Minute)
	return m
}

func findingOf(t *testing.T, m Model, code finding.Code) finding.Finding {
	t.Helper()
	for _, f := range m.Findings {
		if f.Code == code {
			return f
		}
	}
	require.Failf(t, "no such finding", "%s in %v", code, codes(m))
	return finding.Finding{}
}

func codes(m Model) []finding.Code {
	list := make([]finding.Code, 0, len(m.Findings))
	for _, f := range m.Findings {
		list = append(list, f.Code)
	}
	return list
}

func assumed(m Model) []string {
	list := make([]string, 0, len(m.Assumptions))
	for _, a := range m.Assumptions {
		list = append(list, a.Subject)
	}
	return list
}

func TestDiscArea(t *testing.T) {
	t.Parallel()
	cases := []struct {
		name   string
		rotors Rotors
		area   float64 // m2
	}{
		{"one of a meter", Rotors{Count: 1, Diameter: 1}, 0.785398},
		{"six side by side", Rotors{Count: 6, Diameter: 0.8382}, 3.310827},
		{"four coaxial pairs count once", Rotors{Count: 8, Diameter: 1.372, Coaxial: true}, 5.913684},
		{"an odd coaxial rotor is left out", Rotors{Count: 3, Diameter: 1, Coaxial: true}, 0.785398},
		{"none", Rotors{Diameter: 1}, 0},
		{"no diameter", Rotors{Count: 4}, 0},
		{"a count that cannot be", Rotors{Count: -4, Diameter: 1}, 0},
	}
	for _, tc := range cases {
		t.Run(tc.name, func(t *testing.T) {
			assert.InDelta(t, tc.area, tc.rotors.DiscArea().SI(), 1e-6)
		})
	}
}

func TestCalibrationReproducesTheMeasurement(t *testing.T) {
	t.Parallel()
	t.Run("one hover, full", func(t *testing.T) {
		machine := sprayer()
		machine.FullEndurance = new(10 * units.Minute)
		m := New(machine, seaLevelDensity)
		assert.True(t, m.Calibrated)
		assert.InEpsilon(t, 2700, m.Hover(machine.FullMass).SI(), 1e-12, "450 Wh in 10 min")
		assert.InEpsilon(t, 600*0.80, m.Endurance(machine.FullMass).SI(), 1e-12, "the reserve is taken off the measured time")
		machine.UsableShare = new(units.Whole)
		assert.InEpsilon(t, 600, New(machine, seaLevelDensity).Endurance(machine.FullMass).SI(), 1e-12, "no reserve: the measured time")
	})
	t.Run("one hover, empty", func(t *testing.T) {
		machine := sprayer()
		machine.EmptyEndurance = new(24 * units.Minute)
		m := New(machine, seaLevelDensity)
		assert.InEpsilon(t, 1125, m.Hover(machine.EmptyMass).SI(), 1e-12)
		assert.InDelta(t, hoverExponent, m.law.exponent, 0)
	})
	t.Run("both", func(t *testing.T) {
		machine := measured()
		m := New(machine, seaLevelDensity)
		assert.InEpsilon(t, 1125, m.Hover(machine.EmptyMass).SI(), 1e-12)
		assert.InEpsilon(t, 2700, m.Hover(machine.FullMass).SI(), 1e-12)
		assert.Empty(t, m.Findings)
	})
	t.Run("a hover that stopped at the reserve", func(t *testing.T) {
		machine := sprayer()
		machine.FullEndurance = new(10 * units.Minute)
		machine.MeasuredShare = new(80 * units.Percent)
		m := New(machine, seaLevelDensity)
		assert.InEpsilon(t, 600, m.Endurance(machine.FullMass).SI(), 1e-12, "the same share is spent again")
		spoken := 0
		for _, a := range m.Assumptions {
			if a.Subject == subjectEndurance && a.Source != declaredMachines { // the exponent is another matter
				spoken++
				assert.Contains(t, a.Assumed, "sea level", "how far the battery ran was stated")
			}
		}
		assert.Equal(t, 1, spoken)
	})
}

func TestReserve(t *testing.T) {
	t.Parallel()
	machine := measured()
	m := New(machine, seaLevelDensity)
	assert.InEpsilon(t, 360, m.Usable.In(units.WattHour), 1e-12, "80 percent unless stated")
	assert.Contains(t, assumed(m), "/aircraft/battery/usable")

	machine.UsableShare = new(85 * units.Percent)
	m = New(machine, seaLevelDensity)
	assert.NotContains(t, codes(m), CodeThinReserve, "85 percent is the end of the usual range")
	assert.NotContains(t, assumed(m), "/aircraft/battery/usable")

	machine.UsableShare = new(95 * units.Percent)
	f := findingOf(t, New(machine, seaLevelDensity), CodeThinReserve)
	assert.Equal(t, finding.Caution, f.Severity)
	assert.InDelta(t, -0.10, f.Margin.SI(), 1e-12)

	machine.UsableShare = new(units.Proportion(3))
	assert.InEpsilon(t, 450, New(machine, seaLevelDensity).Usable.In(units.WattHour), 1e-12, "no more than the battery holds")
	machine.UsableShare = new(units.Proportion(0))
	assert.InEpsilon(t, 360, New(machine, seaLevelDensity).Usable.In(units.WattHour), 1e-12)
}

func TestWhatCannotBeComputedSaysSo(t *testing.T) {
	t.Parallel()
	t.Run("no battery energy", func(t *testing.T) {
		machine := measured()
		machine.BatteryEnergy = 0
		m := New(machine, seaLevelDensity)
		f := findingOf(t, m, CodePowerNotComputable)
		assert.Equal(t, finding.Needed, f.Severity)
		assert.Equal(t, "/aircraft/battery/energy", f.Subject)
		assert.Zero(t, m.Endurance(machine.FullMass))
		assert.Positive(t, m.Hover(machine.FullMass).SI())
	})
	t.Run("no rotors and no weight", func(t *testing.T) {
		m := New(Machine{BatteryEnergy: 1 * units.KilowattHour}, seaLevelDensity)
		assert.Equal(t, "/aircraft/rotors", findingOf(t, m, CodePowerNotComputable).Subject)
		assert.Zero(t, m.Hover(10*kg))
		assert.Zero(t, m.Forward(10*kg, 5*units.MeterPerSecond))
		assert.Zero(t, m.Spraying(10*kg, 5*kg, 3*units.MeterPerSecond, 1*units.Minute))
		assert.Zero(t, m.SprayTime(10*kg, 5*kg, 1*units.LiterPerMinute, 1*units.KilogramPerLiter, 3*units.MeterPerSecond, 1*units.WattHour))
		assert.Zero(t, m.Climb(10*kg, 10*units.Meter))
	})
	t.Run("rotors but no weight", func(t *testing.T) {
		m := New(Machine{Rotors: &tableRotors, BatteryEnergy: 1 * units.KilowattHour}, seaLevelDensity)
		assert.InEpsilon(t, discsOf(Machine{Rotors: &tableRotors}).idealPower(24)/0.53, m.Hover(24*units.Kilogram).SI(), 1e-12)
	})
	t.Run("air that cannot be", func(t *testing.T) {
		m := New(measured(), 0)
		assert.Contains(t, assumed(m), "/weather")
		assert.Equal(t, New(measured(), seaLevelDensity).Hover(20*kg), m.Hover(20*kg))
	})
	t.Run("the zero model", func(t *testing.T) {
		var m Model
		assert.Zero(t, m.Hover(20*kg))
		assert.Zero(t, m.Endurance(20*kg))
		assert.Zero(t, m.Spraying(20*kg, 10*kg, 0, 1*units.Minute))
	})
}

func TestEveryDefaultIsAssumedAloud(t *testing.T) {
	t.Parallel()
	machine := sprayer()
	machine.Rotors = nil
	m := New(machine, seaLevelDensity)
	assert.Equal(t, []string{
		"/aircraft/battery/usable", "/aircraft/rotors", "/aircraft/hover_endurance", "/aircraft/drag_area", "/spray_system/pump", "/flight/speed",
	}, assumed(m))

	machine = measured()
	machine.UsableShare = new(80 * units.Percent)
	machine.DragArea = new(0.3 * units.SquareMeter)
	machine.SprayPower = new(100 * units.Watt)
	machine.MeasuredShare = new(units.Whole)
	m = New(machine, seaLevelDensity)
	assert.Equal(t, []string{"/aircraft/hover_endurance", "/flight/speed"}, assumed(m))
	assert.InDelta(t, 0.3, m.dragArea, 0)
	assert.InDelta(t, 100, m.spray, 0)
}

func TestFindingsAndSourcesAreWhole(t *testing.T) {
	t.Parallel()
	odd := measured()
	odd.Rotors = &Rotors{Count: 5, Diameter: 1 * units.Meter, Coaxial: true}
	odd.EmptyEndurance = new(8 * units.Minute)
	odd.FullEndurance = new(6 * units.Minute)
	odd.UsableShare = new(units.Whole)
	impossible := sprayer()
	impossible.FullEndurance = new(3 * units.Hour)
	bare := sprayer()
	bare.Rotors = nil
	for _, machine := range []Machine{odd, impossible, bare, measured(), {}} {
		m := New(machine, 1.1*units.KilogramPerCubicMeter)
		listed := map[string]bool{}
		for _, s := range m.Sources {
			assert.True(t, s.Cited())
			assert.False(t, listed[s.ID], "%s is listed twice", s.ID)
			listed[s.ID] = true
		}
		for _, f := range m.Findings {
			assert.True(t, f.Message != "" && f.Subject != "" && f.Severity != "", "%s", f.Code)
			assert.True(t, listed[f.Source.ID], "the source of %s is listed", f.Code)
			assert.NotEqual(t, finding.Stop, f.Severity, "nothing from memory stops a job")
			if f.Limit != nil {
				assert.Equal(t, f.Measured.Dimension(), f.Limit.Dimension())
				assert.Equal(t, f.Measured.Dimension(), f.Margin.Dimension())
			}
		}
		for _, a := range m.Assumptions {
			assert.True(t, a.Assumed != "" && a.Settle != "")
			assert.True(t, listed[a.Source.ID], "the source of %s is listed", a.Subject)
		}
		assert.Equal(t, m, New(machine, 1.1*units.KilogramPerCubicMeter), "the same machine gives the same model")
	}
}
