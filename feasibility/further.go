package feasibility

import (
	"cmp"
	"slices"

	"tractcheck/feasibility/finding"
)

// further goes on from changes that lift every stop and leave a point open that one more change settles:
// one that they opened themselves, such as a nozzle that wants more pressure, or one that another change
// was found for. It returns the ways that leave the fewest points open, where those are fewer than after
// any of the changes it went on from.
func (s *search) further(root node, ways, tried []outcome) []outcome {
	if len(ways) == 0 {
		return nil
	}
	worth := func(o outcome) []finding.Code {
		return slices.DeleteFunc(liftable(o.answer), func(c finding.Code) bool {
			return s.fixed(c) || slices.Contains(liftable(root.answer), c) && !lifts(tried, c)
		})
	}
	queue := slices.Clone(ways)
	slices.SortStableFunc(queue, fewestOpen)
	best, fewest := []outcome(nil), queue[0].open()
	for range mostExpansions - 1 {
		if len(queue) == 0 || s.surveys+mostSurveys > mostInAll || !s.work.searches() {
			break
		}
		next := queue[0]
		queue = queue[1:]
		codes := worth(next)
		if len(codes) == 0 {
			continue
		}
		for _, o := range s.expand(next.node, codes) {
			o = against(root, o)
			if !o.sound() || !o.full() || o.idle() || o.open() > fewest || o.open() == fewest && len(best) == 0 {
				continue
			}
			if o.open() < fewest {
				best, fewest = nil, o.open()
				queue = append([]outcome{o}, queue...)
			}
			best = append(best, o)
		}
		if len(best) > 0 && len(worth(best[0])) == 0 {
			break
		}
	}
	for i, o := range best {
		best[i] = s.pruned(root, o)
	}
	return best
}

// open counts the points that a change of the mission could settle, stops among them.
func (o outcome) open() int { return len(liftable(o.answer)) }

// fewestOpen puts the outcome with the fewest open points first, then the one with the fewest changes.
func fewestOpen(a, b outcome) int {
	return cmp.Or(a.open()-b.open(), len(a.knobs)-len(b.knobs))
}

// idle reports whether a word is changed there and back, so that only what goes with it is taken out.
func (o outcome) idle() bool {
	return slices.ContainsFunc(o.changes, func(c Change) bool { return c.ToWord != "" && c.ToWord == c.FromWord })
}
