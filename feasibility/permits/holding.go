package permits

import (
	"cmp"
	"slices"
	"strings"
	"time"
)

// holding is one id of the caller's holds, with its expiry checked against the mission's date.
type holding struct {
	id      string
	expiry  *time.Time // last valid day; nil where not stated
	checked bool       // the mission's date is known, so the expiry could be checked
	expired bool
}

// open reports whether nobody can tell if the holding is valid on the job: it runs out, and the
// mission has no date.
func (h *holding) open() bool { return h.expiry != nil && !h.checked }

// holdings reads the holds and their expiries. A holding without an expiry counts as valid, and
// that is said; one whose expiry cannot be checked, because the mission has no date, is open.
func holdings(f Facts) []holding {
	held := make([]holding, 0, len(f.Holds))
	for _, id := range f.Holds {
		h := holding{id: id, checked: f.At != nil, expiry: earliest(f.Expiries, id)}
		if h.expiry != nil && f.At != nil {
			h.expired = dayNumber(*f.At) > dayNumber(*h.expiry)
		}
		held = append(held, h)
	}
	return held
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
	for _, e := range expiries {
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

// held finds the first valid holding that satisfies a row; failing that, one that is open; failing
// that, an expired one.
func (v *view) held(r *Rule) (valid, expired *holding) {
	var open *holding
	for i := range v.holdings {
		h := &v.holdings[i]
		switch {
		case !r.accepts(h.id, v.Purpose):
		case h.expired:
			expired = cmp.Or(expired, h)
		case h.open():
			open = cmp.Or(open, h)
		default:
			return h, nil
		}
	}
	if open != nil {
		return open, nil
	}
	return nil, expired
}

// holds reports whether an id is held and not expired.
func (v *view) holds(id string) bool {
	return slices.ContainsFunc(v.holdings, func(h holding) bool { return h.id == id && !h.expired })
}

// note says what is held and how sure that is.
func (v *view) note(h *holding, expires bool) string {
	switch {
	case h.open():
		return v.say("you hold ", h.id, ", valid through ", v.day(*h.expiry), "; not stated: the day of the job, so it cannot be checked")
	case h.expiry != nil:
		return v.say("you hold ", h.id, ", valid through ", v.day(*h.expiry))
	case expires:
		return v.say("you hold ", h.id, "; no expiry date was sent, so check that it is still valid")
	default:
		return v.say("you hold ", h.id)
	}
}

// lapsed says that a holding has expired.
func (v *view) lapsed(h *holding) string {
	return v.say(h.id, " expired on ", v.day(*h.expiry))
}
