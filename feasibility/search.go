package feasibility

import (
	"cmp"
	"slices"

	"tractcheck/feasibility/finding"
)

// search looks for remedies of one mission.
type search struct {
	allowed []Knob
	levers  []lever // with the knobs allowed only
	surveys int     // changed missions worked out in full
	first   []found // the changes found for the stops of the mission asked about
	brief   bool    // a stop remains whatever is changed: only single changes for the other stops are looked for
	spent   bool    // a stop has no single change and no pair, though the spray is in order
	work    *effort
}

// newSearch starts a search over the knobs that the mission lets be turned.
func newSearch(r *rooms) *search {
	m := r.m
	s := &search{allowed: m.knobs(), levers: levers(), work: newEffort(r.land)}
	for i, l := range s.levers {
		s.levers[i].knobs = slices.DeleteFunc(slices.Clone(l.knobs), func(k Knob) bool { return !slices.Contains(s.allowed, k) })
	}
	return s
}

// outcome is a move worked out in full.
type outcome struct {
	node
	lifted []finding.Code // of the mission it started from
	raised []finding.Code // what bars a remedy and was not there before
	worse  bool           // flights could be planned before and no longer
}

// full reports whether nothing stops the changed mission.
func (o outcome) full() bool { return len(stopCodes(o.answer)) == 0 }

// sound reports whether the change is a remedy by itself.
func (o outcome) sound() bool { return len(o.lifted) > 0 && len(o.raised) == 0 && !o.worse }

// expand tries the smallest single changes of a mission, and pairs for a finding that no single one
// lifts, and works out in full those that look like remedies. Stops go first, and nothing that is done
// for the other findings bears on what is found for them: so the same stops of the same mission are
// always lifted by the same changes, whatever the search came from.
func (s *search) expand(n node, codes []finding.Code) []outcome {
	e := &expansion{search: s, from: n, set: map[Knob][]setting{}}
	stopped := stopCodes(n.answer)
	other := without(codes, stopped)
	out := e.lift(without(codes, other))
	if len(other) > 0 && !s.brief {
		out = e.more(out, other)
	}
	return out
}

// lift finds and works out the changes for the stops. For each knob the change that lifts the most of
// them comes first; smaller ones only where no change lifts every stop.
func (e *expansion) lift(codes []finding.Code) []outcome {
	e.found = e.either(codes)
	if len(e.from.changes) == 0 {
		e.first = e.found
	}
	most := farthest(e.found)
	out := e.workOutAll(nil, most)
	if !e.brief && !slices.ContainsFunc(out, func(o outcome) bool { return o.sound() && o.full() }) {
		out = e.workOutAll(out, others(every(e.found), most))
	}
	return out
}

// more goes on to the other findings: for each knob the change that lifts the most of all, and where
// nothing stops the mission the smaller ones too.
func (e *expansion) more(out []outcome, codes []finding.Code) []outcome {
	before := every(e.found)
	e.found = append(e.found, e.either(codes)...)
	most := others(farthest(e.found), before)
	out = e.workOutAll(out, most)
	if len(before) == 0 {
		out = e.workOutAll(out, others(every(e.found), most))
	}
	return out
}

// either finds single changes for the findings, and pairs for those that no single one lifts.
func (e *expansion) either(codes []finding.Code) []found {
	all := e.moves(codes)
	if e.brief {
		return all
	}
	for _, code := range codes {
		if slices.ContainsFunc(all, func(f found) bool { return f.code == code }) {
			continue
		}
		m, lifts := e.joint(code)
		if lifts {
			all = append(all, found{code, m})
		}
		e.spent = e.spent || !lifts && e.final(code)
	}
	return all
}

// workOutAll works out moves in full, as far as the bound on them goes.
func (e *expansion) workOutAll(out []outcome, moves []move) []outcome {
	for _, m := range moves {
		if e.worked < mostSurveys && e.work.verifies() {
			e.worked++
			out = append(out, e.workOut(e.from, m))
		}
	}
	return out
}

// final reports whether a stop for which nothing was found is one that no change of other stops will
// make liftable: the spray is in order, so no setting was refused for its sake.
func (e *expansion) final(code finding.Code) bool {
	l, bears := e.leverOf(code)
	stop := func(f finding.Finding) bool { return f.Severity == finding.Stop }
	return bears && l.room == riskRoom && len(e.from.changes) == 0 &&
		slices.Contains(stopCodes(e.from.answer), code) && !slices.ContainsFunc(e.from.at.findings(rateRoom), stop)
}

// farthest keeps, for each knob and direction, the move that goes farthest.
func farthest(all []found) []move {
	var kept []move
	for _, f := range all {
		i := slices.IndexFunc(kept, func(m move) bool { return slices.Equal(m.knobs, f.knobs) && m.down == f.down })
		switch {
		case i < 0:
			kept = append(kept, f.move)
		case f.far > kept[i].far:
			kept[i] = f.move
		}
	}
	return kept
}

// every lists all moves.
func every(all []found) []move {
	var moves []move
	for _, f := range all {
		moves = append(moves, f.move)
	}
	return moves
}

// others lists the moves that are not among some, each once.
func others(moves, known []move) []move {
	same := func(a, b move) bool { return slices.Equal(a.knobs, b.knobs) && a.down == b.down && a.far == b.far }
	var kept []move
	for _, m := range moves {
		is := func(k move) bool { return same(k, m) }
		if !slices.ContainsFunc(known, is) && !slices.ContainsFunc(kept, is) {
			kept = append(kept, m)
		}
	}
	return kept
}

// workOut lets the changed mission flow through the rooms.
func (s *search) workOut(n node, m move) outcome {
	s.surveys++
	after := m.at.core()
	return outcome{
		node: node{
			at: m.at, answer: after,
			changes: joined(n.changes, m.changes), knobs: append(slices.Clone(n.knobs), m.knobs...),
			made: append(slices.Clone(n.made), m),
		},
		lifted: without(liftable(n.answer), liftable(after)),
		raised: without(barring(after), barring(n.answer)),
		worse:  n.answer.outlook().planned && !after.outlook().planned,
	}
}

// deeper goes on from changes that lift something but not every stop: it changes the changed mission,
// the one with the fewest stops first. It returns the changes that lift every stop in the end, and
// those from which one more change did.
func (s *search) deeper(root node, first []outcome) (full, onTheWay []outcome) {
	queue := slices.DeleteFunc(slices.Clone(first), func(o outcome) bool { return len(o.lifted) == 0 || o.worse })
	slices.SortStableFunc(queue, nearest)
	if o, some := s.forced(root); some {
		if o.sound() && o.full() {
			return []outcome{o}, nil
		}
		queue = append([]outcome{o}, queue...)
	}
	for range mostExpansions - 1 {
		if len(queue) == 0 || len(full) > 0 || s.surveys+mostSurveys > mostInAll || !s.work.searches() {
			break
		}
		next := queue[0]
		queue = queue[1:]
		before := len(full)
		for _, o := range s.expand(next.node, stopCodes(next.answer)) {
			switch {
			case o.sound() && o.full():
				full = append(full, s.pruned(root, against(root, o)))
			case len(o.lifted) > 0 && !o.worse:
				queue = append(queue, o)
				slices.SortStableFunc(queue, nearest)
			}
		}
		if len(full) > before && next.sound() {
			onTheWay = append(onTheWay, against(root, next))
		}
	}
	return full, onTheWay
}

// nearest puts the outcome with the fewest stops first, then the one with the fewest changes.
func nearest(a, b outcome) int {
	return cmp.Or(len(stopCodes(a.answer))-len(stopCodes(b.answer)), len(a.knobs)-len(b.knobs))
}

// forced makes, all at once, the changes for the stops on which one knob alone bears: what the label or
// the scale asks for comes before what several knobs can do. It reports false where there are none.
func (s *search) forced(root node) (outcome, bool) {
	stopped := stopCodes(root.answer)
	only := farthest(slices.DeleteFunc(slices.Clone(s.first), func(f found) bool {
		l, _ := s.leverOf(f.code)
		return len(l.knobs) != 1 || !slices.Contains(stopped, f.code)
	}))
	if len(only) == 0 || !s.work.searches() {
		return outcome{}, false
	}
	m, all := root.at.m, move{}
	for _, f := range only {
		m = f.set(m)
		all.knobs, all.moves = append(all.knobs, f.knobs...), all.moves|f.moves
		all.changes = joined(all.changes, f.changes)
	}
	all.at = root.at.changed(m, all.moves)
	o := against(root, s.workOut(root, all))
	o.made = only
	return o, true
}

// against holds the outcome of several moves against the mission asked about.
func against(root node, o outcome) outcome {
	o.lifted = without(liftable(root.answer), liftable(o.answer))
	o.raised = without(barring(o.answer), barring(root.answer))
	o.worse = root.answer.outlook().planned && !o.answer.outlook().planned
	return o
}
