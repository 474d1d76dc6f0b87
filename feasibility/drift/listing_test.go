package drift

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// No list says nothing, and an empty one says that nothing lies around the field.
func TestNeighborsNotStatedAreAskedFor(t *testing.T) {
	t.Parallel()
	for _, tc := range []struct {
		name      string
		neighbors []Neighbor
		pesticide bool
		want      finding.Severity
		tolerance units.Proportion
		assumed   bool
	}{
		{"no list", nil, true, finding.Needed, sensitiveTolerance, true},
		{"no list, not a pesticide", nil, false, finding.Caution, sensitiveTolerance, true},
		{"an empty list", []Neighbor{}, true, none, usualTolerance, false},
		{"an empty list, not a pesticide", []Neighbor{}, false, none, usualTolerance, false},
	} {
		t.Run(tc.name, func(t *testing.T) {
			in := job(fairDay())
			in.Neighbors, in.Pesticide = tc.neighbors, tc.pesticide
			r := Assess(in)
			assert.Equal(t, tc.want, found(r, CodeNeighborsNotStated).Severity)
			assert.Equal(t, tc.tolerance, r.Buffer.PercentOfRate)
			assumed := slices.ContainsFunc(r.Assumptions, func(a finding.Assumption) bool { return a.Subject == atNeighbors })
			assert.Equal(t, tc.assumed, assumed)
			rules := Judge(in, true)
			assert.Equal(t, tc.want, found(rules.Result, CodeNeighborsNotStated).Severity, "by the rules alone")
			in.Spray.Droplet.Spectrum.Dv05 = 0
			assert.Equal(t, tc.want, found(Assess(in), CodeNeighborsNotStated).Severity, "with no droplet size")
		})
	}
}

// Where no neighbor lies downwind the answer says where the grade was read.
func TestGrade_saysThatItWasReadAtTheDefault(t *testing.T) {
	t.Parallel()
	in := job(fairDay())
	assert.Empty(t, found(Assess(in), CodeNoNeighborDownwind).Code, "one lies downwind")

	in.WindFrom = in.WindFrom.Opposite()
	turned := Assess(in)
	f := found(turned, CodeNoNeighborDownwind)
	assert.Equal(t, finding.Note, f.Severity)
	assert.Contains(t, f.Message, "No neighbor that you listed lies downwind. So the drift grade is that at 33 ft")
	assert.Equal(t, gradeOf(depositAtTen(turned)), turned.Grade)

	in.Neighbors = []Neighbor{}
	assert.Contains(t, found(Assess(in), CodeNoNeighborDownwind).Message, "You listed no neighbors. So")
	in.Neighbors = nil
	r := Assess(in)
	assert.Empty(t, found(r, CodeNoNeighborDownwind).Code, "said with what is asked for")
	assert.Contains(t, found(r, CodeNeighborsNotStated).Message, "judged 33 ft (10 m) downwind")
}
