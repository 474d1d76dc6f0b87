package feasibility

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"

	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/units"
)

// SetUp is one way of doing a job, assessed.
type SetUp struct {
	Label  string // not empty, and of one set-up only
	Answer Answer // from Assess
}

// Comparison is several ways of doing a job, the best first.
type Comparison struct {
	Headline     string
	RulesAsOf    time.Time
	Ranked       []Ranked
	CostCompared bool // every set-up that can be planned has a cost of the same parts
	Findings     []finding.Finding
	Assumptions  []finding.Assumption // of the set-ups, each once
	Cautions     []string
	Sources      []finding.Source
}

// Ranked is one set-up in its place. Hours, drift and cost are those of the set-up as it was sent, also
// where its answer asks for a change first.
type Ranked struct {
	Label       string
	Index       int // its place in the request
	Rank        int // from 1, each once
	Verdict     Verdict
	NeedsChange bool // a yes_if that takes a change of the set-up, not papers and facts alone
	Headline    string
	Elapsed     units.Duration // on the clock; zero where it could not be worked out
	Sorties     units.Count
	Grade       drift.Grade
	Cost        *units.AreaCost
	Stops       []finding.Code
	BeatenBy    []string // labels of the set-ups that are at least as good in everything and better in something
}

// The findings of a comparison.
const (
	CodeCostNotCompared finding.Code = "cost_not_compared"  // caution: not every set-up has a cost of the same parts
	CodeNoneCanBeFlown  finding.Code = "no_set_up_feasible" // caution: every answer is no
)

// sourceComparison stands behind the order of set-ups.
var sourceComparison = finding.Source{
	ID:       "comparison-choices",
	Citation: "Choices of this program: set-ups are ranked by feasibility, then hours, drift grade and cost, figures compared to three digits",
	Standing: finding.OwnDesign,
}

// comparisonSources lists them.
func comparisonSources() []finding.Source { return []finding.Source{sourceComparison} }

// Compare ranks set-ups by feasibility (yes; yes_if by papers and facts alone; yes_if by a change; no),
// then hours, then drift grade, then cost, then their order in the request, so that each has one rank.
// Hours and cost are compared to three significant digits; what could not be worked out counts as worst.
// Costs are compared only where all set-ups with flights to plan have one made of the same parts:
// a sum that leaves parts out is no saving.
//
// A set-up is beaten by another that is at least as good in feasibility, hours, drift and cost and better
// in one of them. It never fails.
func Compare(setUps []SetUp) Comparison {
	c := Comparison{RulesAsOf: permits.AsOf(), CostCompared: costsAlike(setUps)}
	contenders := make([]contender, len(setUps))
	for i, s := range setUps {
		contenders[i] = newContender(i, s, c.CostCompared)
	}
	slices.SortStableFunc(contenders, contender.order)
	for i, s := range contenders {
		s.ranked.Rank = i + 1
		for _, other := range contenders {
			if other.beats(s) {
				s.ranked.BeatenBy = append(s.ranked.BeatenBy, other.ranked.Label)
			}
		}
		c.Ranked = append(c.Ranked, s.ranked)
	}
	c.tell(setUps)
	return c
}

// contender is a set-up with what it is ranked by: the smaller each, the better.
type contender struct {
	ranked Ranked
	by     [4]float64 // feasibility, hours, drift, cost
}

// newContender reads what a set-up is ranked by.
func newContender(i int, s SetUp, costs bool) contender {
	a := s.Answer
	r := Ranked{
		Label: s.Label, Index: i, Verdict: a.Verdict, Headline: a.Headline, Elapsed: a.Elapsed,
		Sorties: a.SortiePlan.Sorties, Grade: a.DriftRisk.Grade, Stops: stopsIn(a.Findings),
	}
	r.NeedsChange = a.Verdict == YesIf && len(r.Stops) > 0
	if a.CrewPlan.Cost != nil {
		r.Cost = new(a.CrewPlan.Cost.PerArea)
	}
	feasibility := float64(rank(a.Verdict))
	if r.NeedsChange {
		feasibility += 0.5
	}
	cost := 0.0
	if costs {
		cost = math.Inf(1)
		if r.Cost != nil {
			cost = float64(units.Significant(*r.Cost, 3))
		}
	}
	hours := a.outlook().hours()
	if !math.IsInf(hours, 1) {
		hours = float64(units.Significant(units.Proportion(hours), 3))
	}
	return contender{ranked: r, by: [4]float64{feasibility, hours, float64(gradeRank(a.DriftRisk.Grade)), cost}}
}

// order compares two contenders for the ranking.
func (s contender) order(other contender) int {
	for i := range s.by {
		if c := cmp.Compare(s.by[i], other.by[i]); c != 0 {
			return c
		}
	}
	return 0 // the sort keeps the order of the request
}

// beats reports whether a contender is at least as good in everything and better in something.
func (s contender) beats(other contender) bool {
	better := false
	for i := range s.by {
		if s.by[i] > other.by[i] {
			return false
		}
		better = better || s.by[i] < other.by[i]
	}
	return better
}

// costsAlike reports whether every set-up with flights to plan has a cost, and of the same parts.
func costsAlike(setUps []SetUp) bool {
	var parts []string
	for _, s := range setUps {
		cost := s.Answer.CrewPlan.Cost
		if cost == nil && !s.Answer.SortiePlan.Feasible {
			continue
		}
		if cost == nil {
			return false
		}
		names := make([]string, 0, len(cost.Parts))
		for _, part := range cost.Parts {
			names = append(names, part.Name)
		}
		if parts == nil {
			parts = names
		}
		if !slices.Equal(parts, names) {
			return false
		}
	}
	return len(parts) > 0
}

// tell puts into words what came out, and gathers what the set-ups assumed and cite.
func (c *Comparison) tell(setUps []SetUp) {
	whole := Answer{}
	whole.gather(report{sources: []finding.Source{sourceComparison}})
	priced := slices.ContainsFunc(c.Ranked, func(r Ranked) bool { return r.Cost != nil })
	if !c.CostCompared && priced {
		whole.gather(report{findings: []finding.Finding{{
			Code: CodeCostNotCompared, Severity: finding.Caution, Subject: "/set_ups", Source: sourceComparison,
			Message: "Cost was not compared, because the set-ups do not all have one made of the same parts. Send the same prices for each: machine, batteries, labor, energy and travel.",
		}}})
	}
	if len(c.Ranked) > 0 && c.Ranked[0].Verdict == No {
		whole.gather(report{findings: []finding.Finding{{
			Code: CodeNoneCanBeFlown, Severity: finding.Caution, Subject: "/set_ups", Source: sourceComparison,
			Message: "No set-up can do this job as sent. Assess the first of them alone to see what binds, and change that.",
		}}})
	}
	seen := map[finding.Assumption]bool{} // only looked up
	for _, r := range c.Ranked {
		a := setUps[r.Index].Answer
		for _, s := range a.Assumptions {
			if !seen[s] {
				seen[s] = true
				whole.Assumptions = append(whole.Assumptions, s)
			}
		}
		for _, s := range a.Sources {
			whole.cite(s)
		}
		for _, caution := range a.Cautions {
			if !slices.Contains(c.Cautions, caution) {
				c.Cautions = append(c.Cautions, caution)
			}
		}
	}
	c.Findings, c.Assumptions, c.Sources = whole.Findings, whole.Assumptions, whole.Sources
	c.Headline = c.words()
}

// words says the comparison in plain words.
func (c *Comparison) words() string {
	if len(c.Ranked) == 0 {
		return "No set-up was sent, so none was compared."
	}
	first := c.Ranked[0]
	if first.Verdict == No {
		return fmt.Sprintf("None of %s can do this job as sent. Nearest is %s: %s", counted(len(c.Ranked), "set-up", "set-ups"), first.Label, first.Headline)
	}
	beaten, feasible, outright := 0, 0, 0
	for _, r := range c.Ranked {
		if len(r.BeatenBy) > 0 {
			beaten++
		}
		switch r.Verdict {
		case Yes:
			feasible, outright = feasible+1, outright+1
		case YesIf:
			feasible++
		}
	}
	said := fmt.Sprintf("Of %s, %d can do this job%s. First is %s (", counted(len(c.Ranked), "set-up", "set-ups"),
		feasible, withPapers(feasible, outright), first.Label)
	if first.Elapsed > 0 {
		said += plainSpan(first.Elapsed) + ", "
	}
	said += fmt.Sprintf("drift risk %s).", first.Grade)
	if beaten > 0 {
		said += fmt.Sprintf(" %s beaten by another that is at least as good in all that was compared, and better in something.",
			counted(beaten, "set-up is", "set-ups are"))
	}
	return said + " " + first.Label + ": " + first.Headline
}

// withPapers says how many of the set-ups that can do a job can do it only with papers or changes.
func withPapers(feasible, outright int) string {
	switch outright {
	case feasible:
		return ""
	case 0:
		return ", with papers or changes only"
	default:
		return ", some only with papers or changes"
	}
}
