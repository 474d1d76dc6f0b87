package wire

import (
	"slices"

	"tractcheck/feasibility"
)

// mappedField is a field that several requests share, mapped once: holding an outline of many corners
// against itself is most of the reading.
type mappedField struct {
	done   bool
	field  feasibility.Field
	faults []Fault
}

// onOneField is a reader for requests that all have the same field. It serves one goroutine.
func (r *Reader) onOneField() *Reader {
	one := *r
	one.field = &mappedField{}
	return &one
}

// fieldOf maps the field of a request, or takes it over where it is known.
func (m *mapper) fieldOf(r *Request) feasibility.Field {
	if m.known == nil {
		return m.field(r.Field)
	}
	if m.known.done {
		m.faults = append(m.faults, m.known.faults...)
		return m.known.field
	}
	before := len(m.faults)
	field := m.field(r.Field)
	*m.known = mappedField{done: true, field: field, faults: slices.Clone(m.faults[before:])}
	return field
}
