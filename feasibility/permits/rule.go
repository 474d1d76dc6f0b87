package permits

import (
	"slices"
	"strings"
	"time"

	"tractcheck/feasibility/units"
)

// Kind is what sort of demand a row makes; it decides which statuses the row can have.
type Kind string

// The kinds of row.
const (
	Permit  Kind = "permit" // something to obtain: not needed, held, needed, unknown
	Limit   Kind = "limit"  // a bound on the flight: not needed inside it; held, needed or prohibited beyond it
	OnLabel Kind = "label"  // a bound of the product label: not needed inside it, prohibited beyond it
	Duty    Kind = "duty"   // something to do or keep on every job
	Notice  Kind = "notice" // information, shown where it fits
)

// Group is a stage of the work; items are shown in the order of the groups.
type Group int

// The groups, in the order an applicant works through them.
const (
	GroupWeight        Group = iota + 1 // the weight line
	GroupPilot                          // the people who fly
	GroupAircraft                       // registration and remote identification
	GroupExemption                      // exemptions, approved list, air-traffic certificate
	GroupOperator                       // operator certificate and tests
	GroupCertification                  // state and pesticide certification
	GroupJob                            // airspace, night, people, weather
	GroupLabel                          // the product label
	GroupProtection                     // workers, water, species, neighbors
	GroupRecords                        // records and reports
)

// String is the code of a group.
func (g Group) String() string {
	names := groupCodes()
	if g < GroupWeight || int(g) > len(names) {
		return "unknown"
	}
	return names[g-1]
}

// groupCodes is the codes of the groups, in their order.
func groupCodes() []string {
	return []string{
		"weight", "pilot", "aircraft", "exemption", "operator", "certification", "job", "label", "protection", "records",
	}
}

// Groups is every group in the order of the work.
func Groups() []Group {
	all := make([]Group, 0, GroupRecords)
	for g := GroupWeight; g <= GroupRecords; g++ {
		all = append(all, g)
	}
	return all
}

// Regimes says in which weight regime a row is live.
type Regimes string

// The regimes of a row.
const (
	SmallOnly   Regimes = "small"
	LargeOnly   Regimes = "large"
	BothRegimes Regimes = "both"
)

// Grade says how the text behind a row was seen; a row with several takes the weakest.
type Grade string

// The grades.
const (
	GradeRead       Grade = "R" // read in the rule, statute, Federal Register or agency page
	GradeSecondHand Grade = "S" // read in a published text that quotes or summarizes it
	GradeMemory     Grade = "M" // from memory, not read again
)

// Relief is what can lift a breach of a limit.
type Relief string

// The kinds of relief.
const (
	ReliefNone   Relief = ""       // nothing lifts it: a breach is prohibited
	ReliefWaiver Relief = "waiver" // a part 107 waiver, listed in 14 CFR 107.205; sent in holds as waiver:id
	ReliefGrant  Relief = "grant"  // a term of a grant or a written permission; sent in holds as waiver:id too
	ReliefRow    Relief = "row"    // only another row of this table, named in HeldBy
)

// Equivalent is another id that satisfies a row, for one purpose or, where Only is empty, for all.
type Equivalent struct {
	ID   string
	Only Purpose
}

// Rule is one row of the authorizations table. The strings are plain words for people; an empty
// LargeCitation or LargeHowToGet means that the other one serves both regimes. LeadTime and Lead
// hold official figures only; zero and empty mean that no official figure was read.
type Rule struct {
	ID            string
	Title         string
	Kind          Kind
	Group         Group
	Regimes       Regimes
	AppliesWhen   string
	Demands       string
	Citation      string
	LargeCitation string
	HowToGet      string
	LargeHowToGet string
	Relief        Relief
	Validity      string
	LeadTime      string
	Lead          units.Duration
	LargeLeadTime string
	LargeLead     units.Duration
	QuickPath     string // a way that takes next to no time where it is open; Lead is then the slow way's
	Evidence      string
	Grade         Grade
	Sources       []string // keys of the sources table; the first decides
	HeldBy        []Equivalent
	DependsOn     []string // ids of earlier rows to have first
	AsOf          time.Time

	applies func(*view) Judgment // whether the row binds, or its limit is broken
	has     func(*view) Judgment // optional: whether other facts say that it is held

	heldSettles bool // a holding answers the row even where its condition cannot be told
	pointed     bool // a duty whose condition points at something near: it gets its own caution
	weighs      bool // the condition turns on the side of the 55 lb line, in both regimes
}

// Waivable reports whether a part 107 waiver can lift the row (14 CFR 107.205).
func (r *Rule) Waivable() bool { return r.Relief == ReliefWaiver }

// Waiver is the id to send in holds for a waiver, clause or permission that lifts the row; empty
// where none can.
func (r *Rule) Waiver() string {
	if r.Relief == ReliefWaiver || r.Relief == ReliefGrant {
		return "waiver:" + r.ID
	}
	return ""
}

// binds reports whether the row is live in a regime.
func (r *Rule) binds(regime Regime) bool {
	return r.Regimes == BothRegimes || string(r.Regimes) == string(regime)
}

// regimeReason says why a row of the other regime is not needed.
func (r *Rule) regimeReason() string {
	if r.Regimes == SmallOnly {
		return "part 107 does not apply at 55 lb or more"
	}
	return "binds only at 55 lb or more on takeoff"
}

// accepts reports whether an id in holds satisfies the row for a purpose.
func (r *Rule) accepts(id string, purpose Purpose) bool {
	if id == r.ID {
		return r.Kind == Permit || r.Kind == Duty
	}
	if waiver, ok := strings.CutPrefix(id, "waiver:"); ok {
		return waiver == r.ID && r.Waiver() != ""
	}
	return slices.ContainsFunc(r.HeldBy, func(e Equivalent) bool {
		return e.ID == id && (e.Only == "" || e.Only == purpose)
	})
}

// acceptsEver reports whether an id in holds satisfies the row for some purpose.
func (r *Rule) acceptsEver(id string) bool {
	return r.accepts(id, Commercial) || r.accepts(id, Private) || r.accepts(id, Public)
}

// cited is the citation for a regime, marked where it was not read again.
func (r *Rule) cited(regime Regime) string {
	citation := r.Citation
	if regime == LargeRegime && r.LargeCitation != "" {
		citation = r.LargeCitation
	}
	if r.Grade == GradeMemory {
		citation += " (from memory)"
	}
	return citation
}

// howToGet is the relief path for a regime.
func (r *Rule) howToGet(regime Regime) string {
	if regime == LargeRegime && r.LargeHowToGet != "" {
		return r.LargeHowToGet
	}
	return r.HowToGet
}

// lead is the official lead time for a regime, in words and as a duration.
func (r *Rule) lead(regime Regime) (string, units.Duration) {
	if regime == LargeRegime && r.LargeLeadTime != "" {
		return r.LargeLeadTime, r.LargeLead
	}
	return r.LeadTime, r.Lead
}

// day is 24 hours, for lead times.
const day = 24 * units.Hour

// waivable completes a row that a part 107 waiver lifts. The 90 days are those of the FAA's
// advisory circular on part 107 (AC 107-2A, as reproduced in a training text).
func waivable(r Rule) Rule {
	r.Relief = ReliefWaiver
	r.HowToGet = "stay inside the limit, or ask the FAA for a part 107 waiver (14 CFR 107.200, 107.205)"
	r.Validity = "the term printed on the waiver"
	r.LeadTime, r.Lead = "apply 90 days ahead (AC 107-2A)", 90*day
	r.Sources = append(r.Sources, "cfr-107-200", "ac-107-2a")
	return r
}

// grantClause completes a waivable row that binds at 55 lb and over as well, where the relief is a
// clause of the grant and the petition's 120 days count (14 CFR 11.63(d)).
func grantClause(r Rule) Rule {
	r.LargeHowToGet = "stay inside the limit, or have a clause for it in your grant of exemption (new or amended petition)"
	r.LargeLeadTime, r.LargeLead = "file 120 days before it is needed (14 CFR 11.63(d))", 120*day
	r.Sources = append(r.Sources, "cfr-11")
	return r
}
