package permits

import (
	"fmt"
	"slices"
	"strconv"
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

// findings is everything the table has to say of a mission, in a fixed order.
func (v *view) findings(items []Item) []finding.Finding {
	count := 3 // the side, the duties and people under the spray
	for i := range items {
		if _, reported := items[i].severity(); reported {
			count++
		}
	}
	found := make([]finding.Finding, 0, count)
	found = v.rowFindings(found, items)
	found = v.sprayOverPeople(found)
	found = v.sideFinding(found, items)
	found = append(found, v.dutyFinding(items))
	found = v.holdingFindings(found)
	return v.expiryFindings(found)
}

// rowFindings reports permits, limits and label bounds that are prohibited, needed or unknown, and
// duties that point at something near, in the order of the items.
func (v *view) rowFindings(found []finding.Finding, items []Item) []finding.Finding {
	for i := range items {
		item := &items[i]
		severity, reported := item.severity()
		if !reported || item.open() {
			continue
		}
		compared := item.Compared.Figures()
		found = append(found, finding.Finding{
			Code: item.row.code, Severity: severity, Subject: item.pointer(), Message: v.message(item),
			Measured: compared.Measured, Limit: compared.Limit, Margin: compared.Margin, Source: item.row.source,
		})
	}
	return found
}

// severity is the weight of an item's finding; items that are held, not needed, or duties without
// somebody near have none.
func (i *Item) severity() (finding.Severity, bool) {
	if i.Kind == Duty {
		near := i.row != nil && i.row.pointed && i.Compared != nil && i.Compared.Margin.SI() <= 0
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
func (i *Item) pointer() string {
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
func (v *view) message(i *Item) string {
	do := i.advice()
	return v.say(i.Title, ": ", i.verdict(), ". Why: ", i.Because, ". To do: ",
		do[0], do[1], do[2], do[3], do[4], " (", i.Citation, ")")
}

// verdict is the status in plain words.
func (i *Item) verdict() string {
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

// advice is what to do, with the official time it takes, in parts.
func (i *Item) advice() [5]string {
	switch {
	case i.Status == Unknown && i.Kind == OnLabel:
		return [5]string{"read the label and send what is missing."}
	case i.Status == Unknown:
		return [5]string{"find out and send what is missing; if it applies, ", unended(i.HowToGet), "."}
	case i.LeadTime != "" && (i.Kind == Permit || i.Waiver != ""):
		return [5]string{unended(i.HowToGet), ". Time: ", unended(i.LeadTime), "."}
	default:
		return [5]string{unended(i.HowToGet), "."}
	}
}

// unended is a phrase without a full stop.
func unended(phrase string) string { return strings.TrimSuffix(phrase, ".") }

// sentence ends a phrase with a full stop.
func sentence(phrase string) string { return unended(phrase) + "." }

// dutyFinding sums the duties up in one note, so that they do not hide what is to be obtained.
func (v *view) dutyFinding(items []Item) finding.Finding {
	var due, open int
	for i := range items {
		if items[i].Kind == Duty && items[i].Status == NeededNow {
			due++
		}
		if items[i].Kind == Duty && items[i].Status == Unknown {
			open++
		}
	}
	return finding.Finding{
		Code: CodeDutiesEachJob, Severity: finding.Note, Subject: "/operation",
		Message: v.say(strconv.Itoa(due), " duties come with this job (checks, briefings, records), and ", strconv.Itoa(open),
			" more cannot be told from the facts given, "+
				"among them the rules of your state and county. Work through them in the checklist before the first takeoff, "+
				"and check with your state lead agency."),
		Source: sourceTable[ownDesign],
	}
}

// holdingFindings reports ids in holds that satisfy no row.
func (v *view) holdingFindings(found []finding.Finding) []finding.Finding {
	for i, id := range v.Holds {
		if heldIDs[id] {
			continue
		}
		found = append(found, finding.Finding{
			Code: CodeHoldingUnrecognized, Severity: finding.Caution,
			Subject: fmt.Sprintf("/operation/holds/%d", i),
			Message: unrecognized(id),
			Source:  sourceTable[ownDesign],
		})
	}
	return found
}

// expiryFindings reports dates in expiries that belong to nothing in holds: a slip in the id would
// leave a lapsed paper counted as held.
func (v *view) expiryFindings(found []finding.Finding) []finding.Finding {
	for i, e := range v.Expiries {
		if slices.ContainsFunc(v.Holds, e.dates) {
			continue
		}
		found = append(found, finding.Finding{
			Code: CodeExpiryUnmatched, Severity: finding.Caution,
			Subject: fmt.Sprintf("/operation/expiries/%d", i),
			Message: fmt.Sprintf("%q in expiries is not in holds, so its date counts for nothing. Send the id just as it stands in holds.", e.ID),
			Source:  sourceTable[ownDesign],
		})
	}
	return found
}

// unrecognized says why an id in holds counts for nothing.
func unrecognized(id string) string {
	of := strings.TrimPrefix(id, "waiver:")
	r := rowOf(of)
	switch {
	case r == nil:
		return fmt.Sprintf("%q in holds is not an id of this table, so it counts for nothing. Send ids as the list of authorizations shows them.", id)
	case of != id:
		return fmt.Sprintf("%q in holds counts for nothing: no waiver lifts %s. %s", id, r.Title, sentence(r.HowToGet))
	case r.Waiver() != "":
		return fmt.Sprintf("%q in holds counts for nothing: it is a limit, not a paper. If you hold a waiver or a clause for it, send %q.", id, r.Waiver())
	default:
		return fmt.Sprintf("%q in holds counts for nothing: nothing that can be held lifts it. %s", id, sentence(r.HowToGet))
	}
}
