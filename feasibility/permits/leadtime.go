package permits

import (
	"strconv"
	"strings"

	"tractcheck/feasibility/units"
)

// LeadChain is the longest chain of needed items, each waiting for the one before, with the sum of
// their official lead times. Steps without an official figure count as nothing, so the true time
// is longer. Least is the longest chain where every quick path is open; it is Lead where the chain
// has none.
type LeadChain struct {
	IDs   []string       // first step first; empty where nothing needed has an official lead time
	Lead  units.Duration // sum of the official lead times
	Least units.Duration // the same where every quick path is open
	Text  string         // plain words
}

// longestLead finds the chain. Rules name only earlier rows as dependencies, so one pass in the
// order of the table is enough. Of equal times the chain with more steps wins, then the first; steps
// without a figure of their own are part of it.
func longestLead(items []Item) LeadChain {
	var (
		itemRoom [usualRows]*Item
		stepRoom [usualRows]step
	)
	needed, steps := sized(itemRoom[:], len(table)), sized(stepRoom[:], len(table))
	for i := range items {
		if item := &items[i]; item.row != nil && item.Status == NeededNow && item.Kind != Duty {
			needed[item.row.at] = item
		}
	}
	last := longestChain(needed, steps, func(i *Item) units.Duration { return i.Lead })
	if last < 0 || steps[last].lead == 0 {
		return LeadChain{}
	}
	longest := LeadChain{IDs: chainIDs(steps, last), Lead: steps[last].lead}
	longest.Least = steps[longestChain(needed, steps, (*Item).quickLead)].lead
	longest.Text = longest.words(needed)
	return longest
}

// quickLead is the lead time where the quick path is open.
func (i *Item) quickLead() units.Duration {
	if i.QuickPath != "" {
		return 0
	}
	return i.Lead
}

// step is a needed row as the end of the longest chain that leads to it.
type step struct {
	before int            // the row waited for; -1 where there is none
	lead   units.Duration // of the whole chain
	count  int            // of the steps of the chain; 0 where the row is not needed
}

// outlasts reports whether the chain takes longer than another or, in equal time, has more steps.
func (s step) outlasts(other step) bool {
	return s.lead > other.lead || s.lead == other.lead && s.count > other.count
}

// longestChain fills in the steps by the given time of each, and finds the end of the chain that takes
// longest; -1 where nothing is needed.
func longestChain(needed []*Item, steps []step, lead func(*Item) units.Duration) int {
	last, longest := -1, step{}
	for at := range table {
		steps[at] = step{before: -1}
		if needed[at] == nil {
			continue
		}
		before := step{}
		for _, earlier := range table[at].after {
			if steps[earlier].outlasts(before) {
				before, steps[at].before = steps[earlier], earlier
			}
		}
		steps[at].lead, steps[at].count = before.lead+lead(needed[at]), before.count+1
		if steps[at].outlasts(longest) {
			last, longest = at, steps[at]
		}
	}
	return last
}

// chainIDs lists the rows of a chain, first step first.
func chainIDs(steps []step, last int) []string {
	ids := make([]string, steps[last].count)
	for at := last; at >= 0; at = steps[at].before {
		ids[steps[at].count-1] = table[at].ID
	}
	return ids
}

// words says the chain, and what a quick path on it would save.
func (c LeadChain) words(needed []*Item) string {
	order := strings.Join(c.IDs, ", ")
	said := "at least " + days(c.Lead) + " by official figures, in this order: " + order
	for _, id := range c.IDs {
		if path := needed[rowOf(id).at].QuickPath; path != "" {
			said = "up to " + days(c.Lead) + " by official figures, in this order: " + order + "; " + id +
				" needs no such wait by the quick path (" + path + "): then " + days(c.Least) + " in all"
		}
	}
	return said + "; steps without an official figure add to it"
}

// days says a lead time in days.
func days(t units.Duration) string {
	if t == 0 {
		return "no days"
	}
	return strconv.FormatFloat(t.SI()/day.SI(), 'f', 0, 64) + " days"
}
