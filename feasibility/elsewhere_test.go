package feasibility_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/takeoff"
	"tractcheck/feasibility/units"
)

// Another country is never cleared, light or heavy, whatever is held.
func TestAnotherCountryIsNeverCleared(t *testing.T) {
	for country, place := range map[string]string{
		"DE": "the European Union", "GB": "the United Kingdom", "CA": "Canada", "AU": "Australia", "BR": "Brazil",
		"IN": "India", "JP": "Japan", "CN": "China", "ZZ": "ZZ",
	} {
		for _, fill := range []units.Volume{1 * units.Gallon, 2.6 * units.Gallon} {
			m := leveeStrip()
			m.Operation.Country = country
			m.Load.Fill = &fill
			m.Aircraft.MaxTakeoffWeight = 90 * units.Pound
			m.Operation.Holds = append(m.Operation.Holds, "exemption-large-agricultural")
			a := assess(t, m)
			require.NotEqual(t, feasibility.Yes, a.Verdict, country)
			assert.True(t, strings.HasPrefix(a.Headline, "Not cleared: the rules of "+place+" are not in this table"), a.Headline)
			assert.NotContains(t, a.Headline, "Yes")
			assert.NotContains(t, a.Headline, "can spray")
			for _, item := range a.Authorizations.Items {
				assert.Equal(t, permits.Unknown, item.Status, "%s: %s", country, item.ID)
			}
			assert.Contains(t, codes(a, finding.Needed), permits.CodeCountryNotCovered)
			assert.NotContains(t, codes(a, finding.Needed), takeoff.CodeOverSmallLimit, "the line of 55 lb is no demand there")
			assert.Empty(t, a.AcrossTheLine.To)
			assert.Empty(t, a.Record.Fields)
			assert.Contains(t, strings.Join(a.Cautions, " "), "The rules of "+place+" are not in this table")
		}
	}
}

func TestAnotherCountryWithAStop(t *testing.T) {
	m := leveeStrip()
	m.Operation.Country = "CA"
	m.Aircraft.MaxTakeoffWeight = 48 * units.Pound // a smaller fill lifts it
	a := assess(t, m)
	assert.Contains(t, a.Headline, "Not cleared: the rules of Canada")
	assert.Contains(t, a.Headline, "also asks that you fill no more than")
	m.Aircraft.MaxTakeoffWeight = 30 * units.Pound // nothing does
	a = assess(t, m)
	assert.Equal(t, feasibility.No, a.Verdict)
	assert.True(t, strings.HasPrefix(a.Headline, "No, not as planned."), a.Headline)
	assert.Contains(t, a.Headline, "the rules of Canada are not in this table")
}

// A public agency goes over the line under its own authority, not under an exemption.
func TestOverTheLineInTheWordsOfAPublicAgency(t *testing.T) {
	m := leveeStrip()
	m.Aircraft.MaxTakeoffWeight = 90 * units.Pound
	m.Load.Fill = new(2.6 * units.Gallon)
	said := func() string {
		for _, f := range assess(t, m).Findings {
			if f.Code == takeoff.CodeOverSmallLimit {
				return f.Message
			}
		}
		return ""
	}
	assert.Contains(t, said(), "get the exemption and certificates for 55 lb and over first")
	m.Operation.Purpose = permits.Public
	assert.Contains(t, said(), "get the FAA's certificate of waiver or authorization for public aircraft at 55 lb and over first")
	assert.NotContains(t, said(), "exemption")
	m.Aircraft.EmptyWeight = 60 * units.Pound
	assert.Contains(t, said(), "certificate of waiver or authorization for public aircraft")
}
