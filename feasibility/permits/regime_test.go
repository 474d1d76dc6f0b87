package permits

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/units"
)

func TestDifferences_crossingTheLine(t *testing.T) {
	t.Parallel()
	light, heavy := fullJob(false), fullJob(true)
	light.Holds, heavy.Holds = []string{"exemption-large-agricultural"}, []string{"exemption-large-agricultural"}
	changes := Differences(Check(heavy), Check(light))
	find := func(id string) Difference {
		at := slices.IndexFunc(changes, func(d Difference) bool { return d.ID == id })
		require.GreaterOrEqual(t, at, 0, id)
		return changes[at]
	}
	// A fill that drops under the line needs the small exemption although the large one is held.
	small := find("exemption-small-agricultural")
	assert.Equal(t, NotNeeded, small.From)
	assert.Equal(t, NeededNow, small.To)
	assert.Contains(t, small.Because, "does not cover this lighter takeoff")
	assert.Equal(t, NotNeeded, find("coa-large").To)
	assert.Empty(t, Differences(Check(light), Check(light)))
}

func TestLeadChain(t *testing.T) {
	t.Parallel()
	chain := Check(fullJob(false)).LeadChain
	assert.Equal(t, 120*day, chain.Lead)
	assert.Equal(t, []string{"remote-pilot-certificate", "exemption-small-agricultural", "knowledge-and-skill-test", "agricultural-operator-certificate"}, chain.IDs)
	assert.Contains(t, chain.Text, "at least 120 days")

	f := fullJob(false) // 14 CFR 107.41: sixty days where the exemption is held
	f.Airspace, f.Holds = AirspaceD, []string{"exemption-small-agricultural", "hazmat-relief", "remote-pilot-certificate"}
	chain = Check(f).LeadChain
	assert.Equal(t, 60*day, chain.Lead)
	assert.Equal(t, []string{"registration-small", "airspace-authorization", "dispensing-in-airport-surface-area"}, chain.IDs)

	// LAANC answers in near real time where it serves the place, so the 60 days are not the least.
	assert.Zero(t, chain.Least)
	assert.Contains(t, chain.Text, "up to 60 days")
	assert.Contains(t, chain.Text, "LAANC, near real time")
	assert.Contains(t, chain.Text, "then no days in all")
	f.OverPeople = true // a waiver's 90 days (AC 107-2A) stand whatever LAANC does
	chain = Check(f).LeadChain
	assert.Equal(t, 90*day, chain.Lead)
	assert.Equal(t, 90*day, chain.Least)
	f.OverPeople = false

	f.Airspace = AirspaceG
	assert.Empty(t, Check(f).LeadChain.IDs)
	assert.Empty(t, Check(f).LeadChain.Text)
}

func TestCheck_dependenciesThatAreAsked(t *testing.T) {
	t.Parallel()
	c := Check(fullJob(false))
	assert.Equal(t, []string{"registration-small"}, itemOf(t, c, "remote-id").DependsOn)
	assert.Equal(t, []string{"registration-large"}, itemOf(t, Check(fullJob(true)), "remote-id").DependsOn)
}

func TestCheck_otherCountries(t *testing.T) {
	t.Parallel()
	line := 25 * units.Kilogram
	for _, tc := range []struct {
		country string
		weight  units.Mass
		because string
	}{
		{"DE", line, "25 kg on takeoff is over the line of less than 25 kg"}, // Regulation (EU) 2019/947 Art. 4: strict
		{"eu", 24.9 * units.Kilogram, "inside the line of less than 25 kg"},
		{"GB", line, "over the line"},
		{"CA", line, "25 kg on takeoff is inside the line of at most 25 kg"}, // SOR/2025-70: inclusive
		{"CA", 25.1 * units.Kilogram, "over the line of at most 25 kg"},
		{"AU", line, "inside"}, {"BR", line, "inside"}, {"IN", line, "inside"},
		{"JP", line, "over"}, // 25 kg and over
		{"CN", line, "no figure of this country's line"},
		{"CA", 0, "not stated: the takeoff weight"},
	} {
		f := fullJob(false)
		f.Country, f.TakeoffWeight = tc.country, tc.weight
		c := Check(f)
		item := itemOf(t, c, "weight-line")
		assert.Contains(t, item.Because, tc.because, tc.country)
		assert.NotEmpty(t, item.Citation)
		assertNotCleared(t, c)
	}
	f := fullJob(false)
	f.Country = "ZZ"
	c := Check(f)
	require.Len(t, c.Items, 6, "no weight line is known, and all the rest is to be asked")
	f.Holds = nil
	assert.NotContains(t, Check(f).Items[0].Because, "counts for nothing")
	f.Holds = []string{"remote-id"}
	assert.Contains(t, Check(f).Items[0].Because, "counts for nothing here")
	assertNotCleared(t, c)
}

// assertNotCleared checks that a country whose rules are not held is never cleared.
func assertNotCleared(t *testing.T, c Checklist) {
	t.Helper()
	for _, item := range c.Items {
		assert.Equal(t, Unknown, item.Status, item.ID)
	}
	found := findingOf(t, c, CodeCountryNotCovered)
	assert.Contains(t, found.Message, "United States only")
	assert.NotEmpty(t, c.Sources)
	assert.NotEmpty(t, c.Cautions)
}

func TestWeightLines_walk(t *testing.T) {
	t.Parallel()
	seen := make(map[string]bool)
	for _, line := range WeightLines() {
		assert.False(t, seen[line.Country], line.Country)
		seen[line.Country] = true
		assert.NotEmpty(t, line.Citation, line.Country)
		assert.NotEmpty(t, line.Place, line.Country)
		assert.NotEmpty(t, line.Note, line.Country)
		if line.Country != "CN" {
			require.NotNil(t, line.Threshold, line.Country)
		}
	}
	us, ok := lineOf("US")
	require.True(t, ok)
	assert.False(t, us.light(55*units.Pound), "exactly 55 lb is over")
	assert.True(t, us.light(54.999*units.Pound))
}

func BenchmarkCheck(b *testing.B) {
	f := fullJob(false)
	f.Holds = []string{"remote-pilot-certificate", "recurrent-training", "registration-small", "remote-id"}
	b.ReportAllocs()
	for b.Loop() {
		Check(f)
	}
}
