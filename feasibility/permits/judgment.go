package permits

import (
	"cmp"
	"slices"
	"strings"

	"tractcheck/feasibility/units"
)

// Truth is a value of the three-valued logic in which the table's conditions are written. The
// zero value is CannotTell, so that a condition forgotten is never good news.
type Truth int8

// The truth values.
const (
	CannotTell Truth = iota // a fact is missing
	No                      // the condition does not hold
	Yes                     // the condition holds
)

// String names the truth value in plain words.
func (t Truth) String() string {
	switch t {
	case Yes:
		return "yes"
	case No:
		return "no"
	default:
		return "cannot tell"
	}
}

// Judgment is a condition evaluated on a mission's facts.
type Judgment struct {
	Truth  Truth
	beyond bool // a breach so large that the usual relief does not reach it

	Because  string   // the facts that decide, in plain words; true whichever way the row turns
	Pointers Pointers // of those facts; where the truth cannot be told, of the missing ones

	Compared *Comparison // where the condition compares a quantity with a limit; else nil
}

// and holds where all hold, and not where one does not, even if others cannot be told.
// No decides first; then CannotTell; then Yes (strong Kleene logic).
func (s *scribe) and(parts ...Judgment) Judgment { return s.combine(No, Yes, parts) }

// or holds where one holds, even if others cannot be told.
// Yes decides first; then CannotTell; then No (strong Kleene logic).
func (s *scribe) or(parts ...Judgment) Judgment { return s.combine(Yes, No, parts) }

// Not turns yes into no and no into yes; what cannot be told stays so. Because describes the
// facts, so it stays as it is.
func Not(j Judgment) Judgment {
	switch j.Truth {
	case Yes:
		j.Truth = No
	case No:
		j.Truth = Yes
	}
	return j
}

// combine gives the decisive truth if any part has it, CannotTell if any part is that, otherwise
// the neutral truth. Kept are the reasons and pointers of the parts that decide, in order: one no
// is reason enough for a no, every broken bound is worth a yes, every missing fact is worth asking.
func (s *scribe) combine(decisive, neutral Truth, parts []Judgment) Judgment {
	truth := neutral
	for i := range parts {
		part := &parts[i]
		if part.Truth == decisive && decisive == No {
			return *part
		}
		if part.Truth == decisive {
			truth = decisive
		}
		if part.Truth == CannotTell && truth != decisive {
			truth = CannotTell
		}
	}
	return s.gather(truth, parts)
}

// gather joins the parts whose truth is the one reached, each reason and pointer once.
func (s *scribe) gather(truth Truth, parts []Judgment) Judgment {
	whole, joined := Judgment{Truth: truth}, false
	var room [2*usualReasons - 1]string
	said := room[:0]
	for i := range parts {
		part := &parts[i]
		if part.Truth != truth {
			continue
		}
		said = withReasons(said, part.Because)
		if !joined {
			whole, joined = *part, true
			continue
		}
		whole.Pointers.addAll(&part.Pointers)
		whole.Compared = cmp.Or(whole.Compared, part.Compared)
		whole.beyond = whole.beyond || part.beyond
	}
	whole.Because = s.joined(said)
	return whole
}

// usualReasons is about how many reasons are joined; more only take more memory.
const usualReasons = 8

// withReasons adds to the parts of a text the reasons that it does not say yet; reasons stand between
// semicolons.
func withReasons(said []string, more string) []string {
	if len(said) == 0 && more != "" {
		return append(said, more)
	}
	for reason := range strings.SplitSeq(more, "; ") {
		if reason != "" && !slices.ContainsFunc(said, func(part string) bool { return says(part, reason) }) {
			said = append(said, "; ", reason)
		}
	}
	return said
}

// joined is the text of parts; one part is a text already.
func (s *scribe) joined(parts []string) string {
	switch len(parts) {
	case 0:
		return ""
	case 1:
		return parts[0]
	default:
		return s.say(parts...)
	}
}

// says reports whether a reason is among those said.
func says(said, reason string) bool {
	for one := range strings.SplitSeq(said, "; ") {
		if one == reason {
			return true
		}
	}
	return false
}

// always is the condition of a row that binds every mission.
func always(because string) Judgment { return Judgment{Truth: Yes, Because: because} }

// fact judges something the contract always carries.
func fact(holds bool, pointer, yes, no string) Judgment {
	if holds {
		return Judgment{Truth: Yes, Because: yes, Pointers: pointTo(pointer)}
	}
	return Judgment{Truth: No, Because: no, Pointers: pointTo(pointer)}
}

// stated judges an optional yes-or-no fact; about completes "not stated: ...".
func stated(value *bool, pointer, yes, no, about string) Judgment {
	if value == nil {
		return missing(about, pointer)
	}
	return fact(*value, pointer, yes, no)
}

// missing is a condition whose facts were not stated; what completes "not stated: ...", which the
// evaluator puts before all that is missing.
func missing(what string, pointers ...string) Judgment {
	return Judgment{Truth: CannotTell, Because: what, Pointers: pointTo(pointers...)}
}

// quantity is any typed quantity held as a number.
type quantity interface {
	~float64
	units.Quantity
}

// over judges whether a measured quantity is more than a limit, equal within the shared tolerance
// counting as inside.
func over[Q quantity](v *view, measured, limit Q, pointer, because string) Judgment {
	j := fact(!units.AtMost(measured, limit), pointer, because, because)
	j.Compared = compare(v, measured, limit, margin(limit, measured))
	return j
}

// under judges whether a measured quantity is less than a limit, equal within the shared tolerance
// counting as inside.
func under[Q quantity](v *view, measured, limit Q, pointer, because string) Judgment {
	j := fact(!units.AtLeast(measured, limit), pointer, because, because)
	j.Compared = compare(v, measured, limit, margin(measured, limit))
	return j
}

// Comparison is a quantity beside its limit; Margin is positive on the safe side. Most conditions compare
// nothing, so it stands apart from them.
type Comparison struct{ Measured, Limit, Margin units.Quantity }

// Figures is the comparison; one of nothing where there is none.
func (c *Comparison) Figures() Comparison {
	if c == nil {
		return Comparison{}
	}
	return *c
}

// compare keeps what was compared, with the nine digits that leave the house: a figure that is
// rounded already is not copied again on its way out.
func compare[Q quantity](v *view, measured, limit, margin Q) *Comparison {
	return v.keep(Comparison{units.Significant(measured, 9), units.Significant(limit, 9), margin})
}

// keep keeps a comparison in the room for them.
func (v *view) keep(c Comparison) *Comparison {
	if len(v.compared) == cap(v.compared) {
		v.compared = make([]Comparison, 0, comparedRoom)
	}
	v.compared = append(v.compared, c)
	return &v.compared[len(v.compared)-1]
}

// comparedRoom holds the comparisons of a usual check. Own choice.
const comparedRoom = 18

// margin is more minus less, zero where the two are equal within the shared tolerance of less,
// rounded to nine digits like every figure that leaves the house; fewer would show in pounds.
func margin[Q ~float64](more, less Q) Q {
	if units.AtMost(more, less) && units.AtLeast(more, less) {
		return 0
	}
	return units.Significant(more-less, 9)
}

// known reports whether a quantity was stated: positive and finite.
func known[Q ~float64](q Q) bool { return q > 0 && units.Finite(q) }
