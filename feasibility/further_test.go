package feasibility_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility"
	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/units"
)

// byAHouse is a job with flat fans that need little pressure, beside a house whose tolerance was not
// stated. Coarser nozzles settle the house and then want more pressure than the job gives them.
func byAHouse() feasibility.Mission {
	m := leveeStrip()
	m.SpraySystem.System.Hydraulic.Type = spray.FlatFan
	m.SpraySystem.System.Hydraulic.RatedFlow = 0.2 * units.GallonPerMinute
	m.Flight.Speed = 12 * units.MilePerHour
	m.Field.Neighbors = []drift.Neighbor{{Kind: "dwelling", Distance: 230 * units.Foot, Bearing: 45 * units.BearingDegree}}
	return m
}

// points lists the stops and needs that are no papers.
func points(a feasibility.Answer) []finding.Code {
	return slices.DeleteFunc(open(a), func(c finding.Code) bool { return strings.HasPrefix(string(c), "permit_") })
}

// Where a change settles one point and opens another, the search goes on to the change that goes with it.
func TestTheSearchGoesOnWhereAChangeOpensAPoint(t *testing.T) {
	m := byAHouse()
	a := assess(t, m)
	require.Equal(t, []finding.Code{drift.CodeWindTowardSensitiveNeighbor}, points(a))
	require.NotEmpty(t, a.Remedies)
	best := a.Remedies[0]
	assert.Empty(t, points(assess(t, applied(t, m, best))), "%v", best.Changes)
	assert.NotContains(t, a.Headline, "settle")
	alone := slices.IndexFunc(a.Remedies, func(r feasibility.Remedy) bool {
		return !slices.ContainsFunc(r.Changes, func(c feasibility.Change) bool {
			return !strings.HasPrefix(c.Pointer, "/spray_system/nozzle/") || c.To != nil
		})
	})
	require.Greater(t, alone, 0, "the nozzles alone are listed after what goes all the way: %v", a.Remedies)
	assert.Contains(t, a.Remedies[alone].Costs, "a new point is then open: Holding the rate at 12 mph needs only")
}

// What a remedy opens is said with what it costs.
func TestCostsSayWhatBecomesOpen(t *testing.T) {
	r, wanted := draws(t, 120)
	opened := 0
	for range wanted {
		m := troubled(r)
		m.Field.Neighbors[0].Tolerance = nil
		if r.IntN(2) == 0 {
			m.SpraySystem.System.Hydraulic.MinPressure = nil
		}
		before := assess(t, m)
		known := points(before)
		for _, remedy := range before.Remedies {
			for _, f := range assess(t, applied(t, m, remedy)).Findings {
				if f.Severity != finding.Needed || strings.HasPrefix(string(f.Code), "permit_") || slices.Contains(known, f.Code) {
					continue
				}
				opened++
				sentence, _, _ := strings.Cut(f.Message, ". ")
				assert.Contains(t, remedy.Costs, "a new point is then open: "+strings.TrimSuffix(sentence, "."), "%v", remedy.Changes)
			}
		}
	}
	t.Logf("%d points opened", opened)
	assert.Positive(t, opened)
}

// The changed missions worked out stay within the bound where the search goes on as well.
func TestGoingOnIsBounded(t *testing.T) {
	r, wanted := draws(t, 120)
	most, sum := 0, 0
	for range wanted {
		m := troubled(r)
		m.Field.Neighbors[0].Tolerance = nil
		m.SpraySystem.System.Hydraulic.MinPressure = nil
		n := feasibility.SurveysFor(m)
		require.LessOrEqual(t, n, feasibility.MostSurveys)
		most, sum = max(most, n), sum+n
	}
	t.Logf("at most %d surveys, %.1f on average", most, float64(sum)/float64(wanted))
}
