package feasibility_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// What stops every hour is said once, and every hour is bound by it.
func TestAStopOfEveryHourIsSaidOnce(t *testing.T) {
	m := leveeStrip()
	m.Aircraft.MaxTakeoffWeight = 45 * units.Pound
	a := agrees(t, m, steady(june(9, 0), june(10, 0), june(11, 0)))
	assert.Empty(t, a.Windows)
	assert.Nil(t, a.Best)
	assert.Contains(t, a.Headline, "What stops every hour")
	for _, h := range a.Hours {
		assert.False(t, h.Go)
		for _, f := range h.Findings {
			assert.NotEqual(t, finding.Stop, f.Severity, "it stands among the findings of all: %s", f.Code)
		}
	}
}

// What every hour shares is said once, also where one hour has it graver.
func TestWhatEveryHourSharesIsSaidOnce(t *testing.T) {
	m := leveeStrip()
	m.Load.Label.DropletClassMin = nil // not known, so whether the label's limits are kept is not either
	f := steady(june(9, 0), june(10, 0), june(11, 0))
	f[0].WindSpeed, f[0].Gust = 12*units.MilePerHour, nil // over the label's limit
	a := agrees(t, m, f)
	const code finding.Code = "permit_label_limits_aviation"
	of := func(found []finding.Finding) (severities []finding.Severity) {
		for _, f := range found {
			if f.Code == code {
				severities = append(severities, f.Severity)
			}
		}
		return severities
	}
	assert.Equal(t, []finding.Severity{finding.Caution}, of(a.Findings))
	assert.Equal(t, []finding.Severity{finding.Stop}, of(a.Hours[0].Findings))
	assert.Empty(t, of(a.Hours[1].Findings))
}
