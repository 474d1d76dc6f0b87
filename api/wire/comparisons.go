package wire

import (
	"reflect"
	"time"

	"tractcheck/feasibility"
	"tractcheck/feasibility/units"
)

// Comparisons is the endpoint that ranks several set-ups of one job.
const Comparisons Endpoint = "comparisons"

// MergedSetUp is one set-up merged over the mission and read.
type MergedSetUp struct {
	Label   string
	Request *Request
	Mission feasibility.Mission
	Digest  string // that POST /v1/assessments gives for the merged mission
}

// ComparisonAnswer is the set-ups, the best first. Lists are never null.
type ComparisonAnswer struct {
	Reference    *string      `json:"reference,omitzero"`
	Digest       string       `json:"digest"`
	Engine       string       `json:"engine"`
	RulesAsOf    string       `json:"rules_as_of"`
	Headline     string       `json:"headline"`
	CostCompared bool         `json:"cost_compared"`
	Ranked       []Ranked     `json:"ranked"`
	Findings     []Finding    `json:"findings"`
	Assumptions  []Assumption `json:"assumptions"`
	Cautions     []string     `json:"cautions"`
	Sources      []Source     `json:"sources"`
}

// Ranked is one set-up in its place.
type Ranked struct {
	Label       string    `json:"label"`
	Rank        int       `json:"rank"`
	Answer      string    `json:"answer"`
	NeedsChange bool      `json:"needs_change"`
	Headline    string    `json:"headline"`
	Hours       *Quantity `json:"hours,omitzero"`
	Sorties     int       `json:"sorties"`
	DriftGrade  string    `json:"drift_grade"`
	Cost        *Quantity `json:"cost,omitzero"`
	Stops       []string  `json:"stops"`
	BeatenBy    []string  `json:"beaten_by"`
	Digest      string    `json:"digest"`
}

// NewComparison writes the answer for the wire. setUps are those the comparison was made of, in the order
// of the request. It panics for no input.
func NewComparison(id Identity, setUps []MergedSetUp, c feasibility.Comparison) *ComparisonAnswer {
	request := &Request{}
	if len(setUps) > 0 && setUps[0].Request != nil {
		request = setUps[0].Request
	}
	w := &writer{system: request.system(), request: request}
	out := &ComparisonAnswer{
		Reference: request.Reference, Digest: id.Digest, Engine: id.Engine, RulesAsOf: c.RulesAsOf.Format(time.DateOnly),
		Headline: c.Headline, CostCompared: c.CostCompared,
		Ranked:      make([]Ranked, 0, len(c.Ranked)),
		Findings:    w.findings(c.Findings),
		Assumptions: w.assumptions(c.Assumptions),
		Cautions:    append([]string{}, c.Cautions...),
	}
	for _, r := range c.Ranked {
		row := Ranked{
			Label: r.Label, Rank: r.Rank, Answer: string(r.Verdict), NeedsChange: r.NeedsChange, Headline: r.Headline,
			Sorties: int(r.Sorties), DriftGrade: string(r.Grade),
			Stops: make([]string, 0, len(r.Stops)), BeatenBy: append([]string{}, r.BeatenBy...),
		}
		if r.Elapsed > 0 {
			row.Hours = w.as(r.Elapsed, "h")
		}
		if r.Cost != nil {
			row.Cost = w.in(units.Significant(*r.Cost, digits))
		}
		for _, code := range r.Stops {
			row.Stops = append(row.Stops, string(code))
		}
		if r.Index < len(setUps) {
			row.Digest = setUps[r.Index].Digest
		}
		out.Ranked = append(out.Ranked, row)
	}
	out.Sources = w.sources(c.Sources)
	return out
}

// AppendJSON appends the answer as JSON on one line, as that of an assessment is written.
func (a *ComparisonAnswer) AppendJSON(to []byte) ([]byte, error) {
	return comparisonAppender(to, reflect.ValueOf(a))
}
