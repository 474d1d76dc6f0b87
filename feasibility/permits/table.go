package permits

import (
	"slices"

	"tractcheck/feasibility/finding"
)

// Rules is the whole table of the United States in reading order: family by family, as an
// applicant works through them. Every call builds it afresh, so no caller can change another's.
// Every row carries the table's date.
func Rules() []Rule {
	rules := slices.Concat(
		weightRules(), pilotRules(), flightDutyRules(), aircraftRules(), exemptionRules(),
		operatorRules(), operatorDutyRules(), certificationRules(),
		airspaceRules(), grantRules(), lightRules(), peopleRules(), weatherRules(), dispensingRules(),
		labelRules(), protectionRules(), workerRules(), recordRules(),
	)
	for i := range rules {
		rules[i].AsOf = AsOf()
	}
	return rules
}

// row is a rule as a check uses it, with everything about it that no mission changes worked out.
type row struct {
	Rule
	at       int            // its place in the table
	code     finding.Code   // of its finding
	source   finding.Source // of its finding
	cites    []int          // places in the sources table
	after    []int          // places of the rows to have first
	accepted []string       // ids in holds that satisfy it for some purpose
	traits   uint64         // a bit for each, so that most other ids need not be compared
	small    Entry          // what it says on this side of the line
	large    Entry
}

// The tables of every check: built once and never changed. Of them checklists share the entries and the
// sources, to be read.
var (
	sourceTable = sources()
	table       = tableOf(Rules())
	heldIDs     = acceptedIDs(table)
	weightRow   = &table[0] // the line itself, by whose relief a takeoff at 55 lb and over is allowed
)

// tableOf works out what no mission changes.
func tableOf(rules []Rule) []row {
	rows := make([]row, len(rules))
	places := make(map[string]int, len(rules))
	for i := range rules {
		r := &rows[i]
		r.Rule, r.at = rules[i], i
		places[r.ID] = i
		r.code, r.source = CodeOf(r.ID), find(sourceTable, r.Sources[0])
		for _, id := range r.Sources {
			r.cites = append(r.cites, slices.IndexFunc(sourceTable, func(s finding.Source) bool { return s.ID == id }))
		}
		for _, id := range r.DependsOn {
			r.after = append(r.after, places[id])
		}
		r.accepted = r.acceptable()
		for _, id := range r.accepted {
			r.traits |= traitOf(id)
		}
		r.small, r.large = r.entry(SmallRegime), r.entry(LargeRegime)
	}
	return rows
}

// entry is what a row says in a regime.
func (r *row) entry(regime Regime) Entry {
	leadTime, lead := r.lead(regime)
	return Entry{
		ID: r.ID, Title: r.Title, Citation: r.cited(regime), HowToGet: r.howToGet(regime),
		Evidence: r.Evidence, LeadTime: leadTime, Kind: r.Kind, Group: r.Group, Grade: r.Grade,
		Demands: r.Demands, Validity: r.Validity, Lead: lead, QuickPath: r.QuickPath, Waiver: r.Waiver(),
		row: r,
	}
}

// traitOf is a bit that few ids share: by the length and, in the middle and at the end, the letters.
func traitOf(id string) uint64 {
	if id == "" {
		return 1
	}
	return 1 << ((5*len(id) + int(id[len(id)/2]) + int(id[len(id)-1])) % 64)
}

// acceptable is the ids in holds that satisfy a row for some purpose.
func (r *row) acceptable() []string {
	ids := []string{r.ID, "waiver:" + r.ID}
	for _, e := range r.HeldBy {
		ids = append(ids, e.ID)
	}
	return slices.DeleteFunc(ids, func(id string) bool { return !r.acceptsEver(id) })
}

// acceptedIDs is every id in holds that satisfies some row for some purpose.
func acceptedIDs(rows []row) map[string]bool {
	accepted := make(map[string]bool)
	for i := range rows {
		for _, id := range rows[i].accepted {
			accepted[id] = true
		}
	}
	return accepted
}

// rowOf finds a row by its id; nil where there is none.
func rowOf(id string) *row {
	for i := range table {
		if table[i].ID == id {
			return &table[i]
		}
	}
	return nil
}
