package finding

import "slices"

// Ledger gathers what a room has to say beside its numbers, in the order it is said. The zero
// Ledger is ready.
type Ledger struct {
	Findings    []Finding
	Assumptions []Assumption

	used []string // source ids, each once; they are few
	room [usualSources]string
}

// How much a room usually has to say; memory for it is asked for at once.
const (
	usual        = 4 // findings, and assumptions
	usualSources = 8
)

// Find adds a finding and cites its source.
func (l *Ledger) Find(f Finding) {
	if l.Findings == nil {
		l.Findings = make([]Finding, 0, usual)
	}
	l.Findings = append(l.Findings, f)
	l.Cite(f.Source)
}

// Assume adds an assumption and cites its source.
func (l *Ledger) Assume(subject, assumed, settle string, source Source) {
	if l.Assumptions == nil {
		l.Assumptions = make([]Assumption, 0, usual)
	}
	l.Assumptions = append(l.Assumptions, Assumption{
		Subject: subject, Assumed: assumed, Settle: settle, Source: source,
	})
	l.Cite(source)
}

// Cite marks a source as used.
func (l *Ledger) Cite(s Source) {
	if slices.Contains(l.used, s.ID) {
		return
	}
	if l.used == nil {
		l.used = l.room[:0]
	}
	l.used = append(l.used, s.ID)
}

// Cited lists the sources used, each once, in the order of the room's own list.
func (l *Ledger) Cited(known []Source) []Source {
	if len(l.used) == 0 {
		return nil
	}
	list := make([]Source, 0, len(l.used))
	for _, s := range known {
		if slices.Contains(l.used, s.ID) {
			list = append(list, s)
		}
	}
	return list
}
