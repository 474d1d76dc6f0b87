package feasibility

import (
	"slices"

	"tractcheck/feasibility/finding"
)

// The bounds of the search. Own choices: they keep the work on any mission near that of some dozens
// of answers.
const (
	mostExpansions = 6  // missions from which single changes are tried
	mostSurveys    = 12 // changed missions worked out in full, in each of these
	mostInAll      = 60 // and in all of them together
	mostDrifts     = 40 // drifts worked out to find the smallest changes, likewise
)

// expansion looks for the smallest single changes of one mission.
type expansion struct {
	*search
	from   node
	drifts int
	worked int
	found  []found
	tried  []tried
	set    map[Knob][]setting
}

// tried is a changed mission that was looked at, by the knob and its figure.
type tried struct {
	knob Knob
	to   float64
	at   *rooms
}

// found is a move and the finding it was found for.
type found struct {
	code finding.Code
	move
}

// moves finds, for each of the findings and each knob that bears on it, the smallest change that
// lifts it in the room that decides it.
func (e *expansion) moves(codes []finding.Code) []found {
	var all []found
	turning := dials()
	for i := range turning {
		d := &turning[i]
		for _, code := range codes {
			if l, bears := e.leverOf(code); bears && e.turns(l, d.knob) {
				if m, lifts := e.turned(d, l); lifts {
					all = append(all, found{code, m})
				}
			}
		}
	}
	for _, c := range choices() {
		all = append(all, e.chosen(c, codes)...)
	}
	return all
}

// turns reports whether a knob is to be turned for a finding.
func (e *expansion) turns(l lever, k Knob) bool {
	return l.room != follows && slices.Contains(l.knobs, k)
}

// turned is the smallest turn of a dial, either way, that lifts a finding.
func (e *expansion) turned(d *dial, l lever) (move, bool) {
	now, _ := d.now(e.from.at)
	if !(now > 0) {
		return move{}, false
	}
	scale := d.scale(e.from.at.m.Scales)
	best, found := move{}, false
	for _, end := range outermost(now, d.ends(e.from.at, now)) {
		to, lifts := least(now, end, scale, d.sensible, func(to float64) bool {
			return e.lifts(e.dialed(d, to), l)
		})
		if !lifts {
			continue
		}
		if m := e.moved(d, now, to); !found || m.far < best.far {
			best, found = m, true
		}
	}
	return best, found
}

// outermost keeps the farthest end on each side of a figure.
func outermost(now float64, ends []float64) []float64 {
	low, high := now, now
	for _, e := range ends {
		low, high = min(low, e), max(high, e)
	}
	var kept []float64
	if low < now {
		kept = append(kept, low)
	}
	if high > now {
		kept = append(kept, high)
	}
	return kept
}

// dialed is the mission with a dial at a figure, on its way through the rooms.
func (e *expansion) dialed(d *dial, to float64) *rooms {
	for _, t := range e.tried {
		if t.knob == d.knob && t.to == to {
			return t.at
		}
	}
	at := e.from.at.changed(d.turn(e.from.at.m, to), d.moves)
	e.tried = append(e.tried, tried{d.knob, to, at})
	return at
}

// moved is the move that a turn of a dial makes.
func (e *expansion) moved(d *dial, now, to float64) move {
	m := move{
		knobs: []Knob{d.knob}, down: to < now, far: max(now-to, to-now),
		changes: []Change{{Pointer: d.pointer, To: d.quantity(to)}}, moves: d.moves, at: e.dialed(d, to),
		set: func(m Mission) Mission { return d.turn(m, to) },
	}
	if _, stated := d.now(e.from.at); stated {
		m.changes[0].From = d.quantity(now)
	}
	return m
}

// chosen is the nearest setting of a choice that lifts each of the findings.
func (e *expansion) chosen(c choice, codes []finding.Code) []found {
	var all []found
	var settings []setting
	for _, code := range codes {
		l, bears := e.leverOf(code)
		if !bears || !e.turns(l, c.knob) {
			continue
		}
		if settings == nil {
			settings = e.settings(c)
		}
		if l.room == riskRoom && l.gone == nil && !e.worthwhile(settings, l) {
			continue
		}
		for i, s := range settings {
			if e.lifts(s.at, l) {
				all = append(all, found{code, move{
					knobs: []Knob{c.knob}, far: float64(i + 1), changes: s.changes, moves: c.moves, set: s.set, at: s.at,
				}})
				break
			}
		}
	}
	return all
}

// setting is an option of a choice, and the mission changed so.
type setting struct {
	option
	at *rooms
}

// settings lists the options of a choice, once for each mission.
func (e *expansion) settings(c choice) []setting {
	if known, ok := e.set[c.knob]; ok {
		return known
	}
	var all []setting
	for _, o := range c.options(e.from.at) {
		all = append(all, setting{o, e.from.at.changed(o.set(e.from.at.m), c.moves)})
	}
	e.set[c.knob] = all
	return all
}

// worthwhile reports whether the setting that makes the largest drops lifts a finding of the drift, so
// that the drift need not be worked out for the others where it does not.
func (e *expansion) worthwhile(settings []setting, l lever) bool {
	best, known := e.coarsest(settings, l)
	return known && e.lifts(best.at, l)
}

// lifts reports whether a finding is gone from the room that decides it, in a changed mission.
func (e *expansion) lifts(at *rooms, l lever) bool {
	if !e.work.searches() {
		return false
	}
	if l.gone != nil {
		return l.gone(at)
	}
	return e.looks(at, l) && !shows(at, l)
}

// looks reports whether the room that decides a finding may be asked. Where that is the drift, the
// spray is looked at first: a setting that it refuses is none.
func (e *expansion) looks(at *rooms, l lever) bool {
	if l.room != riskRoom || at.done&riskRoom != 0 {
		return true
	}
	if e.drifts >= mostDrifts || e.refused(at) {
		return false
	}
	e.drifts++
	return true
}

// refused reports whether the spray room stops a changed mission for something it did not find before.
func (e *expansion) refused(at *rooms) bool {
	return slices.ContainsFunc(at.findings(rateRoom), func(f finding.Finding) bool {
		return f.Severity == finding.Stop && !slices.ContainsFunc(e.from.at.findings(rateRoom), func(g finding.Finding) bool {
			return g.Severity == finding.Stop && g.Code == f.Code
		})
	})
}

// shows reports whether the room that decides a finding still has it.
func shows(at *rooms, l lever) bool {
	return slices.ContainsFunc(at.findings(l.room), func(f finding.Finding) bool { return f.Code == l.code && liftableFinding(f) })
}
