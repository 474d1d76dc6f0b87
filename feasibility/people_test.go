package feasibility_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/units"
)

// A waiver to fly over people does not let them be sprayed: the way out is to keep them away.
func TestPeopleAreKeptOutBeforeAPesticideIsSprayed(t *testing.T) {
	m := leveeStrip()
	m.Operation.OverPeople = true
	m.Operation.Holds = append(m.Operation.Holds, "waiver:over-people")
	a := assess(t, m)
	assert.Equal(t, []finding.Code{permits.CodePeopleUnderSpray}, codes(a, finding.Stop))
	assert.Equal(t, feasibility.YesIf, a.Verdict)
	assert.Contains(t, a.Headline, "Yes, if you keep everyone out of the field and 100 ft around it")
	require.Len(t, a.Remedies, 1)
	remedy := a.Remedies[0]
	assert.Equal(t, []finding.Code{permits.CodePeopleUnderSpray}, remedy.Lifts)
	then := assess(t, applied(t, m, remedy))
	assert.Equal(t, remedy.AnswerThen, then.Verdict)
	assert.Empty(t, codes(then, finding.Stop))
	assert.Empty(t, feasibility.Unlevered(m))

	m.Flight.Speed = 18 * units.MilePerHour // another stop beside it
	a = assess(t, m)
	require.NotEmpty(t, a.Remedies)
	assert.Contains(t, a.Headline, "keep everyone out")
	then = assess(t, applied(t, m, a.Remedies[0]))
	assert.Equal(t, a.Remedies[0].AnswerThen, then.Verdict)
	assert.Empty(t, codes(then, finding.Stop))

	m = leveeStrip()
	m.Operation.OverPeople, m.MayChange = true, []feasibility.Knob{feasibility.KnobFill}
	a = assess(t, m)
	assert.Equal(t, feasibility.No, a.Verdict)
	assert.Contains(t, a.Headline, "Nobody may be sprayed")

	for _, h := range assessHours(t, m, steady(june(9, 0), june(10, 0))).Hours {
		assert.False(t, h.Go)
		assert.Contains(t, h.BoundBy, permits.CodePeopleUnderSpray)
	}
}
