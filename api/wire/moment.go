package wire

import (
	"regexp"
	"time"
)

// momentShape is RFC 3339 strictly: Go's own parser also takes one-digit hours, a decimal comma and
// an offset of 24 hours.
var momentShape = regexp.MustCompile(`^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(\.\d{1,9})?(Z|[+-]([01]\d|2[0-3]):[0-5]\d)$`)

// dateShape is the full-date of RFC 3339.
var dateShape = regexp.MustCompile(`^\d{4}-\d{2}-\d{2}$`)

// Years outside these are slips; the sun and the rules are not known for them. Own choice.
const (
	firstYear = 2000
	lastYear  = 2100
)

// moment reads a moment in time, with its offset.
func (m *mapper) moment(p place, text *string) *time.Time {
	const allowed = "RFC 3339 with an offset, such as 2026-06-03T07:30:00-05:00"
	return m.calendar(p, text, momentShape, time.RFC3339Nano, allowed)
}

// date reads a day; it comes back as that day's midnight in UTC.
func (m *mapper) date(p place, text *string) *time.Time {
	return m.calendar(p, text, dateShape, time.DateOnly, "a date such as 2027-03-31")
}

func (m *mapper) calendar(p place, text *string, shape *regexp.Regexp, layout, allowed string) *time.Time {
	if text == nil {
		return nil
	}
	if !shape.MatchString(*text) {
		m.add(Fault{Pointer: p.pointer(), Code: FaultFormat, Value: clip(*text), Allowed: allowed,
			Message: p.name() + " is not written as the contract asks. Send " + allowed + "."})
		return nil
	}
	moment, err := time.Parse(layout, *text)
	if err != nil {
		m.add(Fault{Pointer: p.pointer(), Code: FaultFormat, Value: clip(*text), Allowed: allowed,
			Message: p.name() + " is not a day or time that exists. Check the day of the month, the hour and the offset."})
		return nil
	}
	if y := moment.Year(); y < firstYear || y > lastYear {
		m.add(Fault{Pointer: p.pointer(), Code: FaultRange, Value: clip(*text), Allowed: "years 2000 to 2100",
			Message: p.name() + " is outside the years 2000 to 2100. Check the year."})
		return nil
	}
	return &moment
}
