package feasibility_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tractcheck/feasibility"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/units"
)

// papersOf is the checklist answer of a mission.
func papersOf(t require.TestingT, m feasibility.Mission) feasibility.Answer {
	a, err := feasibility.AssessAuthorizations(m)
	require.NoError(t, err)
	return a
}

// statusIn is the status of an item.
func statusIn(t require.TestingT, a feasibility.Answer, id string) permits.Status {
	at := slices.IndexFunc(a.Authorizations.Items, func(i permits.Item) bool { return i.ID == id })
	require.GreaterOrEqual(t, at, 0, id)
	return a.Authorizations.Items[at].Status
}

// 24 + 10.5 lb dry and 2.6 gal of 8.345 lb/gal: 56.197 lb. Under 55 lb at 2.4566 gal.
func TestCrossing_lessKeepsYouInTheSmallRegime(t *testing.T) {
	m := leveeStrip()
	m.Load.Fill = new(2.6 * units.Gallon)
	m.Operation.Holds = append(m.Operation.Holds, "exemption-large-agricultural")
	a := papersOf(t, m)
	c := a.AcrossTheLine
	require.Equal(t, permits.LargeRegime, a.Authorizations.Regime)
	require.Equal(t, permits.SmallRegime, c.To)
	assert.InDelta(t, -1.197, c.WeightChange.In(units.Pound), 0.0005)
	require.NotNil(t, c.FillChange)
	assert.InDelta(t, -0.1434, c.FillChange.In(units.Gallon), 0.0001)
	assert.InDelta(t, 2.4566, c.FillThen.In(units.Gallon), 0.0001)
	assert.Contains(t, c.Text, "0.15 gal less in the tank keeps you in the small regime")
	assert.Contains(t, changed(c), "coa-large needed->not_needed")
	assert.Contains(t, changed(c), "registration-large needed->not_needed")
}

func TestCrossing_moreLeadsIntoTheLargeRegime(t *testing.T) {
	c := papersOf(t, leveeStrip()).AcrossTheLine
	require.Equal(t, permits.LargeRegime, c.To)
	assert.InDelta(t, 3.81, c.WeightChange.In(units.Pound), 0.001)
	assert.InDelta(t, 0.4566, c.FillChange.In(units.Gallon), 0.0002)
	assert.Contains(t, c.Text, "0.46 gal more in the tank puts the takeoff in the large regime")
	for _, id := range []string{"exemption-large-agricultural", "coa-large", "registration-large"} {
		assert.Contains(t, changed(c), id+" not_needed->needed")
	}
	assert.Contains(t, changed(c), "exemption-small-agricultural held->not_needed")
	assert.Contains(t, c.Text, "Exemption for 55 lb and over")
}

// No fill crosses where the tank is too small, or where the airframe alone is over the line.
func TestCrossing_byWeightWhereNoFillDoesIt(t *testing.T) {
	m := leveeStrip()
	m.Aircraft.TankCapacity = 2 * units.Gallon
	c := papersOf(t, m).AcrossTheLine
	assert.Nil(t, c.FillChange)
	assert.Contains(t, c.Text, "3.81 lb more on board (more than the tank holds)")
	m = leveeStrip()
	m.Aircraft.EmptyWeight, m.Aircraft.MaxTakeoffWeight = 60*units.Pound, 120*units.Pound
	c = papersOf(t, m).AcrossTheLine
	assert.Equal(t, permits.SmallRegime, c.To)
	assert.Nil(t, c.FillChange)
	assert.Contains(t, c.Text, "less on the aircraft (no fill is small enough)")
	assert.Contains(t, changed(c), "exemption-large-agricultural needed->not_needed")
}

// Sending the fill that the crossing names leads to the other side, with the statuses it foretold.
func TestCrossing_isTrue(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := leveeStrip()
		m.Aircraft.MaxTakeoffWeight = 90 * units.Pound
		m.Aircraft.TankCapacity = units.Volume(rapid.Float64Range(1, 5).Draw(t, "tank")) * units.Gallon
		m.Aircraft.EmptyWeight = units.Mass(rapid.Float64Range(15, 50).Draw(t, "empty")) * units.Pound
		m.Load.Fill = new(m.Aircraft.TankCapacity * units.Volume(rapid.Float64Range(0.05, 1).Draw(t, "share")))
		a := papersOf(t, m)
		c := a.AcrossTheLine
		if c.FillThen == nil {
			return
		}
		moved := m
		moved.Load.Fill = c.FillThen
		b := papersOf(t, moved)
		require.Equal(t, c.To, b.Authorizations.Regime)
		for _, d := range c.Items {
			require.Equal(t, d.To, statusIn(t, b, d.ID), d.ID)
		}
		require.Len(t, permits.Differences(a.Authorizations, b.Authorizations), len(c.Items))
	})
}

func TestAFillRemedyNamesTheExemptionItNeeds(t *testing.T) {
	m := leveeStrip()
	m.Load.Fill = new(2.6 * units.Gallon) // over the maker's 56 lb as well
	m.Operation.Holds = []string{"exemption-large-agricultural"}
	m.Weather.Temperature = units.FromFahrenheit(60)
	small := costsOfSmallFill(t, m)
	assert.Contains(t, small, "the job then needs the exemption for under 55 lb (exemption-small-agricultural)")
	assert.Contains(t, small, "the one you hold does not cover it")
	m.Operation.Holds = []string{"exemption-small-agricultural"}
	assert.Contains(t, costsOfSmallFill(t, m), "(exemption-small-agricultural), which you hold")
	m.Operation.Holds = nil
	assert.Regexp(t, `\(exemption-small-agricultural\)$`, costsOfSmallFill(t, m))
}

// costsOfSmallFill is what the remedy costs that brings the fill under the line.
func costsOfSmallFill(t *testing.T, m feasibility.Mission) string {
	t.Helper()
	if slices.Contains(m.Operation.Holds, "exemption-large-agricultural") {
		m.Aircraft.MaxTakeoffWeight = 54 * units.Pound // nothing but the maker keeps the fill down
	}
	a := assess(t, m)
	require.NotEqual(t, permits.SmallRegime, a.Authorizations.Regime)
	require.NotEmpty(t, codes(a, finding.Stop))
	for _, r := range a.Remedies {
		if r.Changes[0].Pointer == "/load/fill" {
			return r.Costs
		}
	}
	require.Fail(t, "no fill remedy", "%v", codes(a, finding.Needed))
	return ""
}

// changed lists the changes of a crossing as "id from->to".
func changed(c feasibility.Crossing) []string {
	var said []string
	for _, d := range c.Items {
		said = append(said, d.ID+" "+string(d.From)+"->"+string(d.To))
	}
	return said
}
