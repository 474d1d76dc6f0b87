package permits

import (
	"cmp"
	"strings"
	"time"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// Regime is the rule book that the takeoff weight selects.
type Regime string

// The regimes.
const (
	SmallRegime Regime = "small" // strictly under 55 lb on takeoff
	LargeRegime Regime = "large" // 55 lb and over
)

// Status is how a mission stands to one row of the table.
type Status string

// The statuses.
const (
	Held       Status = "held"       // the caller has it
	NeededNow  Status = "needed"     // to be obtained, or done, for this mission
	NotNeeded  Status = "not_needed" // no row asks for it on the facts given
	Prohibited Status = "prohibited" // the mission breaks a bound that nothing lifts
	Unknown    Status = "unknown"    // a fact is missing: stop and ask
)

// rank orders statuses within a group.
func (s Status) rank() int {
	switch s {
	case Prohibited:
		return 0
	case NeededNow:
		return 1
	case Unknown:
		return 2
	case Held:
		return 3
	case NotNeeded:
		return 4
	default:
		return -1
	}
}

// Entry is what a row of the table says in one regime, whatever the mission.
type Entry struct {
	ID       string
	Title    string
	Citation string // for this regime; marked where it is from memory
	HowToGet string
	Evidence string
	LeadTime string // official figures only

	Kind      Kind
	Group     Group
	Grade     Grade
	Demands   string
	Validity  string
	Lead      units.Duration // official lead time; zero where none was read
	QuickPath string         // a way that takes next to no time where it is open, in place of Lead
	Waiver    string         // the id to send in holds for a waiver, clause or permission; empty where none can lift it

	row *row // of the table; nil where the rules are another country's
}

// Item is one row of the table, evaluated on a mission. The entry is the table's own, which all
// checklists share: it is there to be read.
type Item struct {
	*Entry

	Status    Status
	Because   string     // the facts that decide, in plain words
	Missing   []string   // JSON pointers of the facts that would settle an unknown
	DependsOn []string   // ids of items of this checklist to have first; those not needed are left out
	Expires   *time.Time // last valid day of what is held, where stated

	Compared *Comparison // where the row compares a quantity with a limit; else nil

	subject string // the fact a breach turns on, or eitherSide
}

// Checklist is the table evaluated on a mission's facts, in the order an applicant reads it.
type Checklist struct {
	Regime      Regime
	Elsewhere   string // the country or union, in words, whose rules this table does not hold; else empty
	AsOf        time.Time
	Items       []Item
	LeadChain   LeadChain // the longest chain of official lead times among what is needed
	Findings    []finding.Finding
	Assumptions []finding.Assumption
	Cautions    []string
	Sources     []finding.Source
}

// AsOf is the date of the rules table. Nothing published after 2026-10-08 was read for it.
func AsOf() time.Time { return time.Date(2026, time.November, 25, 0, 0, 0, 0, time.UTC) }

// Check evaluates the table on a mission's facts: it opens the case and asks for the checklist.
func Check(f Facts) Checklist { return Open(f).Check() }

// Check evaluates the table. It needs the takeoff weight, its regime and the
// purpose; a fact that is missing makes its rows unknown, never not needed. Holdings past their
// expiry do not count, and where the job has no date an expiry leaves its item unknown. A country other than US gets its weight line only, and is never cleared.
// It never fails; items, findings and assumptions come in a fixed order.
// Sources: the rules named in each item's citation, as of AsOf.
func (c *Case) Check() Checklist {
	v := &c.view
	if !Covers(v.Country) {
		return v.checkAbroad(countryOf(v.Country))
	}
	list := Checklist{Regime: v.regime, AsOf: AsOf(), Items: v.items()}
	v.openSide(list.Items)
	list.LeadChain = longestLead(list.Items)
	list.Findings = v.findings(list.Items)
	list.Assumptions = v.assumptions()
	list.Cautions = cautions(v.At)
	list.Sources = usedSources(list.Items)
	return list
}

// Covers reports whether this table holds the rules of a country (ISO 3166-1 alpha-2); one that is
// not stated is taken as the United States.
func Covers(country string) bool { return countryOf(country) == "US" }

// countryOf is the country of a mission; not stated, it is taken as the United States, which
// the assumptions say.
func countryOf(stated string) string {
	if stated == "US" {
		return stated
	}
	return cmp.Or(strings.ToUpper(strings.TrimSpace(stated)), "US")
}
