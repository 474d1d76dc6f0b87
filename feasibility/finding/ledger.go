package finding

// Ledger gathers what a room has to say beside its numbers, in the order it is said. The zero
// Ledger is ready.
type Ledger struct {
	Findings    []Finding
	Assumptions []Assumption

	used map[string]bool // source ids; only looked up, never ranged over
}

// Find adds a finding and cites its source.
func (l *Ledger) Find(f Finding) {
	l.Findings = append(l.Findings, f)
	l.Cite(f.Source)
}

// Assume adds an assumption and cites its source.
func (l *Ledger) Assume(subject, assumed, settle string, source Source) {
	l.Assumptions = append(l.Assumptions, Assumption{
		Subject: subject, Assumed: assumed, Settle: settle, Source: source,
	})
	l.Cite(source)
}

// Cite marks a source as used.
func (l *Ledger) Cite(s Source) {
	if l.used == nil {
		l.used = map[string]bool{}
	}
	l.used[s.ID] = true
}

// Cited lists the sources used, each once, in the order of the room's own list.
func (l *Ledger) Cited(known []Source) []Source {
	var list []Source
	for _, s := range known {
		if l.used[s.ID] {
			list = append(list, s)
		}
	}
	return list
}
