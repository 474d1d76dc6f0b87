package feasibility

import (
	"cmp"
	"math"
	"slices"

	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/finding"
)

// push is a knob turned as far as it goes, or to the setting that helps most.
type push struct {
	knob    Knob
	moves   room
	dial    *dial
	now, to float64               // of a dial
	set     func(Mission) Mission // of a choice
	changes []Change              // likewise
	gain    float64               // how much nearer it brings the finding to its limit
}

// The bounds of the pairs and threes tried for one finding. Own choices. Knobs are only tried together
// where one by one they go promising of the way to the limit: their effects on drift multiply, near
// enough.
const (
	mostPairs = 10
	promising = 0.7
)

// joint finds two knobs that lift a finding together where neither does alone, else three. Each must
// help. Each figure is then brought as near to the one that stands as the others allow.
func (e *expansion) joint(code finding.Code) (move, bool) {
	l, bears := e.leverOf(code)
	if !bears || l.room == follows {
		return move{}, false
	}
	pushes := e.pushes(l)
	need := -promising * score(e.from.at, l)
	if l.gone != nil {
		need = 0 // the size of drops has no limit to measure the way to
	}
	sets := pairs(pushes)
	sets = sets[:min(mostPairs, len(sets))]
	if three := distinct(pushes, 3); len(three) == 3 {
		sets = append(sets, three)
	}
	for _, set := range sets {
		if gains(set) < need {
			continue
		}
		if m, lifts := e.together(set, l); lifts {
			return m, true
		}
	}
	return move{}, false
}

// pairs lists the pairs of two knobs, those that help most together first.
func pairs(pushes []push) [][]push {
	var all [][]push
	for i, first := range pushes {
		for _, second := range pushes[i+1:] {
			if second.knob != first.knob {
				all = append(all, []push{first, second})
			}
		}
	}
	slices.SortStableFunc(all, func(a, b []push) int { return cmp.Compare(gains(b), gains(a)) })
	return all
}

// distinct is the first pushes of so many knobs.
func distinct(pushes []push, most int) []push {
	var kept []push
	for _, p := range pushes {
		if len(kept) < most && !slices.ContainsFunc(kept, func(k push) bool { return k.knob == p.knob }) {
			kept = append(kept, p)
		}
	}
	return kept
}

func gains(pushes []push) float64 {
	sum := 0.0
	for _, p := range pushes {
		sum += p.gain
	}
	return sum
}

// pushes lists the knobs that bring a finding nearer to its limit, the one that helps most first.
func (e *expansion) pushes(l lever) []push {
	var helping []push
	here := score(e.from.at, l)
	consider := func(p push, at *rooms) {
		if !e.work.searches() || l.gone == nil && !e.looks(at, l) {
			return
		}
		if p.gain = score(at, l) - here; p.gain > 0 {
			helping = append(helping, p)
		}
	}
	turning := dials()
	for i := range turning {
		d := &turning[i]
		now, _ := d.now(e.from.at)
		if !(now > 0) || !e.turns(l, d.knob) {
			continue
		}
		for _, end := range outermost(now, d.ends(e.from.at, now)) {
			consider(push{knob: d.knob, moves: d.moves, dial: d, now: now, to: end}, e.dialed(d, end))
		}
	}
	for _, c := range []choice{nozzleSizes(), nozzleTypes()} {
		if !e.turns(l, c.knob) {
			continue
		}
		if best, known := e.coarsest(e.settings(c), l); known {
			consider(push{knob: c.knob, moves: c.moves, set: best.set, changes: best.changes}, best.at)
		}
	}
	slices.SortStableFunc(helping, func(a, b push) int { return cmp.Compare(b.gain, a.gain) })
	return helping
}

// coarsest is the setting of a nozzle knob that makes the largest drops, or the smallest where the
// finding is that they are too large, among those the spray room does not refuse.
func (e *expansion) coarsest(settings []setting, l lever) (best setting, known bool) {
	most := 0.0
	for _, s := range settings {
		if e.refused(s.at) {
			continue
		}
		if size := dropScore(s.at, l.code); !known || size > most {
			best, most, known = s, size, true
		}
	}
	return best, known
}

func (p push) apply(m Mission) Mission {
	if p.dial != nil {
		return p.dial.turn(m, p.to)
	}
	return p.set(m)
}

// together tries some pushes at once, and where they lift the finding brings each back as far as it
// goes, the one that helps least first.
func (e *expansion) together(set []push, l lever) (move, bool) {
	set = slices.Clone(set)
	var moves room
	for _, p := range set {
		moves |= p.moves
	}
	all := func(m Mission) Mission {
		for _, p := range set {
			m = p.apply(m)
		}
		return m
	}
	changed := func() *rooms { return e.from.at.changed(all(e.from.at.m), moves) }
	if !e.lifts(changed(), l) {
		return move{}, false
	}
	for i := len(set) - 1; i >= 0; i-- {
		p := &set[i]
		if p.dial == nil {
			continue
		}
		near, lifts := least(p.now, p.to, p.dial.scale(e.from.at.m.Scales), p.dial.sensible, func(to float64) bool {
			p.to = to
			return e.lifts(changed(), l)
		})
		if !lifts {
			return move{}, false
		}
		p.to = near
	}
	m := move{far: 1, moves: moves, set: all, at: changed()}
	for _, p := range set {
		m.knobs = append(m.knobs, p.knob)
		m.changes = joined(m.changes, p.change(e.from.at))
	}
	return m, true
}

// change lists the changes of a push.
func (p push) change(r *rooms) []Change {
	if p.dial == nil {
		return p.changes
	}
	c := Change{Pointer: p.dial.pointer, To: p.dial.quantity(p.to)}
	if now, stated := p.dial.now(r); stated {
		c.From = p.dial.quantity(now)
	}
	return []Change{c}
}

// joined puts changes together, one for each fact: the last stands, with what stood before the first.
func joined(earlier, later []Change) []Change {
	all := slices.Clone(earlier)
	for _, c := range later {
		if i := slices.IndexFunc(all, func(d Change) bool { return d.Pointer == c.Pointer }); i >= 0 {
			c.From, c.FromWord = all[i].From, all[i].FromWord
			all[i] = c
			continue
		}
		all = append(all, c)
	}
	return all
}

// score says how a finding stands to its limit in a changed mission: zero at the limit, more is better.
// What is measured against a limit above zero counts by the logarithm of how many times it is over; a
// finding that is not measured by the size of the drops.
func score(at *rooms, l lever) float64 {
	least, measured := 0.0, false
	for _, f := range at.findings(l.room) {
		if f.Code != l.code || f.Margin == nil {
			continue
		}
		m := f.Margin.SI()
		if f.Measured != nil && f.Measured.SI() > 0 && f.Limit != nil && f.Limit.SI() > 0 {
			m = -math.Abs(math.Log(f.Measured.SI() / f.Limit.SI()))
		}
		if !measured || m < least {
			least, measured = m, true
		}
	}
	if l.gone != nil || !measured {
		return dropScore(at, l.code)
	}
	return least
}

// dropScore is the size of the drops, the other way round where they are too large.
func dropScore(at *rooms, code finding.Code) float64 {
	size := at.rate().Droplet.Spectrum.Dv05.SI()
	if code == drift.CodeDropletTooCoarse {
		return -size
	}
	return size
}
