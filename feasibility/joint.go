package feasibility

import (
	"cmp"
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

// mostLeads is how many knobs a pair may start from. Own choice.
const mostLeads = 2

// joint finds two knobs that lift a finding together where neither does alone. Both must help. Each
// figure is then brought as near to the one that stands as the other allows.
func (e *expansion) joint(code finding.Code) (move, bool) {
	l, bears := e.leverOf(code)
	if !bears || l.room == follows {
		return move{}, false
	}
	pushes := e.pushes(l)
	for _, first := range pushes[:min(mostLeads, len(pushes))] {
		for _, second := range pushes {
			if second.knob == first.knob {
				continue
			}
			if m, lifts := e.pair(first, second, l); lifts {
				return m, true
			}
		}
	}
	return move{}, false
}

// pushes lists the knobs that bring a finding nearer to its limit, the one that helps most first.
func (e *expansion) pushes(l lever) []push {
	var helping []push
	here := score(e.from.at, l)
	consider := func(p push) {
		at := e.from.at.changed(p.apply(e.from.at.m), p.moves)
		if p.dial != nil {
			at = e.dialed(p.dial, p.to)
		}
		if l.gone == nil && !e.looks(at, l) {
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
			consider(push{knob: d.knob, moves: d.moves, dial: d, now: now, to: e.reached(d, now, end)})
		}
	}
	for _, c := range []choice{nozzleSizes(), nozzleTypes()} {
		if o, any := e.coarsest(c, l); any && e.turns(l, c.knob) {
			consider(push{knob: c.knob, moves: c.moves, set: o.set, changes: o.changes})
		}
	}
	slices.SortStableFunc(helping, func(a, b push) int { return cmp.Compare(b.gain, a.gain) })
	return helping
}

// reached is an end of a dial as a figure that a crew can set.
func (e *expansion) reached(d *dial, now, end float64) float64 {
	scale := d.scale(e.from.at.m.Scales)
	power, finest := powers(d.sensible, scale, max(now, end)/scale)
	for ; power > finest; power-- {
		if near, far := between(now/scale, end/scale, power); near != far {
			return figure{far, power}.value() * scale
		}
	}
	return now
}

// coarsest is the setting of a nozzle knob that makes the largest drops, or the smallest where the
// finding is that they are too large, among those the spray room does not refuse.
func (e *expansion) coarsest(c choice, l lever) (option, bool) {
	best, most, any := option{}, 0.0, false
	for _, o := range c.options(e.from.at) {
		at := e.from.at.changed(o.set(e.from.at.m), c.moves)
		if e.refused(at) {
			continue
		}
		if s := dropScore(at, l.code); !any || s > most {
			best, most, any = o, s, true
		}
	}
	return best, any
}

func (p push) apply(m Mission) Mission {
	if p.dial != nil {
		return p.dial.turn(m, p.to)
	}
	return p.set(m)
}

// pair tries two pushes together, and where they lift the finding brings each back as far as it goes.
func (e *expansion) pair(first, second push, l lever) (move, bool) {
	moves := first.moves | second.moves
	changed := func() *rooms { return e.from.at.changed(second.apply(first.apply(e.from.at.m)), moves) }
	if !e.lifts(changed(), l) {
		return move{}, false
	}
	for _, p := range []*push{&second, &first} {
		if p.dial == nil {
			continue
		}
		far := p.to
		if near, lifts := least(p.now, far, p.dial.scale(e.from.at.m.Scales), p.dial.sensible, func(to float64) bool {
			p.to = to
			return e.lifts(changed(), l)
		}); lifts {
			far = near
		}
		p.to = far
	}
	m := move{knobs: []Knob{first.knob, second.knob}, far: 1, at: changed()}
	m.changes = joined(first.change(e.from.at), second.change(e.from.at))
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

// score says how a finding stands to its limit in a changed mission; more is better. A finding that is
// not measured is scored by the size of the drops.
func score(at *rooms, l lever) float64 {
	if l.gone != nil {
		return dropScore(at, l.code)
	}
	least, any := 0.0, false
	for _, f := range at.findings(l.room) {
		if f.Code != l.code || f.Margin == nil {
			continue
		}
		if m := f.Margin.SI(); !any || m < least {
			least, any = m, true
		}
	}
	if any {
		return least
	}
	return dropScore(at, l.code)
}

func dropScore(at *rooms, code finding.Code) float64 {
	size := at.rate().Droplet.Spectrum.Dv05.SI()
	if code == drift.CodeDropletTooCoarse {
		return -size
	}
	return size
}
