package permits

import (
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// rowCase changes the full small or large job and expects a status of one row.
type rowCase struct {
	id     string
	large  bool
	change func(f *Facts)
	want   Status
}

// facts is the changed job.
func (c rowCase) facts() Facts {
	f := fullJob(c.large)
	c.change(&f)
	return f
}

// rowCases reaches every row in every status that it can have; the citation of each row decides.
func rowCases() []rowCase {
	return slices.Concat(holderRowCases(), keeperRowCases(), flightRowCases(), labelRowCases(), undatedRowCases())
}

// undatedRowCases are jobs without a date that hold something with one: nobody can tell whether it
// still counts.
func undatedRowCases() []rowCase {
	var cases []rowCase
	for _, rule := range Rules() {
		if !slices.Contains(dateAlone, rule.ID) {
			continue
		}
		id := rule.ID
		switch {
		case id == "weight-small-limit":
			id = "exemption-large-agricultural"
		case rule.Kind == Limit:
			id = rule.Waiver()
		}
		cases = append(cases, rowCase{rule.ID, rule.Regimes == LargeOnly || rule.ID == "weight-small-limit", func(f *Facts) {
			f.At, f.LineOfSight, f.OverPeople = nil, false, true
			f.Holds, f.Expiries = []string{id}, []Expiry{{ID: id, Date: time.Date(2027, 1, 1, 0, 0, 0, 0, time.UTC)}}
		}, Unknown})
	}
	return cases
}

func TestCheck_everyRow(t *testing.T) {
	for _, tc := range rowCases() {
		c := Check(tc.facts())
		at := slices.IndexFunc(c.Items, func(i Item) bool { return i.ID == tc.id })
		require.GreaterOrEqual(t, at, 0, tc.id)
		item := c.Items[at]
		assert.Equal(t, tc.want, item.Status, "%s: %s", tc.id, item.Because)
		assert.NotEmpty(t, item.Because, "%s (%s)", tc.id, tc.want)
		if item.Status == Unknown {
			assert.NotEmpty(t, item.Missing, "%s: an unknown names the fact that settles it", tc.id)
		}
	}
}
