package api

import (
	"bytes"
	"cmp"
	"slices"
	"sync"
	"time"

	"tractcheck/feasibility"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/permits"
)

// tally counts the answers of a screening. It may be read while it counts.
type tally struct {
	mu       sync.Mutex
	verdicts ByAnswer
	problems int64
	blank    int64
	stops    map[finding.Code]int64
	needed   map[finding.Code]int64
}

// ScreeningCounts is what a screening has answered.
type ScreeningCounts struct {
	Lines    int64    `json:"lines"`     // answers, problems and blank lines
	Answers  int64    `json:"answers"`   // lines that have an answer
	Problems int64    `json:"problems"`  // lines that have a problem instead
	Blank    int64    `json:"blank"`     // lines that have neither
	ByAnswer ByAnswer `json:"by_answer"` // the answers
	// Binding is what stands between the missions and a plain yes: every stop, then everything
	// needed, the most frequent first.
	Binding []Binding `json:"binding"`
}

// ByAnswer counts the answers by what they say.
type ByAnswer struct {
	Yes   int64 `json:"yes"`
	YesIf int64 `json:"yes_if"`
	No    int64 `json:"no"`
}

// Binding is a kind of finding that binds, and in how many lines.
type Binding struct {
	Code     finding.Code     `json:"code"`
	Severity finding.Severity `json:"severity"`
	Lines    int64            `json:"lines"`
}

// add counts an answer or a problem.
func (t *tally) add(known *screened) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.stops == nil {
		t.stops, t.needed = map[finding.Code]int64{}, map[finding.Code]int64{}
	}
	switch known.verdict {
	case feasibility.Yes:
		t.verdicts.Yes++
	case feasibility.YesIf:
		t.verdicts.YesIf++
	case feasibility.No:
		t.verdicts.No++
	default:
		t.problems++
	}
	for _, code := range known.codes[:known.stops] {
		t.stops[code]++
	}
	for _, code := range known.codes[known.stops : known.stops+known.needed] {
		t.needed[code]++
	}
}

// skip counts a blank line.
func (t *tally) skip() {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.blank++
}

func (t *tally) counts() ScreeningCounts {
	t.mu.Lock()
	defer t.mu.Unlock()
	answers := t.verdicts.Yes + t.verdicts.YesIf + t.verdicts.No
	return ScreeningCounts{
		Lines: answers + t.problems + t.blank, Answers: answers, Problems: t.problems, Blank: t.blank, ByAnswer: t.verdicts,
		Binding: append(ranked(t.stops, finding.Stop), ranked(t.needed, finding.Needed)...),
	}
}

// ranked lists codes, the most frequent first.
func ranked(counted map[finding.Code]int64, severity finding.Severity) []Binding {
	list := make([]Binding, 0, len(counted))
	for code, lines := range counted {
		list = append(list, Binding{code, severity, lines})
	}
	slices.SortFunc(list, func(a, b Binding) int {
		return cmp.Or(cmp.Compare(b.Lines, a.Lines), cmp.Compare(a.Code, b.Code))
	})
	return list
}

// ScreeningSummary is the last line of a screening. A stream of answers that ends without one was
// cut short.
type ScreeningSummary struct {
	ScreeningCounts
	Engine    string `json:"engine"`
	RulesAsOf string `json:"rules_as_of"`
	// Complete says that the input was read to its end and every line of it has its answer.
	Complete bool `json:"complete"`
	// Problem says why the screening ended early, where that can be said.
	Problem *Problem `json:"problem,omitzero"`
}

// Summary makes the last line of a screening; ended is why it ended early, or nil.
func (s *Screening) Summary(ended error) []byte {
	summary := ScreeningSummary{
		ScreeningCounts: s.Counts(), Engine: s.desk.engine, RulesAsOf: permits.AsOf().Format(time.DateOnly),
		Complete: ended == nil,
	}
	if ended != nil {
		summary.Problem = endOf(ended)
	}
	var out bytes.Buffer
	_ = encodeLine(&out, summary) // of counts and words, which can always be written
	return out.Bytes()
}
