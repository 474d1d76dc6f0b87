package permits

import (
	"fmt"
	"slices"
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
func longestLead(items []Item, rules []Rule) LeadChain {
	needed := make(map[string]Item, len(items))
	for _, item := range items {
		if item.Status == NeededNow && item.Kind != Duty {
			needed[item.ID] = item
		}
	}
	longest := longestChain(needed, rules, func(i Item) units.Duration { return i.Lead })
	if longest.Lead == 0 {
		return LeadChain{}
	}
	longest.Least = longestChain(needed, rules, Item.quickLead).Lead
	longest.Text = longest.words(needed)
	return longest
}

// quickLead is the lead time where the quick path is open.
func (i Item) quickLead() units.Duration {
	if i.QuickPath != "" {
		return 0
	}
	return i.Lead
}

// longestChain finds the chain whose steps take longest by the given time of a step.
func longestChain(needed map[string]Item, rules []Rule, lead func(Item) units.Duration) LeadChain {
	chains := make(map[string]LeadChain, len(needed))
	var longest LeadChain
	for _, rule := range rules {
		item, ok := needed[rule.ID]
		if !ok {
			continue
		}
		var before LeadChain
		for _, id := range rule.DependsOn {
			if chain, open := chains[id]; open && chain.outlasts(before) {
				before = chain
			}
		}
		chain := LeadChain{IDs: append(slices.Clone(before.IDs), rule.ID), Lead: before.Lead + lead(item)}
		chains[rule.ID] = chain
		if chain.outlasts(longest) {
			longest = chain
		}
	}
	return longest
}

// outlasts reports whether the chain takes longer than another or, in equal time, has more steps.
func (c LeadChain) outlasts(other LeadChain) bool {
	return c.Lead > other.Lead || c.Lead == other.Lead && len(c.IDs) > len(other.IDs)
}

// words says the chain, and what a quick path on it would save.
func (c LeadChain) words(needed map[string]Item) string {
	said := fmt.Sprintf("at least %s by official figures, in this order: %s", days(c.Lead), strings.Join(c.IDs, ", "))
	for _, id := range c.IDs {
		if path := needed[id].QuickPath; path != "" {
			said = fmt.Sprintf("up to %s by official figures, in this order: %s; %s needs no such wait by the quick path (%s): then %s in all",
				days(c.Lead), strings.Join(c.IDs, ", "), id, path, days(c.Least))
		}
	}
	return said + "; steps without an official figure add to it"
}

// days says a lead time in days.
func days(t units.Duration) string {
	if t == 0 {
		return "no days"
	}
	return fmt.Sprintf("%.0f days", t.SI()/day.SI())
}
