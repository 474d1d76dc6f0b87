package feasibility_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/units"
)

// A fill left open in a tank that reaches over the line leaves the other side's papers unknown, in
// one finding; a fill that is stated, or a tank that never reaches it, settles the side.
func TestAFillLeftOpenLeavesTheSideOpen(t *testing.T) {
	m := leveeStrip() // 34.5 lb dry, 56.2 lb with the tank full
	m.Load.Fill, m.Aircraft.MaxTakeoffWeight = nil, 90*units.Pound
	a := papersOf(t, m)
	assert.Equal(t, permits.SmallRegime, a.Authorizations.Regime)
	for _, id := range []string{"weight-small-limit", "exemption-large-agricultural", "registration-large", "coa-large"} {
		assert.Equal(t, permits.Unknown, statusIn(t, a, id), id)
	}
	said := 0
	for _, item := range a.Authorizations.Items {
		if item.ID == "coa-large" {
			assert.Equal(t, []string{"/load/fill"}, item.Missing)
			assert.Contains(t, item.Because, "not stated: the fill, which may put the takeoff at 56.2 lb as well")
		}
	}
	for _, f := range a.Findings {
		if f.Code == permits.CodeSideNotSettled {
			said++
			assert.Equal(t, "/load/fill", f.Subject)
			assert.Equal(t, finding.Needed, f.Severity)
		}
		assert.NotEqual(t, permits.CodeOf("coa-large"), f.Code, "one finding says it for all")
	}
	assert.Equal(t, 1, said)

	for name, settle := range map[string]func(){
		"the fill is stated":           func() { m.Load.Fill = new(2 * units.Gallon) },
		"the tank is too small":        func() { m.Load.Fill, m.Aircraft.TankCapacity = nil, 2*units.Gallon },
		"too heavy with an empty tank": func() { m.Aircraft.MaxTakeoffWeight, m.Aircraft.EmptyWeight = 90*units.Pound, 50*units.Pound },
	} {
		fresh := leveeStrip()
		m = fresh
		m.Load.Fill, m.Aircraft.MaxTakeoffWeight = nil, 90*units.Pound
		settle()
		assert.NotContains(t, codes(papersOf(t, m), finding.Needed), permits.CodeSideNotSettled, name)
	}
}

// A fertilizer whose density was not stated may be heavier than water: 28 percent solutions weigh
// about 10.6 lb/gal.
func TestADensityLeftOpenLeavesTheSideOpen(t *testing.T) {
	m := leveeStrip()
	m.Load.Pesticide, m.Operation.Dispenses, m.Load.Density = false, new(permits.Nourishment), nil
	a := papersOf(t, m)
	assert.Equal(t, permits.Unknown, statusIn(t, a, "exemption-large-agricultural"))
	for _, f := range a.Findings {
		if f.Code == permits.CodeSideNotSettled {
			assert.Equal(t, "/load/density", f.Subject)
			assert.True(t, strings.HasPrefix(f.Message, "Side of the 55 lb line: "), f.Message)
		}
	}
	m.Load.Fill = nil
	assert.Contains(t, codes(papersOf(t, m), finding.Needed), permits.CodeSideNotSettled)
	m = leveeStrip()
	m.Load.Density = nil // a pesticide mix
	assert.Equal(t, permits.NotNeeded, statusIn(t, papersOf(t, m), "exemption-large-agricultural"))
}

// A crop of unknown height may lift the flight over a ceiling.
func TestACropOfUnknownHeight(t *testing.T) {
	m := leveeStrip()
	m.Aircraft.EmptyWeight, m.Aircraft.MaxTakeoffWeight = 60*units.Pound, 120*units.Pound
	m.Operation.GrantHeight = new(200 * units.Foot)
	assert.Equal(t, permits.NotNeeded, statusIn(t, papersOf(t, m), "grant-height"))
	m.Field.CropHeight = nil
	assert.Equal(t, permits.Unknown, statusIn(t, papersOf(t, m), "grant-height"))
	m = leveeStrip()
	m.Field.CropHeight = nil
	assert.Equal(t, permits.NotNeeded, statusIn(t, papersOf(t, m), "height-limit"), "no crop is 392 ft high")
	m.Flight.Height = 150 * units.Foot
	assert.Equal(t, permits.Unknown, statusIn(t, papersOf(t, m), "height-limit"))
}
