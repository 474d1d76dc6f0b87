package feasibility

import (
	"math"
	"time"

	"tractcheck/feasibility/crew"
	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/takeoff"
	"tractcheck/feasibility/tract"
	"tractcheck/feasibility/units"
)

// Verdict is the answer in one word.
type Verdict string

// The verdicts.
const (
	Yes   Verdict = "yes"
	YesIf Verdict = "yes_if"
	No    Verdict = "no"
)

// Answer is everything there is to say about a mission.
type Answer struct {
	Verdict         Verdict
	Headline        string
	RulesAsOf       time.Time
	Findings        []finding.Finding // gravest first
	Remedies        []Remedy
	RemediesNote    string // what no remedy lifts, and which fact binds; empty where there is no such thing
	TakeoffWeight   takeoff.Result
	RatePressure    spray.Result
	DriftRisk       drift.Result
	SortiePlan      tract.Plan
	SetBack         tract.Later    // what keeping the computed drift buffer would cost; empty where it is kept
	Elapsed         units.Duration // clock time of the job, from the crew's plan
	BatteriesNeeded units.Count
	Aircraft        units.Count
	Authorizations  permits.Checklist
	AcrossTheLine   Crossing                  // of the 55 lb line; To is empty where there is none
	Record          permits.ApplicationRecord // no fields where the tank holds no pesticide
	CrewPlan        crew.Result
	Assumptions     []finding.Assumption
	Cautions        []string
	Sources         []finding.Source

	binding finding.Code // the stop that no remedy lifts, where the answer is no
	stopBy  string       // the clock by which a job that runs past dusk must stop; else empty
}

// Remedy is a change of the mission that lifts one or more findings; it was verified by
// assessing the changed mission again.
type Remedy struct {
	Changes    []Change
	Lifts      []finding.Code
	Costs      string  // what gets worse, plain words
	AnswerThen Verdict // the answer to the changed mission, sent again

	then  outlook
	left  int // stops that remain
	open  int // findings that a change could lift and that remain
	price price
}

// outlook is what a job takes, for the headline.
type outlook struct {
	planned  bool
	aircraft units.Count
	sprayed  units.Area
	left     units.Area // ground that stays dry, keep-outs apart
	tract    units.Area
	sorties  units.Count
	elapsed  units.Duration
	money    units.AreaCost // zero where no price was given
	grade    drift.Grade
	papers   []string // titles of the authorizations needed or not known
	points   []string // other things needed, in a sentence each
	stopBy   string   // see Answer
	label    bool     // whether the label allows spraying by air and by drone is not known
}

// outlook reads what the job takes from an answer.
func (a Answer) outlook() outlook {
	return outlook{
		planned:  a.SortiePlan.Feasible && a.SortiePlan.Sorties > 0,
		aircraft: a.Aircraft,
		sprayed:  a.SortiePlan.Accounting.Sprayed,
		left:     a.SortiePlan.Accounting.Unsprayed,
		tract:    a.SortiePlan.Accounting.Tract,
		sorties:  a.SortiePlan.Sorties,
		elapsed:  a.Elapsed,
		money:    money(a),
		grade:    a.DriftRisk.Grade,
		papers:   papers(a),
		points:   points(a),
		stopBy:   a.stopBy,
		label:    labelOpen(a),
	}
}

// money is what the job costs an acre, as far as prices were given.
func money(a Answer) units.AreaCost {
	if a.CrewPlan.Cost == nil {
		return 0
	}
	return a.CrewPlan.Cost.PerArea
}

// hours is the time the job takes; a time that could not be worked out counts as endless.
func (o outlook) hours() float64 {
	if o.elapsed <= 0 {
		return math.Inf(1)
	}
	return o.elapsed.In(units.Hour)
}

// Change is one changed fact: a quantity, or a word (a kind of nozzle, a time), or a yes or no, or a fact
// to be taken out because it no longer holds. From and FromFact are nil, and FromWord empty, where the
// fact was not stated or is a table.
type Change struct {
	Pointer  string // JSON pointer into the request
	From     units.Quantity
	To       units.Quantity
	FromWord string
	ToWord   string
	FromFact *bool
	ToFact   *bool
	Remove   bool // take the member out; To, ToWord and ToFact are empty
}
