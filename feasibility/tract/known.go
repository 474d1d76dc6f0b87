package tract

import "slices"

// known is what earlier missions worked out of a field.
type known struct {
	cleared []*cleared
	laid    []*laid
}

// Own choices, which bound the memory: the ways of laying lines that are kept for later missions, and the
// pieces of line that they may have together.
const (
	mostKnown     = 16
	mostKnownRuns = 200_000
)

// Begin readies the land for the jobs of another mission. What earlier missions worked out of the field is not
// worked out again, but counted as if it were: what is given up, and when a search ends, depends on the
// mission alone.
func (l *Land) Begin() {
	if l.known == nil {
		l.known = &known{}
	}
	l.known.keep(l.cleared, l.laid)
	l.surveyed.counted, l.cleared, l.laid = false, nil, nil
	l.joined, l.work = joined{}, tally{}
}

// Of reports whether the land is that of a field.
func (l *Land) Of(field Field) bool { return l.field.same(&field) }

// keep adds what a mission worked out. Of the ways of laying lines those are kept that took most steps.
func (k *known) keep(c *cleared, more []*laid) {
	if c != nil && k.clearing(c.asked) == nil {
		k.cleared = append(k.cleared, c)
		k.cleared = k.cleared[max(0, len(k.cleared)-mostKnown):]
	}
	for _, on := range more {
		if k.laying(on.lie, on.asked) == nil {
			k.laid = append(k.laid, on)
		}
	}
	slices.SortStableFunc(k.laid, func(a, b *laid) int { return b.steps - a.steps })
	runs := 0
	for i, on := range k.laid {
		if runs += on.runs(); i == mostKnown || runs > mostKnownRuns {
			clear(k.laid[i:])
			k.laid = k.laid[:i]
			break
		}
	}
}

// runs counts the pieces of line that are held.
func (on *laid) runs() int {
	count := len(on.layout.runs)
	for _, w := range on.rivals.ways {
		count += len(w.layout.runs)
	}
	if on.rivals.flat != nil {
		count += len(on.rivals.flat.runs)
	}
	return count
}

// clearing finds ground with the same strips.
func (k *known) clearing(strips []Clear) *cleared {
	if k == nil {
		return nil
	}
	for _, c := range k.cleared {
		if slices.Equal(c.asked, strips) {
			return c
		}
	}
	return nil
}

// laying finds lines that lie as a job asks.
func (k *known) laying(at lie, strips []Clear) *laid {
	if k == nil {
		return nil
	}
	for _, on := range k.laid {
		if on.of(at, strips) {
			return on
		}
	}
	return nil
}
