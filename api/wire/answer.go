package wire

import (
	"math"
	"time"

	"tractcheck/feasibility"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// Identity says what question an answer belongs to and what computed it.
type Identity struct {
	Digest string // of the request, the engine and the rules
	Engine string
}

// Answer is the answer to a mission or to a part of one. Members an endpoint does not answer are
// absent; lists are never null.
type Answer struct {
	Reference      *string         `json:"reference,omitzero"`
	Digest         string          `json:"digest"`
	Engine         string          `json:"engine"`
	RulesAsOf      string          `json:"rules_as_of"`
	Answer         string          `json:"answer,omitzero"`
	Headline       string          `json:"headline,omitzero"`
	Findings       []Finding       `json:"findings"`
	Remedies       []Remedy        `json:"remedies,omitzero"`
	RemediesNote   string          `json:"remedies_note,omitzero"`
	TakeoffWeight  *TakeoffWeight  `json:"takeoff_weight,omitzero"`
	RatePressure   *RatePressure   `json:"rate_pressure,omitzero"`
	DriftRisk      *DriftRisk      `json:"drift_risk,omitzero"`
	SortiePlan     *SortiePlan     `json:"sortie_plan,omitzero"`
	Authorizations *Authorizations `json:"authorizations,omitzero"`
	CrewPlan       *CrewPlan       `json:"crew_plan,omitzero"`
	Assumptions    []Assumption    `json:"assumptions"`
	Cautions       []string        `json:"cautions"`
	Sources        []Source        `json:"sources"`
}

// Finding is one thing noticed about the mission. Source is the id of an entry of the answer's
// sources.
type Finding struct {
	Code     string    `json:"code"`
	Severity string    `json:"severity"`
	Subject  string    `json:"subject"`
	Message  string    `json:"message"`
	Measured *Quantity `json:"measured,omitzero"`
	Limit    *Quantity `json:"limit,omitzero"`
	Margin   *Quantity `json:"margin,omitzero"`
	Source   string    `json:"source"`
}

// Assumption is what was taken for a fact that was not sent.
type Assumption struct {
	Subject string `json:"subject"`
	Assumed string `json:"assumed"`
	Settle  string `json:"settle"`
	Source  string `json:"source,omitzero"`
}

// Source is a published source of a number or a rule.
type Source struct {
	ID       string `json:"id"`
	Citation string `json:"citation"`
	Standing string `json:"standing"`
}

// Remedy is a change of the mission that lifts findings.
type Remedy struct {
	Changes    []Change `json:"changes"`
	Lifts      []string `json:"lifts"`
	Costs      string   `json:"costs"`
	AnswerThen string   `json:"answer_then"`
}

// Change is one changed fact. From and To are each a *Quantity, a string or a whole number; with
// Remove there is no To.
type Change struct {
	Pointer string `json:"pointer"`
	From    any    `json:"from,omitzero"`
	To      any    `json:"to,omitzero"`
	Remove  bool   `json:"remove,omitzero"`
}

// NewAnswer writes an answer for the wire: only the parts the endpoint answers, every quantity in
// the caller's unit system and rounded to six significant digits. It panics for no input.
func NewAnswer(endpoint Endpoint, id Identity, req *Request, a feasibility.Answer) *Answer {
	return (&writer{}).answer(endpoint, id, req, a)
}

// answer writes an answer for the wire.
func (w *writer) answer(endpoint Endpoint, id Identity, req *Request, a feasibility.Answer) *Answer {
	if req == nil {
		req = &Request{}
	}
	w.system, w.request = req.system(), req
	out := &Answer{
		Reference:   req.Reference,
		Digest:      id.Digest,
		Engine:      id.Engine,
		RulesAsOf:   a.RulesAsOf.Format(time.DateOnly),
		Findings:    w.findings(a.Findings),
		Assumptions: w.assumptions(a.Assumptions),
		Cautions:    append([]string{}, a.Cautions...),
	}
	w.parts(endpoint, out, a)
	out.Sources = w.sources(a.Sources)
	return out
}

// parts fills the parts the endpoint answers.
func (w *writer) parts(endpoint Endpoint, out *Answer, a feasibility.Answer) {
	switch endpoint {
	case TakeoffWeights:
		out.TakeoffWeight = w.takeoffWeight(a.TakeoffWeight)
	case RatePressures:
		out.RatePressure = w.ratePressure(a.RatePressure)
	case DriftRisks:
		out.RatePressure = w.ratePressure(a.RatePressure)
		out.DriftRisk = w.driftRisk(a.DriftRisk)
	case SortiePlans:
		out.TakeoffWeight = w.takeoffWeight(a.TakeoffWeight)
		out.SortiePlan = w.sortiePlan(a)
		out.CrewPlan = w.crewPlan(a.CrewPlan)
	case AuthorizationChecklists:
		out.TakeoffWeight = w.takeoffWeight(a.TakeoffWeight)
		out.Authorizations = w.authorizations(a)
	default:
		out.Answer = string(a.Verdict)
		out.Headline = a.Headline
		out.Remedies = w.remedies(a.Remedies)
		out.RemediesNote = a.RemediesNote
		out.TakeoffWeight = w.takeoffWeight(a.TakeoffWeight)
		out.RatePressure = w.ratePressure(a.RatePressure)
		out.DriftRisk = w.driftRisk(a.DriftRisk)
		out.DriftRisk.SetBack = w.setBack(a.SetBack)
		out.SortiePlan = w.sortiePlan(a)
		out.Authorizations = w.authorizations(a)
		out.CrewPlan = w.crewPlan(a.CrewPlan)
	}
}

// in writes a quantity in the unit its dimension has in the answer's system.
func (w *writer) in(q units.Quantity) *Quantity { return w.usual(q, toNearest) }

// as writes a quantity in a unit of its dimension.
func (w *writer) as(q units.Quantity, code string) *Quantity { return w.written(q, code, toNearest) }

// down is in, rounded toward zero, for a figure that must still be legal when it is sent back.
func (w *writer) down(q units.Quantity) *Quantity { return w.usual(q, towardZero) }

// downAs is as, rounded toward zero.
func (w *writer) downAs(q units.Quantity, code string) *Quantity {
	return w.written(q, code, towardZero)
}

// usual writes a quantity in the unit its dimension has in the answer's system.
func (w *writer) usual(q units.Quantity, round rounding) *Quantity {
	d, si := taken(q)
	if d == nil {
		return w.keep(noFigure, "")
	}
	u := &d.answers[w.system]
	return w.keep(u.figure(si, round), u.code)
}

// written writes a quantity in a unit.
func (w *writer) written(q units.Quantity, code string, round rounding) *Quantity {
	d, si := taken(q)
	if d == nil {
		return w.keep(noFigure, "")
	}
	return w.keep(d.expressed(si, code, round))
}

// noFigure is the figure of a quantity whose type is not known: an answer with it cannot be written.
var noFigure = math.NaN()

func (w *writer) findings(found []finding.Finding) []Finding {
	out := list(&w.shelf.findings, len(found))
	for i := range found {
		out[i] = w.finding(&found[i])
	}
	return out
}

func (w *writer) finding(f *finding.Finding) Finding {
	code := w.unitFor(f.Measured, f.Limit, f.Margin)
	return Finding{
		Code: string(f.Code), Severity: string(f.Severity), Subject: f.Subject, Message: f.Message,
		Measured: w.maybe(f.Measured, code), Limit: w.maybe(f.Limit, code), Margin: w.maybe(f.Margin, code),
		Source: w.name(&f.Source),
	}
}

func (w *writer) assumptions(taken []finding.Assumption) []Assumption {
	out := make([]Assumption, len(taken))
	for i := range taken {
		a := &taken[i]
		out[i] = Assumption{Subject: a.Subject, Assumed: a.Assumed, Settle: a.Settle, Source: w.name(&a.Source)}
	}
	return out
}

// name reports the id of a source and keeps the source for the list.
func (w *writer) name(s *finding.Source) string {
	if last := len(w.named) - 1; s.ID != "" && (last < 0 || w.named[last].ID != s.ID) {
		w.named = append(w.named, s)
	}
	return s.ID
}

// sources lists the answer's sources and those its findings and assumptions name, each id once.
func (w *writer) sources(used []finding.Source) []Source {
	if w.listed == nil {
		w.listed = make(map[string]bool, len(used))
	}
	out := list(&w.shelf.sources, len(used)+len(w.named))[:0]
	add := func(s *finding.Source) {
		if !w.listed[s.ID] {
			w.listed[s.ID] = true
			out = append(out, Source{ID: s.ID, Citation: s.Citation, Standing: string(s.Standing)})
		}
	}
	for i := range used {
		add(&used[i])
	}
	for _, s := range w.named {
		add(s)
	}
	return out
}

// maybe writes a quantity that may be absent; in its dimension's own unit where code is not of it.
func (w *writer) maybe(q units.Quantity, code string) *Quantity {
	if q == nil {
		return nil
	}
	d, _ := dimensionOf(q.Dimension())
	if _, ok := d.find(code); !ok {
		return w.in(q)
	}
	return w.as(q, code)
}

// unitFor chooses one unit for the quantities of a finding, by the largest of them: drops are not
// written in feet, nor the seconds of a turn in minutes.
func (w *writer) unitFor(group ...units.Quantity) string {
	var first units.Quantity
	most := 0.0
	for _, q := range group {
		if q == nil {
			continue
		}
		if first == nil {
			first = q
		}
		if q.Dimension() == first.Dimension() {
			most = max(most, q.SI(), -q.SI())
		}
	}
	if first == nil {
		return ""
	}
	d, _ := dimensionOf(first.Dimension())
	switch {
	case d.name == units.DimensionLength && most < units.Centimeter.SI():
		return "um"
	case d.name == units.DimensionTime && most < 2*units.Minute.SI():
		return "s"
	case d.name == units.DimensionTime && most >= 2*units.Hour.SI():
		return "h"
	default:
		return d.answersIn(w.system)
	}
}

func (w *writer) remedies(all []feasibility.Remedy) []Remedy {
	out := make([]Remedy, 0, len(all))
	for _, r := range all {
		remedy := Remedy{
			Changes: make([]Change, 0, len(r.Changes)), Lifts: make([]string, 0, len(r.Lifts)),
			Costs: r.Costs, AnswerThen: string(r.AnswerThen),
		}
		for _, c := range r.Changes {
			remedy.Changes = append(remedy.Changes, w.change(c))
		}
		for _, code := range r.Lifts {
			remedy.Lifts = append(remedy.Lifts, string(code))
		}
		out = append(out, remedy)
	}
	return out
}

// change writes a change: a quantity in the unit the caller used for the member, in the figures it was
// verified with (a fill never rounded up); a word, a count, a yes or a no as it is sent. The value sent is repeated as
// it was sent.
func (w *writer) change(c feasibility.Change) Change {
	out := Change{Pointer: c.Pointer, Remove: c.Remove}
	if sent := w.request.quantityAt(c.Pointer); sent != nil {
		out.From = sent
	} else {
		out.From = w.changed(c.Pointer, c.From, c.FromWord, c.FromFact)
	}
	out.To = w.changed(c.Pointer, c.To, c.ToWord, c.ToFact)
	return out
}

// changed writes one side of a change; nil where there is none.
func (w *writer) changed(pointer string, q units.Quantity, word string, fact *bool) any {
	switch q := q.(type) {
	case nil:
		switch {
		case fact != nil:
			return *fact
		case word != "":
			return word
		}
		return nil
	case units.Count:
		return int(q)
	default:
		d, _ := dimensionOf(q.Dimension())
		code := w.request.changeUnit(pointer, d)
		if d.name == units.DimensionVolume {
			return w.downAs(q, code)
		}
		return w.as(q, code)
	}
}
