package sheet

import (
	"slices"
	"strings"
	"time"

	"tractcheck/api/wire"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/permits"
)

// first is what must change or be obtained first, in order.
type first struct {
	Stops    []note   // what stops the job, where no change at hand lifts it
	Changes  []change // the best change first, then others that do as well or better than nothing
	Papers   []toGet  // those the answer counts, in the order in which one waits for another
	Also     []toGet  // open rows that the answer does not hang on
	Points   []note   // what else must be settled
	AsSent   bool     // the papers are those of the job as it was sent, and a change would alter them
	LeadTime string
	Binds    string // where no change lifts what stops the job: what binds

	shown  map[int]bool // findings shown here, by their place in the answer
	lifted []string     // ids of open items that the first change settles
}

// Nothing reports that nothing must change.
func (f first) Nothing() bool {
	return len(f.Stops)+len(f.Changes)+len(f.Papers)+len(f.Also)+len(f.Points) == 0
}

// change is one remedy.
type change struct {
	Text, Costs, Then string
}

// toGet is an authorization to get, or to find out about.
type toGet struct {
	Title, Verb, How, LeadTime string
}

// firstOf gathers what comes first.
func firstOf(in Assessed) first {
	a := in.Answer
	out := first{shown: map[int]bool{}, Binds: a.RemediesNote}
	lifted := map[string]bool{}
	for i, r := range a.Remedies {
		out.Changes = append(out.Changes, changeOf(r))
		if i == 0 && r.AnswerThen != "no" {
			for _, code := range r.Lifts {
				lifted[code] = true
			}
		}
		out.AsSent = out.AsSent || slices.Contains(r.Lifts, overLine)
	}
	si := in.Request.Units != nil && *in.Request.Units == "si"
	counts := map[string]bool{}
	for i, f := range a.Findings {
		severity := finding.Severity(f.Severity)
		counts[f.Code] = counts[f.Code] || severity == finding.Stop || severity == finding.Needed
		if isPaper(f.Code) || lifted[f.Code] {
			continue
		}
		switch severity {
		case finding.Stop:
			out.Stops, out.shown[i] = append(out.Stops, noteOf(f, si)), true
		case finding.Needed:
			out.Points, out.shown[i] = append(out.Points, noteOf(f, si)), true
		}
	}
	if a.Authorizations != nil {
		for _, item := range inOrder(open(a.Authorizations.Items)) {
			if lifted[string(permits.CodeOf(item.ID))] {
				out.lifted = append(out.lifted, item.ID)
				continue // the change settles it
			}
			if counts[string(permits.CodeOf(item.ID))] && item.ID != weightRow {
				out.Papers = append(out.Papers, toGetOf(item))
			} else {
				out.Also = append(out.Also, toGetOf(item))
			}
		}
		out.LeadTime = leadTime(a.Authorizations)
	}
	return out
}

// weightRow is the row of the 55 lb line. The headline does not count it: what lifts it is a row of
// its own.
const weightRow = "weight-small-limit"

// toGetOf says what to do about an open item.
func toGetOf(i wire.AuthorizationItem) toGet {
	out := toGet{Title: i.Title, Verb: "Get", How: i.HowToGet, LeadTime: i.LeadTime}
	switch {
	case i.Status == "prohibited":
		out.Verb = "Not allowed"
	case i.Status == "unknown":
		out.Verb, out.How = "Find out", i.Because+". If it applies: "+i.HowToGet
	case i.Kind == "limit" || i.Kind == "label":
		out.Verb = "Keep inside"
	}
	return out
}

// changeOf writes a remedy.
func changeOf(r wire.Remedy) change {
	said := make([]string, 0, len(r.Changes))
	for _, c := range r.Changes {
		said = append(said, changeText(c))
	}
	then := map[string]string{"yes": "Then the answer is yes.", "yes_if": "Then the answer is yes, if the other points are met.",
		"no": "It lifts a part of what stops the job; the answer stays no."}[r.AnswerThen]
	return change{Text: strings.Join(said, ", "), Costs: r.Costs, Then: then}
}

// open lists the items to get, to find out about or to keep inside of; the duties of the job stand
// in their own list.
func open(items []wire.AuthorizationItem) []wire.AuthorizationItem {
	var out []wire.AuthorizationItem
	for _, i := range items {
		if i.Kind != "duty" && (i.Status == "prohibited" || i.Status == "needed" || i.Status == "unknown") {
			out = append(out, i)
		}
	}
	return out
}

// inOrder puts items after those they depend on and keeps their order otherwise.
func inOrder(items []wire.AuthorizationItem) []wire.AuthorizationItem {
	waits := func(i wire.AuthorizationItem, rest []wire.AuthorizationItem) bool {
		return slices.ContainsFunc(rest, func(other wire.AuthorizationItem) bool {
			return other.ID != i.ID && slices.Contains(i.DependsOn, other.ID)
		})
	}
	rest := slices.Clone(items)
	out := make([]wire.AuthorizationItem, 0, len(items))
	for len(rest) > 0 {
		next := slices.IndexFunc(rest, func(i wire.AuthorizationItem) bool { return !waits(i, rest) })
		next = max(next, 0) // a ring of dependencies is taken as it stands
		out = append(out, rest[next])
		rest = slices.Delete(rest, next, next+1)
	}
	return out
}

// leadTime says the longest chain of official lead times with the titles of its steps.
func leadTime(a *wire.Authorizations) string {
	if a.LeadTime == nil {
		return ""
	}
	titles := make([]string, 0, len(a.LeadTime.IDs))
	for _, id := range a.LeadTime.IDs {
		at := slices.IndexFunc(a.Items, func(i wire.AuthorizationItem) bool { return i.ID == id })
		if at >= 0 {
			titles = append(titles, a.Items[at].Title)
		}
	}
	return "Allow at least " + digits(float64(a.LeadTime.LeastDays), 6) + " days by official figures. The longest chain: " +
		strings.Join(titles, ", then ") + ". Steps without an official figure add to it."
}

// when writes a time of the request for reading; the text itself where it is no time.
func when(at string) string {
	t, err := time.Parse(time.RFC3339, at)
	if err != nil {
		return at
	}
	return t.Format("January 2, 2006, 15:04 (UTC-07:00)")
}
