package feasibility

import "slices"

// pruned leaves out of a set of changes what is not needed: a change is dropped where the others lift
// every stop without it and leave no more points open. The last one is needed: without it a stop was
// left, or a point.
func (s *search) pruned(root node, o outcome) outcome {
	for i := 0; i < len(o.made)-1 && s.surveys < mostInAll && s.work.searches(); {
		if shorter, still := s.dropped(root, o, i); still {
			o = shorter
			continue
		}
		i++
	}
	return o
}

// dropped makes a set of changes without one of them, and reports whether that still is a remedy for
// every stop. Of two changes of the nozzles none is dropped: the first says for both what is taken out.
func (s *search) dropped(root node, o outcome, i int) (outcome, bool) {
	if slices.ContainsFunc(o.made[i].knobs, aboutNozzles) {
		return o, false
	}
	m, all := root.at.m, move{}
	for j, made := range o.made {
		if j == i {
			continue
		}
		m = made.set(m)
		all.knobs, all.moves = append(all.knobs, made.knobs...), all.moves|made.moves
		all.changes = joined(all.changes, made.changes)
	}
	for j, c := range all.changes { // what stood there at first, not in between
		if k := slices.IndexFunc(o.changes, func(d Change) bool { return d.Pointer == c.Pointer }); k >= 0 {
			all.changes[j].From, all.changes[j].FromWord = o.changes[k].From, o.changes[k].FromWord
		}
	}
	all.at = root.at.changed(m, all.moves)
	shorter := against(root, s.workOut(root, all))
	shorter.made = slices.Delete(slices.Clone(o.made), i, i+1)
	return shorter, shorter.sound() && shorter.full() && shorter.open() <= o.open()
}

func aboutNozzles(k Knob) bool { return k == KnobNozzleSize || k == KnobNozzleType }
