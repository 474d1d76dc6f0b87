package permits

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/finding"
)

// No paper lets a pesticide fall on people, under either regime; the rows keep their statuses.
func TestNoPaperLetsPeopleBeSprayed(t *testing.T) {
	t.Parallel()
	under := func(large bool, change func(*Facts)) (found finding.Finding, told bool) {
		f := fullJob(large)
		change(&f)
		c := Check(f)
		if i := slices.IndexFunc(c.Findings, func(f finding.Finding) bool { return f.Code == CodePeopleUnderSpray }); i >= 0 {
			return c.Findings[i], true
		}
		return finding.Finding{}, false
	}
	for _, large := range []bool{false, true} {
		for _, holds := range [][]string{nil, {"waiver:over-people"}, {"waiver:grant-people-distance"}} {
			found, told := under(large, func(f *Facts) { f.OverPeople, f.Holds = true, append(f.Holds, holds...) })
			require.True(t, told, "large %v, %v", large, holds)
			assert.Equal(t, finding.Stop, found.Severity)
			assert.Equal(t, "/operation/over_people", found.Subject)
			assert.Equal(t, "cfr-40-170-405", found.Source.ID)
			assert.Contains(t, found.Message, "100 ft around it")
			assert.Contains(t, found.Message, "170.505, from memory")
		}
		_, told := under(large, func(*Facts) {})
		assert.False(t, told, "over nobody")
		_, told = under(large, func(f *Facts) { f.OverPeople, f.Pesticide, f.Dispenses = true, false, new(Nourishment) })
		assert.False(t, told, "plant food is no pesticide")
	}
	f := fullJob(false)
	f.OverPeople, f.Holds = true, append(f.Holds, "waiver:over-people")
	for _, item := range Check(f).Items {
		if item.ID == "over-people" {
			assert.Equal(t, Held, item.Status, "the waiver is what it is")
		}
	}
	papers, _ := ByHour().At(f)
	assert.True(t, slices.ContainsFunc(papers.Findings, func(f finding.Finding) bool { return f.Code == CodePeopleUnderSpray }), "no hour lifts it")
}
