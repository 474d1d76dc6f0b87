package feasibility

import (
	"fmt"
	"slices"
	"strings"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/units"
)

// remedy finds the remedies of a mission and puts them into its answer, with a note of what none of
// them lifts. A remedy lifts a stop, the need for the large-aircraft regime or another needed point
// that no paper settles, raises no new stop, and leaves flights that can be planned. Each was verified
// by letting the changed mission flow through the rooms again, in the very figures that the answer
// shows, so that the changed request, sent again, gives the answer promised.
//
// A change after which a stop remains is a remedy of its own only where the answer to it is sure: no,
// where no knob bears on a stop that remains; yes_if, where one more change was found to lift the rest.
//
// It returns how many changed missions were worked out in full.
func remedy(r *rooms, a *Answer) (surveys int) {
	open := liftable(*a)
	if len(open) == 0 {
		return 0
	}
	s := newSearch(r)
	root := node{at: r, answer: *a}
	s.brief = slices.ContainsFunc(stopCodes(*a), s.fixed)
	first := s.expand(root, open)
	stuck := func(code finding.Code) bool { return s.fixed(code) && !lifts(first, code) }
	var ways []outcome // that lift every stop
	for _, o := range first {
		if !o.sound() {
			continue
		}
		if o.full() {
			ways = append(ways, o)
			a.Remedies = append(a.Remedies, remedyOf(root, o, verdict(o.answer)))
		} else if !s.work.ended && slices.ContainsFunc(stopCodes(o.answer), stuck) {
			a.Remedies = append(a.Remedies, remedyOf(root, o, No))
		}
	}
	hopeless := slices.ContainsFunc(stopCodes(*a), stuck)
	if !hopeless && !s.spent && !slices.ContainsFunc(a.Remedies, func(r Remedy) bool { return r.AnswerThen != No }) {
		full, onTheWay := s.deeper(root, first)
		for _, o := range full {
			if o.sound() && !slices.ContainsFunc(a.Remedies, o.same) {
				ways = append(ways, o)
				a.Remedies = append(a.Remedies, remedyOf(root, o, verdict(o.answer)))
			}
		}
		for _, o := range onTheWay {
			if o.sound() && len(a.Remedies) > 0 {
				a.Remedies = append(a.Remedies, remedyOf(root, o, YesIf))
			}
		}
	}
	for _, o := range s.further(root, ways, first) {
		if !slices.ContainsFunc(a.Remedies, o.same) {
			a.Remedies = append(a.Remedies, remedyOf(root, o, verdict(o.answer)))
		}
	}
	slices.SortStableFunc(a.Remedies, byCost)
	s.note(a, first)
	s.work.tell(a)
	return s.surveys
}

// lifts reports whether one of the outcomes lifts a finding.
func lifts(outcomes []outcome, code finding.Code) bool {
	return slices.ContainsFunc(outcomes, func(o outcome) bool { return o.sound() && slices.Contains(o.lifted, code) })
}

// remedyOf makes a remedy of an outcome.
func remedyOf(root node, o outcome, then Verdict) Remedy {
	return Remedy{
		Changes: o.changes, Lifts: o.lifted, Costs: costs(root.answer, o.answer, o.node), AnswerThen: then,
		then: o.answer.outlook(), left: len(stopCodes(o.answer)), open: o.open(), price: priceOf(root.answer, o),
	}
}

// same reports whether an outcome comes of the same changes as a remedy.
func (o outcome) same(r Remedy) bool { return slices.Equal(o.changes, r.Changes) }

func rank(v Verdict) int { return slices.Index([]Verdict{Yes, YesIf, No}, v) }

// costs says in plain words what gets worse, and what gets better, with a change.
func costs(before, after Answer, n node) string {
	var said []string
	if b, n := before.SortiePlan.Sorties, after.SortiePlan.Sorties; b != n && b > 0 && n > 0 {
		said = append(said, fmt.Sprintf("sorties go from %d to %d", b, n))
	}
	b, then := before.Elapsed.In(units.Hour), after.Elapsed.In(units.Hour)
	if b > 0 && then > 0 && max(b, then)/max(1e-9, min(b, then)) > worthSaying {
		said = append(said, fmt.Sprintf("the job goes from %s to %s hours", three(b), three(then)))
	}
	if b, n := before.outlook().money, after.outlook().money; b > 0 && n > 0 && max(b, n)/min(b, n) > worthSaying {
		said = append(said, fmt.Sprintf("the cost goes from %.2f to %.2f dollars an acre", b.In(units.DollarPerAcre), n.In(units.DollarPerAcre)))
	}
	if before.DriftRisk.Grade != after.DriftRisk.Grade {
		said = append(said, fmt.Sprintf("drift risk goes from %s to %s", before.DriftRisk.Grade, after.DriftRisk.Grade))
	}
	said = append(said, crossingCosts(before, after)...)
	said = append(said, opened(before, after)...)
	if after.stopBy != "" && slices.Contains(n.knobs, KnobHour) {
		said = append(said, "the job does not end before "+after.stopBy+", when it must stop")
	}
	if len(said) == 0 {
		said = append(said, "no change in sorties, hours or drift grade")
	}
	return strings.Join(append(said, n.provisos()...), "; ")
}

// provisos says what must be minded with the knobs that were turned.
func (n node) provisos() []string {
	var said []string
	for i, k := range n.knobs {
		if slices.Contains(n.knobs[:i], k) {
			continue
		}
		switch k {
		case KnobApplicationRate:
			said = append(said, "mix the tank anew, so that each acre still gets the same product")
		case KnobNozzleSize:
			said = append(said, "drop sizes measured on the old nozzles no longer count: check the new ones' chart")
		case KnobNozzleType:
			said = append(said, "the pressure range and the drop sizes are those usual for this kind: check the new nozzles' chart")
		case KnobHour:
			said = append(said, "the weather must then be as you stated it: look again before you start")
		case KnobOverPeople:
			said = append(said, "post lookouts, and stop while anyone but trained, equipped handlers is there")
		case KnobSpeed:
			if units.Speed(speedBefore(n.changes)) < n.at.m.Flight.Speed {
				said = append(said, "make sure that the aircraft holds its height and pattern at this speed")
			}
		}
	}
	return said
}

// speedBefore is the speed before a change of it, in SI; 0 where it was not changed.
func speedBefore(changes []Change) float64 {
	for _, c := range changes {
		if c.Pointer == "/flight/speed" && c.From != nil {
			return c.From.SI()
		}
	}
	return 0
}

// note says which stops no remedy lifts and what was tried, where there is no way to a yes.
func (s *search) note(a *Answer, tried []outcome) {
	if verdict(*a) != No {
		return
	}
	all := stops(*a)
	lifted := func(f finding.Finding) bool { return lifts(tried, f.Code) }
	binding := slices.DeleteFunc(slices.Clone(all), func(f finding.Finding) bool { return !s.fixed(f.Code) || lifted(f) })
	if len(binding) == 0 {
		binding = slices.DeleteFunc(slices.Clone(all), lifted)
	}
	if len(binding) == 0 {
		a.RemediesNote = "Each of the findings that stop the job can be lifted alone, but no set of changes was found that lifts them all."
		return
	}
	if first := slices.DeleteFunc(slices.Clone(binding), s.follower); len(first) > 0 {
		binding = first
	}
	bind := slices.IndexFunc(binding, func(f finding.Finding) bool { return !isAuthorization(f.Code) })
	f := binding[max(0, bind)]
	if !s.work.ended || s.fixed(f.Code) { // else a change that was not tried may lift it
		a.binding = f.Code
	}
	said := s.noChange(f.Code) + ": " + f.Message
	if n := len(binding) - 1; n > 0 {
		said += fmt.Sprintf(" The same holds for %s; see the findings.", counted(n, "more stop", "more stops"))
	}
	a.RemediesNote = said
}

// noChange says that no change lifts a finding, and which were tried.
func (s *search) noChange(code finding.Code) string {
	l, bears := s.leverOf(code)
	if !bears {
		if len(s.allowed) < len(Knobs()) {
			return "Nothing that you let be changed lifts this"
		}
		return "No change of the load, the flight, the nozzles or the hour lifts this"
	}
	words := make([]string, len(l.knobs))
	for i, k := range l.knobs {
		words[i] = k.words()
	}
	last := words[len(words)-1]
	if len(words) == 1 {
		return "No change of " + last + " was found that lifts this"
	}
	return "No change of " + strings.Join(words[:len(words)-1], ", ") + " or " + last + " was found, alone or together, that lifts this"
}

// regimeWords says a regime in plain words.
func regimeWords(r permits.Regime) string {
	if r == permits.SmallRegime {
		return "under 55 lb"
	}
	return "55 lb and over"
}
