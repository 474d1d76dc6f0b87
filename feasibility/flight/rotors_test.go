package flight

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

func TestPairsThatDoNotFitRotors(t *testing.T) {
	t.Parallel()
	cases := []struct {
		name        string
		empty, full units.Duration
		exponent    float64
		unusual     bool
	}{
		{"as rotors do", 24 * units.Minute, 10 * units.Minute, 1.489, false},
		{"flat, but used", 17 * units.Minute, 10 * units.Minute, 0.903, true},
		{"too flat, held", 12 * units.Minute, 10 * units.Minute, leastExponent, true},
		{"backward, held", 9 * units.Minute, 10 * units.Minute, leastExponent, true},
		{"too steep, held", 34 * units.Minute, 8 * units.Minute, mostExponent, true},
	}
	for _, tc := range cases {
		t.Run(tc.name, func(t *testing.T) {
			machine := sprayer()
			machine.EmptyEndurance, machine.FullEndurance = &tc.empty, &tc.full
			m := New(machine, seaLevelDensity)
			assert.InDelta(t, tc.exponent, m.law.exponent, 0.001)
			assert.Equal(t, tc.unusual, contains(codes(m), CodeEndurancePairUnusual))
			// It never promises more than either measurement.
			assert.GreaterOrEqual(t, m.Hover(machine.EmptyMass).SI()*(1+1e-12), 450*3600/tc.empty.SI())
			assert.GreaterOrEqual(t, m.Hover(machine.FullMass).SI()*(1+1e-12), 450*3600/tc.full.SI())
		})
	}
	t.Run("nearly one weight", func(t *testing.T) {
		machine := measured()
		machine.EmptyMass = 53 * units.Pound
		machine.EmptyEndurance = new(11 * units.Minute)
		m := New(machine, seaLevelDensity)
		assert.Contains(t, codes(m), CodeEndurancePairAlike)
		assert.InEpsilon(t, 2700, m.Hover(machine.FullMass).SI(), 1e-12, "the loaded hover decides")
		assert.InDelta(t, hoverExponent, m.law.exponent, 0)
	})
}

func contains(list []finding.Code, code finding.Code) bool {
	for _, c := range list {
		if c == code {
			return true
		}
	}
	return false
}

func TestHoversThatCannotBe(t *testing.T) {
	t.Parallel()
	t.Run("longer than ideal rotors", func(t *testing.T) {
		machine := sprayer()
		machine.FullEndurance = new(2 * units.Hour)
		m := New(machine, seaLevelDensity)
		assert.False(t, m.Calibrated)
		f := findingOf(t, m, CodeEnduranceImpossible)
		assert.Equal(t, finding.Needed, f.Severity)
		assert.Equal(t, "/aircraft/hover_endurance/full", f.Subject)
		assert.Negative(t, f.Margin.SI())
		assert.Equal(t, New(sprayer(), seaLevelDensity).Hover(machine.FullMass), m.Hover(machine.FullMass), "falls back to the estimate")
		assert.Contains(t, codes(m), CodePowerNotMeasured)
	})
	t.Run("one of two", func(t *testing.T) {
		machine := measured()
		machine.EmptyEndurance = new(5 * units.Hour)
		m := New(machine, seaLevelDensity)
		assert.True(t, m.Calibrated, "the other one stands")
		assert.Equal(t, "/aircraft/hover_endurance/empty", findingOf(t, m, CodeEnduranceImpossible).Subject)
		assert.InEpsilon(t, 2700, m.Hover(machine.FullMass).SI(), 1e-12)
	})
	t.Run("impossible, and no rotors", func(t *testing.T) {
		machine := sprayer()
		machine.Rotors = nil
		plain := New(machine, seaLevelDensity)
		machine.FullEndurance = new(200 * units.Hour)
		m := New(machine, seaLevelDensity)
		assert.Contains(t, codes(m), CodeEnduranceImpossible)
		assert.Equal(t, plain.DiscArea, m.DiscArea)
		assert.Equal(t, plain.Hover(machine.FullMass), m.Hover(machine.FullMass))
	})
	t.Run("better than parts", func(t *testing.T) {
		machine := sprayer()
		machine.FullEndurance = new(15 * units.Minute)
		m := New(machine, seaLevelDensity)
		f := findingOf(t, m, CodeEnduranceUnusual)
		assert.Contains(t, f.Message, "more than good motors")
		assert.Negative(t, f.Margin.SI())
	})
	t.Run("worse than parts", func(t *testing.T) {
		machine := sprayer()
		machine.FullEndurance = new(6 * units.Minute)
		f := findingOf(t, New(machine, seaLevelDensity), CodeEnduranceUnusual)
		assert.Contains(t, f.Message, "only")
		assert.Negative(t, f.Margin.SI())
	})
}

func TestRotorsNotStated(t *testing.T) {
	t.Parallel()
	machine := sprayer()
	machine.Rotors = nil
	m := New(machine, seaLevelDensity)
	assert.InEpsilon(t, machine.FullMass.SI()/15.2, m.DiscArea.SI(), 1e-12)
	assert.Positive(t, m.Hover(machine.FullMass).SI(), "power is still computed")
	assert.Greater(t, m.Hover(machine.FullMass), New(sprayer(), seaLevelDensity).Hover(machine.FullMass), "and on the safe side")
	assert.Equal(t, finding.Caution, findingOf(t, m, CodeRotorsNotStated).Severity)
	assert.Contains(t, assumed(m), "/aircraft/rotors")

	machine.FullEndurance = new(10 * units.Minute)
	m = New(machine, seaLevelDensity)
	assert.InEpsilon(t, defaultEfficiency, m.Efficiency.SI(), 1e-12, "the area is inferred at the default efficiency")
	assert.InEpsilon(t, 2700, m.Hover(machine.FullMass).SI(), 1e-12)
	assert.Equal(t, finding.Note, findingOf(t, m, CodeRotorsNotStated).Severity)

	machine.Rotors = &Rotors{Count: 4}
	assert.Contains(t, codes(New(machine, seaLevelDensity)), CodeRotorsNotStated, "rotors of no size are not stated")
}

func TestOddCoaxialRotors(t *testing.T) {
	t.Parallel()
	machine := sprayer()
	machine.Rotors = &Rotors{Count: 7, Diameter: 1 * units.Meter, Coaxial: true}
	f := findingOf(t, New(machine, seaLevelDensity), CodeOddCoaxialRotors)
	assert.Equal(t, "/aircraft/rotors/count", f.Subject)
	machine.Rotors.Coaxial = false
	assert.NotContains(t, codes(New(machine, seaLevelDensity)), CodeOddCoaxialRotors)
}
