package permits

import (
	"fmt"
	"slices"
	"strings"

	"tractcheck/feasibility/units"
)

// LeadChain is the longest chain of needed items, each waiting for the one before, with the sum of
// their official lead times. Steps without an official figure count as nothing, so the true time
// is longer.
type LeadChain struct {
	IDs  []string       // first step first; empty where nothing needed has an official lead time
	Lead units.Duration // sum of the official lead times
	Text string         // plain words
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
		chain := LeadChain{IDs: append(slices.Clone(before.IDs), rule.ID), Lead: before.Lead + item.Lead}
		chains[rule.ID] = chain
		if chain.outlasts(longest) {
			longest = chain
		}
	}
	if longest.Lead == 0 {
		return LeadChain{}
	}
	longest.Text = fmt.Sprintf("at least %.0f days by official figures, in this order: %s; steps without an official figure add to it",
		longest.Lead.SI()/day.SI(), strings.Join(longest.IDs, ", "))
	return longest
}

// outlasts reports whether the chain takes longer than another or, in equal time, has more steps.
func (c LeadChain) outlasts(other LeadChain) bool {
	return c.Lead > other.Lead || c.Lead == other.Lead && len(c.IDs) > len(other.IDs)
}
