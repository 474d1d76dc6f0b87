package permits

import (
	"fmt"
	"slices"
	"strings"

	"tractcheck/feasibility/finding"
)

// Codes of the findings that do not belong to one row. A row's own code is CodeOf its id.
const (
	CodeDutiesEachJob       finding.Code = "permit_duties_each_job"        // duties of every job, in one note
	CodeHoldingUnrecognized finding.Code = "permit_holding_not_recognized" // an id in holds that this table does not know
	CodeExpiryUnmatched     finding.Code = "permit_expiry_not_matched"     // an id in expiries that dates nothing in holds
	CodeCountryNotCovered   finding.Code = "permit_country_not_covered"    // the table covers the United States only
)

// CodeOf is the finding code of a row: permit_ and the row's id with underscores, such as
// permit_remote_id. The severity says which status the row has: stop is prohibited, needed is
// needed or an unknown permit or limit, caution is an unknown label bound.
func CodeOf(id string) finding.Code {
	return finding.Code("permit_" + strings.ReplaceAll(id, "-", "_"))
}

// rowFindings reports permits, limits and label bounds that are prohibited, needed or unknown, and
// duties that point at something near, in the order of the items.
func (v view) rowFindings(items []Item) []finding.Finding {
	var found []finding.Finding
	for _, item := range items {
		severity, reported := item.severity()
		if !reported || item.open {
			continue
		}
		found = append(found, finding.Finding{
			Code: CodeOf(item.ID), Severity: severity, Subject: item.pointer(), Message: item.message(),
			Measured: item.Measured, Limit: item.Limit, Margin: item.Margin, Source: find(v.table, item.sources[0]),
		})
	}
	return found
}

// severity is the weight of an item's finding; items that are held, not needed, or duties without
// somebody near have none.
func (i Item) severity() (finding.Severity, bool) {
	if i.Kind == Duty {
		near := i.pointed && i.Margin != nil && i.Margin.SI() <= 0
		return finding.Caution, near && i.Status != NotNeeded
	}
	switch {
	case i.Status == Prohibited:
		return finding.Stop, true
	case i.Status == NeededNow:
		return finding.Needed, true
	case i.Status == Unknown && i.Kind == OnLabel:
		return finding.Caution, true
	case i.Status == Unknown:
		return finding.Needed, true
	default:
		return "", false
	}
}

// pointer is the fact that an item's finding speaks of: the first missing fact, the fact that a
// breach turns on, or, where something is to be obtained, the caller's holds.
func (i Item) pointer() string {
	switch {
	case i.Status == Unknown && len(i.Missing) > 0:
		return i.Missing[0]
	case i.Kind != Permit && i.subject != "", i.subject == expiriesPointer:
		return i.subject
	default:
		return "/operation/holds"
	}
}

// message says what is wrong, why, and what to do.
func (i Item) message() string {
	return fmt.Sprintf("%s: %s. Why: %s. To do: %s (%s)", i.Title, i.verdict(), i.Because, i.advice(), i.Citation)
}

// verdict is the status in plain words.
func (i Item) verdict() string {
	switch {
	case i.Status == Unknown:
		return "not known yet, so do not count on it"
	case i.Kind == Duty:
		return "somebody or something is near"
	case i.Status == Prohibited:
		return "do not fly this job as it stands"
	case i.Kind == Limit:
		return "the job is outside this limit"
	case i.subject == expiriesPointer:
		return "needed, because what you hold has expired"
	default:
		return "needed, and not in your holds"
	}
}

// advice is what to do, with the official time it takes.
func (i Item) advice() string {
	switch {
	case i.Status == Unknown && i.Kind == OnLabel:
		return "read the label and send what is missing."
	case i.Status == Unknown:
		return "find out and send what is missing; if it applies, " + sentence(i.HowToGet)
	case i.LeadTime != "" && (i.Kind == Permit || i.Waiver != ""):
		return sentence(i.HowToGet) + " Time: " + sentence(i.LeadTime)
	default:
		return sentence(i.HowToGet)
	}
}

// sentence ends a phrase with a full stop.
func sentence(phrase string) string { return strings.TrimSuffix(phrase, ".") + "." }

// dutyFindings sums the duties up in one note, so that they do not hide what is to be obtained.
func (v view) dutyFindings(items []Item) []finding.Finding {
	var due, open int
	for _, item := range items {
		if item.Kind == Duty && item.Status == NeededNow {
			due++
		}
		if item.Kind == Duty && item.Status == Unknown {
			open++
		}
	}
	return []finding.Finding{{
		Code: CodeDutiesEachJob, Severity: finding.Note, Subject: "/operation",
		Message: fmt.Sprintf("%d duties come with this job (checks, briefings, records), and %d more cannot be told from the facts given, "+
			"among them the rules of your state and county. Work through them in the checklist before the first takeoff, "+
			"and check with your state lead agency.", due, open),
		Source: v.source("permits-own-design"),
	}}
}

// holdingFindings reports ids in holds that satisfy no row.
func (v view) holdingFindings(rules []Rule) []finding.Finding {
	var found []finding.Finding
	for i, id := range v.Holds {
		if slices.ContainsFunc(rules, func(r Rule) bool { return r.acceptsEver(id) }) {
			continue
		}
		found = append(found, finding.Finding{
			Code: CodeHoldingUnrecognized, Severity: finding.Caution,
			Subject: fmt.Sprintf("/operation/holds/%d", i),
			Message: unrecognized(id, rules),
			Source:  v.source("permits-own-design"),
		})
	}
	return found
}

// expiryFindings reports dates in expiries that belong to nothing in holds: a slip in the id would
// leave a lapsed paper counted as held.
func (v view) expiryFindings() []finding.Finding {
	var found []finding.Finding
	for i, e := range v.Expiries {
		if slices.ContainsFunc(v.Holds, e.dates) {
			continue
		}
		found = append(found, finding.Finding{
			Code: CodeExpiryUnmatched, Severity: finding.Caution,
			Subject: fmt.Sprintf("/operation/expiries/%d", i),
			Message: fmt.Sprintf("%q in expiries is not in holds, so its date counts for nothing. Send the id just as it stands in holds.", e.ID),
			Source:  v.source("permits-own-design"),
		})
	}
	return found
}

// unrecognized says why an id in holds counts for nothing.
func unrecognized(id string, rules []Rule) string {
	row := strings.TrimPrefix(id, "waiver:")
	at := slices.IndexFunc(rules, func(r Rule) bool { return r.ID == row })
	switch {
	case at < 0:
		return fmt.Sprintf("%q in holds is not an id of this table, so it counts for nothing. Send ids as the list of authorizations shows them.", id)
	case row != id:
		return fmt.Sprintf("%q in holds counts for nothing: no waiver lifts %s. %s", id, rules[at].Title, sentence(rules[at].HowToGet))
	case rules[at].Waiver() != "":
		return fmt.Sprintf("%q in holds counts for nothing: it is a limit, not a paper. If you hold a waiver or a clause for it, send %q.", id, rules[at].Waiver())
	default:
		return fmt.Sprintf("%q in holds counts for nothing: nothing that can be held lifts it. %s", id, sentence(rules[at].HowToGet))
	}
}
