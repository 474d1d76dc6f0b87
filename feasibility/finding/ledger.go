package finding

import "slices"

// Ledger gathers what a room has to say beside its numbers, in the order it is said. The zero
// Ledger is ready.
type Ledger struct {
	Findings    []Finding
	Assumptions []Assumption

	near [usualSources]string // ids of the sources used, each once; they are few
	used int                  // of those
	far  []string             // those that near has no room for
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
	switch {
	case l.cites(s.ID):
	case l.used < len(l.near):
		l.near[l.used] = s.ID
		l.used++
	default:
		l.far = append(l.far, s.ID)
	}
}

// cites reports whether a source is used.
func (l *Ledger) cites(id string) bool {
	return slices.Contains(l.near[:l.used], id) || slices.Contains(l.far, id)
}

// Cited lists the sources used, each once, in the order of the room's own list.
func (l *Ledger) Cited(known []Source) []Source {
	if l.used == 0 {
		return nil
	}
	list := make([]Source, 0, l.used+len(l.far))
	for i := range known {
		if l.cites(known[i].ID) {
			list = append(list, known[i])
		}
	}
	return list
}
