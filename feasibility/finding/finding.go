package finding

import "tractcheck/feasibility/units"

// Severity says what a finding means for the job.
type Severity string

// The severities, gravest first.
const (
	Stop    Severity = "stop"    // must not fly or spray like this
	Needed  Severity = "needed"  // must be obtained or supplied first
	Caution Severity = "caution" // may go on, with care or with less certainty
	Note    Severity = "note"    // worth knowing
)

// Rank orders severities: the smaller, the graver.
func (s Severity) Rank() int {
	switch s {
	case Stop:
		return 0
	case Needed:
		return 1
	case Caution:
		return 2
	default:
		return 3
	}
}

// Code names a kind of finding. Codes are a fixed list: each room declares its own as constants,
// and a code once published keeps its meaning.
type Code string

// Finding is one thing a room noticed about the mission. Measured, Limit and Margin are nil where
// they do not apply; where all three are given they share a dimension and Margin is positive on
// the safe side.
type Finding struct {
	Code     Code
	Severity Severity
	Subject  string // the JSON pointer of the fact or part of the mission it speaks of
	Message  string // plain words: what is wrong, and what to do next
	Measured units.Quantity
	Limit    units.Quantity
	Margin   units.Quantity
	Source   Source
}

// Assumption is a fact that was not stated, the value taken instead, and what would settle it.
type Assumption struct {
	Subject string // the JSON pointer of the missing fact
	Assumed string // plain words, with unit
	Settle  string // what the caller can send or do to settle it
	Source  Source
}
