package feasibility_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tractcheck/feasibility"
	"tractcheck/feasibility/crew"
	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/tract"
	"tractcheck/feasibility/units"
)

// answered makes an answer with nothing but what set-ups are ranked by.
func answered(verdict feasibility.Verdict, hours float64, grade drift.Grade, cost float64, parts ...string) feasibility.Answer {
	a := feasibility.Answer{Verdict: verdict, Headline: "Invented.", Elapsed: units.Duration(hours) * units.Hour}
	a.SortiePlan = tract.Plan{Feasible: hours > 0}
	a.DriftRisk.Grade = grade
	if cost > 0 {
		a.CrewPlan.Cost = &crew.Cost{PerArea: units.AreaCost(cost) * units.DollarPerAcre}
		for _, p := range parts {
			a.CrewPlan.Cost.Parts = append(a.CrewPlan.Cost.Parts, crew.CostPart{Name: p})
		}
	}
	return a
}

func labels(c feasibility.Comparison) []string {
	var out []string
	for _, r := range c.Ranked {
		out = append(out, r.Label)
	}
	return out
}

func TestCompareRanksByFeasibilityThenHoursThenDriftThenCost(t *testing.T) {
	changed := answered(feasibility.YesIf, 1, drift.Low, 9, "labor")
	changed.Findings = []finding.Finding{{Code: "invented", Severity: finding.Stop}}
	c := feasibility.Compare([]feasibility.SetUp{
		{Label: "no", Answer: answered(feasibility.No, 0.1, drift.Low, 1, "labor")},
		{Label: "change", Answer: changed},
		{Label: "dear", Answer: answered(feasibility.Yes, 2, drift.Low, 12, "labor")},
		{Label: "cheap", Answer: answered(feasibility.Yes, 2, drift.Low, 11, "labor")},
		{Label: "drifts", Answer: answered(feasibility.Yes, 2, drift.High, 5, "labor")},
		{Label: "slow", Answer: answered(feasibility.Yes, 3, drift.Low, 4, "labor")},
		{Label: "papers", Answer: answered(feasibility.YesIf, 5, drift.Severe, 20, "labor")},
		{Label: "endless", Answer: answered(feasibility.Yes, 0, drift.Low, 1, "labor")},
	})
	assert.True(t, c.CostCompared)
	assert.Equal(t, []string{"cheap", "dear", "drifts", "slow", "endless", "papers", "change", "no"}, labels(c))
	beaten := map[string][]string{}
	for i, r := range c.Ranked {
		assert.Equal(t, i+1, r.Rank)
		beaten[r.Label] = r.BeatenBy
	}
	assert.Empty(t, beaten["cheap"])
	assert.Equal(t, []string{"cheap"}, beaten["dear"])
	assert.Empty(t, beaten["drifts"], "it is cheaper than what drifts less")
	assert.Empty(t, beaten["slow"], "it is the cheapest that can be flown")
	assert.Empty(t, beaten["endless"], "nobody is as cheap")
	assert.Contains(t, beaten["papers"], "cheap")
	assert.Contains(t, c.Headline, "First is cheap")
	assert.Contains(t, c.Headline, "2 set-ups are beaten by another that is at least as good in all that was compared, and better in something",
		"dear, by one of the same hours and drift, and papers")
}

func TestCostsOfDifferentPartsAreNotCompared(t *testing.T) {
	c := feasibility.Compare([]feasibility.SetUp{
		{Label: "whole", Answer: answered(feasibility.Yes, 2, drift.Low, 12, "machine", "labor")},
		{Label: "part", Answer: answered(feasibility.Yes, 2, drift.Low, 3, "labor")},
	})
	assert.False(t, c.CostCompared)
	assert.Equal(t, []string{"whole", "part"}, labels(c), "a sum that leaves out parts is no saving")
	assert.Empty(t, c.Ranked[0].BeatenBy)
	assert.Equal(t, feasibility.CodeCostNotCompared, c.Findings[0].Code)
	assert.NotNil(t, c.Ranked[1].Cost, "the cost is told all the same")
}

func TestNobodyCanDoIt(t *testing.T) {
	c := feasibility.Compare([]feasibility.SetUp{{Label: "only", Answer: answered(feasibility.No, 0, drift.Severe, 0)}})
	assert.Contains(t, c.Headline, "None of 1 set-up can do this job")
	assert.Equal(t, feasibility.CodeNoneCanBeFlown, c.Findings[0].Code)
	assert.Contains(t, feasibility.Compare(nil).Headline, "No set-up")
}

// anySetUps draws answers that often agree in something.
func anySetUps(t *rapid.T) []feasibility.SetUp {
	priced := rapid.IntRange(0, 3).Draw(t, "priced") > 0
	setUps := make([]feasibility.SetUp, rapid.IntRange(1, 9).Draw(t, "count"))
	for i := range setUps {
		cost := 0.0
		if priced {
			cost = float64(rapid.IntRange(1, 3).Draw(t, "cost"))
		}
		setUps[i] = feasibility.SetUp{Label: fmt.Sprint("set-up ", i), Answer: answered(
			rapid.SampledFrom([]feasibility.Verdict{feasibility.Yes, feasibility.YesIf, feasibility.No}).Draw(t, "verdict"),
			float64(rapid.IntRange(0, 3).Draw(t, "hours")),
			rapid.SampledFrom([]drift.Grade{drift.Low, drift.Moderate, drift.High, drift.Severe}).Draw(t, "grade"), cost, "labor")}
	}
	return setUps
}

// To beat is a strict partial order, and nothing beaten stands above what beats it.
func TestBeatingIsAStrictPartialOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := feasibility.Compare(anySetUps(t))
		beaten, rank := map[string][]string{}, map[string]int{}
		for _, r := range c.Ranked {
			beaten[r.Label], rank[r.Label] = r.BeatenBy, r.Rank
		}
		for x, by := range beaten {
			for _, y := range by {
				switch {
				case x == y:
					t.Fatalf("%s beats itself", x)
				case slices.Contains(beaten[y], x):
					t.Fatalf("%s and %s beat each other", x, y)
				case rank[y] >= rank[x]:
					t.Fatalf("%s is beaten by %s and stands above it", x, y)
				}
				for _, z := range beaten[y] {
					if !slices.Contains(by, z) {
						t.Fatalf("%s beats %s, which beats %s, but %s is not said to beat %s", z, y, x, z, x)
					}
				}
			}
		}
		if len(beaten[c.Ranked[0].Label]) > 0 {
			t.Fatal("the first is beaten")
		}
	})
}

// The ranking is total, the same every time, and does not hang on the order of the request but where
// two set-ups are equal.
func TestRankingIsTotalAndDeterministic(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		setUps := anySetUps(t)
		c := feasibility.Compare(setUps)
		if len(c.Ranked) != len(setUps) {
			t.Fatal("a set-up is lost")
		}
		if again := feasibility.Compare(setUps); !slices.Equal(labels(c), labels(again)) {
			t.Fatal("the order differs from one time to the next")
		}
		backwards := slices.Clone(setUps)
		slices.Reverse(backwards)
		other := feasibility.Compare(backwards)
		for i, r := range c.Ranked {
			if r.Rank != i+1 {
				t.Fatalf("rank %d stands at %d", r.Rank, i)
			}
			o := other.Ranked[i]
			if r.Verdict != o.Verdict || r.Elapsed != o.Elapsed || r.Grade != o.Grade {
				t.Fatalf("place %d holds another kind of set-up when the request is turned round", i)
			}
		}
	})
}

// Real answers: a lighter machine, a slower one and one that is too heavy.
func TestCompareRealSetUps(t *testing.T) {
	heavy := leveeStrip()
	aircraft := *heavy.Aircraft
	aircraft.EmptyWeight = 40 * units.Pound
	heavy.Aircraft = &aircraft
	slow := leveeStrip()
	slow.Crew.RefillTime = new(10 * units.Minute)
	c := feasibility.Compare([]feasibility.SetUp{
		{Label: "heavy", Answer: assess(t, heavy)}, {Label: "slow", Answer: assess(t, slow)}, {Label: "as it is", Answer: assess(t, leveeStrip())},
	})
	require.Equal(t, []string{"as it is", "slow", "heavy"}, labels(c))
	assert.Equal(t, []string{"as it is"}, c.Ranked[1].BeatenBy)
	assert.Contains(t, c.Ranked[2].BeatenBy, "as it is")
	assert.NotEmpty(t, c.Sources)
	assert.NotEmpty(t, c.Cautions)
	t.Log(c.Headline)
}
