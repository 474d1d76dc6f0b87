package permits

import (
	"cmp"
	"slices"
	"strings"
	"time"
)

// holding is one id of the caller's holds, with its expiry checked against the mission's date. The zero
// holding is none.
type holding struct {
	id      string
	expiry  *time.Time // last valid day; nil where not stated
	checked bool       // the mission's date is known, so the expiry could be checked
	expired bool
}

// open reports whether nobody can tell if the holding is valid on the job: it runs out, and the
// mission has no date.
func (h holding) open() bool { return h.expiry != nil && !h.checked }

// some reports whether there is a holding.
func (h holding) some() bool { return h.id != "" }

// holding reads an id of the holds and its expiry. A holding without an expiry counts as valid, and
// that is said; one whose expiry cannot be checked, because the mission has no date, is open.
func (f *Facts) holding(id string) holding {
	h := holding{id: id, checked: f.At != nil, expiry: earliest(f.Expiries, id)}
	if h.expiry != nil && f.At != nil {
		h.expired = dayNumber(*f.At) > dayNumber(*h.expiry)
	}
	return h
}

// dates reports whether the expiry is that of an id in holds: the id itself, or the row that a
// qualified id (row:variant) belongs to.
func (e Expiry) dates(id string) bool {
	row, _, qualified := strings.Cut(id, ":")
	return e.ID == id || qualified && row != "waiver" && e.ID == row
}

// earliest finds the earliest expiry stated for an id.
func earliest(expiries []Expiry, id string) *time.Time {
	var found *time.Time
	for i := range expiries {
		e := &expiries[i]
		if !e.dates(id) {
			continue
		}
		if found == nil || dayNumber(e.Date) < dayNumber(*found) {
			found = &e.Date
		}
	}
	return found
}

// dayNumber numbers calendar days as written, each moment in its own time zone.
func dayNumber(t time.Time) int {
	year, month, dayOfMonth := t.Date()
	return (year*12+int(month))*32 + dayOfMonth
}

// held finds what is held for a row, without looking where nothing can be.
func (v *view) held(r *row) (valid, expired holding) {
	if r.traits&v.traits == 0 {
		return holding{}, holding{}
	}
	return v.heldFor(r)
}

// heldFor finds the first valid holding that satisfies a row; failing that, one that is open; failing
// that, an expired one.
func (f *Facts) heldFor(r *row) (valid, expired holding) {
	var open holding
	for _, id := range f.Holds {
		if r.traits&traitOf(id) == 0 || !slices.Contains(r.accepted, id) || !r.accepts(id, f.Purpose) {
			continue
		}
		switch h := f.holding(id); {
		case h.expired:
			expired = cmp.Or(expired, h)
		case h.open():
			open = cmp.Or(open, h)
		default:
			return h, holding{}
		}
	}
	if open.some() {
		return open, holding{}
	}
	return holding{}, expired
}

// holds reports whether an id is held and not expired.
func (f *Facts) holds(id string) bool {
	return slices.Contains(f.Holds, id) && !f.holding(id).expired
}

// note is the parts of a phrase: what is held, and how sure that is.
type note struct{ held, id, through, day, open string }

// note says what is held and how sure that is.
func (v *view) note(h holding, expires bool) note {
	said := note{held: "you hold ", id: h.id}
	if h.expiry != nil {
		said.through, said.day = ", valid through ", v.day(*h.expiry)
	}
	switch {
	case h.open():
		said.open = "; not stated: the day of the job, so it cannot be checked"
	case h.expiry == nil && expires:
		said.open = "; no expiry date was sent, so check that it is still valid"
	}
	return said
}

// lapsed says that a holding has expired.
func (v *view) lapsed(h holding) string {
	return v.say(h.id, " expired on ", v.day(*h.expiry))
}
