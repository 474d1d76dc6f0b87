package form

import (
	"slices"
	"strings"

	"tractcheck/api/wire"
)

// paper is one thing that can be held: its id in the request and its title in the table of rules.
type paper struct {
	ID, Title, Citation string
}

// paperGroup is the papers of one stage of the work.
type paperGroup struct {
	Title  string
	Folded bool
	Papers []paper
}

// paperTitles are the groups of the table of rules that papers are held from, in its order.
var paperTitles = []struct{ group, title string }{
	{"pilot", "The pilot"},
	{"aircraft", "The aircraft"},
	{"exemption", "Exemption and air traffic"},
	{"operator", "The operator"},
	{"certification", "State and pesticide certification"},
	{"job", "This job"},
	{"protection", "Workers, water and species"},
}

// papers lists what can be held, from the table of rules: every permit, what satisfies one, and,
// closed, the waivers and permissions that lift a limit.
func papers() []paperGroup {
	rows := rules()
	var groups []paperGroup
	seen := map[string]bool{}
	for _, g := range paperTitles {
		group := paperGroup{Title: g.title}
		for _, r := range rows {
			if r.Group == g.group && r.Kind == "permit" {
				group.add(seen, r.ID, r.Title, r.Citation)
				for _, by := range r.HeldBy {
					_, variant, qualified := strings.Cut(by.ID, ":")
					if qualified {
						group.add(seen, by.ID, r.Title+", "+variant, r.Citation)
					}
				}
			}
		}
		groups = append(groups, group)
	}
	waivers := paperGroup{Title: "Waivers and written permissions", Folded: true}
	for _, r := range rows {
		if r.Waiver != "" {
			waivers.add(seen, r.Waiver, "Lifted for you: "+r.Title, r.Citation)
		}
	}
	return slices.DeleteFunc(append(groups, waivers), func(g paperGroup) bool { return len(g.Papers) == 0 })
}

func (g *paperGroup) add(seen map[string]bool, id, title, citation string) {
	if !seen[id] {
		seen[id] = true
		g.Papers = append(g.Papers, paper{ID: id, Title: title, Citation: citation})
	}
}

// rules is the table of rules as it is served.
func rules() []wire.AuthorizationRule {
	for _, reference := range wire.References() {
		if table, ok := reference.Table.(wire.AuthorizationTable); ok {
			return table.Rows
		}
	}
	return nil
}

// boxes are what can be ticked of a list of ids: its closed list, else the papers.
func (f *Form) boxes(l line) []paperGroup {
	if len(l.choices) == 0 {
		return f.papers
	}
	group := paperGroup{Title: l.label}
	for _, code := range l.choices {
		group.Papers = append(group.Papers, paper{ID: code, Title: say(choiceWords, code)})
	}
	return []paperGroup{group}
}

// boxed reports whether an id has a box to tick.
func boxed(groups []paperGroup, id string) bool {
	return slices.ContainsFunc(groups, func(g paperGroup) bool {
		return slices.ContainsFunc(g.Papers, func(p paper) bool { return p.ID == id })
	})
}
