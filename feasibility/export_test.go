package feasibility

import (
	"math/rand/v2"
	"slices"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/tract"
)

// enter starts a mission through the rooms, with nothing known of its field.
func enter(m Mission) *rooms { return enterOn(tract.NewLand(m.Field.Ground), m) }

// MostSurveys is the bound on the changed missions worked out in full for one answer.
const MostSurveys = mostInAll

// SurveysFor counts the changed missions worked out in full to find the remedies of a mission.
func SurveysFor(m Mission) int {
	r := enter(m)
	return remedy(r, r.whole())
}

// Unlevered lists the stops and needs of a mission that some knob turned all the way lifts, though the
// table says that it does not bear on them.
func Unlevered(m Mission) []finding.Code {
	from := enter(m)
	s := newSearch(from)
	var wrong []finding.Code
	before := from.core()
	look := func(k Knob, changed Mission) {
		after := enter(changed).core()
		if len(without(barring(after), barring(before))) > 0 {
			return // a graver finding may hide another
		}
		for _, code := range without(liftable(before), liftable(after)) {
			l, _ := s.leverOf(code)
			// Another hour has other air as well; a remedy by the hour is for light and time alone.
			if !bearsOn(l, k) && (k != KnobHour || l.room != riskRoom) {
				wrong = append(wrong, code+" by "+finding.Code(k))
			}
		}
	}
	for _, d := range dials() {
		now, _ := d.now(from)
		if !(now > 0) {
			continue
		}
		for _, end := range outermost(now, d.ends(from, now)) {
			look(d.knob, d.turn(m, end))
		}
	}
	for _, c := range choices() {
		for _, o := range c.options(from) {
			look(c.knob, o.set(m))
		}
	}
	return wrong
}

func bearsOn(l lever, k Knob) bool { return slices.Contains(l.knobs, k) }

// Shared reports how the answer to a changed mission that takes rooms over from the one it was changed
// from, and the answer worked out afresh, compare, for every knob turned all the way.
func Shared(m Mission, compare func(k Knob, shared, fresh Answer)) {
	from := enter(m)
	from.core()
	for _, d := range dials() {
		now, _ := d.now(from)
		if !(now > 0) {
			continue
		}
		for _, end := range outermost(now, d.ends(from, now)) {
			changed := d.turn(m, end)
			compare(d.knob, from.changed(changed, d.moves).core(), enter(changed).core())
		}
	}
	for _, c := range choices() {
		options := c.options(from)
		for _, o := range options[:min(2, len(options))] {
			changed := o.set(m)
			compare(c.knob, from.changed(changed, c.moves).core(), enter(changed).core())
		}
	}
}

// Halved is the value of a figure halfway between two, as a quantity of their kind.
func Halved(c Change) (Change, bool) {
	for _, d := range dials() {
		if d.pointer == c.Pointer && c.To != nil && c.From != nil {
			c.To = d.quantity((c.From.SI() + c.To.SI()) / 2)
			return c, true
		}
	}
	return c, false
}

// Guessed turns knobs at random, so many times, and reports whether that lifted every stop of a mission
// without raising another.
func Guessed(m Mission, r *rand.Rand, times int) bool {
	from := enter(m)
	before := from.core()
	stop := func(f finding.Finding) bool { return f.Severity == finding.Stop }
	for range times {
		at := enter(guess(m, r))
		if slices.ContainsFunc(at.findings(rateRoom), stop) || slices.ContainsFunc(at.findings(weightRoom), stop) {
			continue
		}
		if after := at.core(); len(stopCodes(after)) == 0 && len(without(barring(after), barring(before))) == 0 {
			return true
		}
	}
	return false
}

// guess turns some knobs somewhere.
func guess(m Mission, r *rand.Rand) Mission {
	for _, c := range choices() {
		if o := c.options(enter(m)); len(o) > 0 && r.IntN(2) == 0 {
			m = o[r.IntN(len(o))].set(m)
		}
	}
	for _, d := range dials() {
		at := enter(m)
		now, _ := d.now(at)
		if !(now > 0) || r.IntN(3) == 0 {
			continue
		}
		if ends := outermost(now, d.ends(at, now)); len(ends) > 0 {
			end := ends[r.IntN(len(ends))]
			m = d.turn(m, now+(end-now)*max(r.Float64(), float64(r.IntN(2))))
		}
	}
	return m
}
