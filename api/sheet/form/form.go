package form

import (
	"fmt"
	"html/template"
	"strings"
)

// Form is the page and its reader. It is built once and may be used by any number of goroutines.
type Form struct {
	contract   *contract
	lines      []line // every field, in the order of the page
	parts      []part
	papers     []paperGroup
	page       *template.Template
	next       *template.Template
	hoursPage  *template.Template
	setUpsPage *template.Template
	trouble    *template.Template
}

// line is a field with what the contract says of it.
type line struct {
	field
	member

	path string // its pointer in the contract, * for an index
	part part   // the part it stands in
}

// New makes a form. The error names a field that the contract does not have, which is a mistake of
// the build.
func New() (*Form, error) {
	known, err := contractOnce()
	if err != nil {
		return nil, err
	}
	f := &Form{contract: known, parts: layout(), papers: papers()}
	if err := f.gather(f.parts); err != nil {
		return nil, err
	}
	return f, f.parse()
}

// gather lists the fields of parts and joins each with its member of the contract.
func (f *Form) gather(parts []part) error {
	for _, p := range parts {
		for _, one := range p.fields {
			path := one.at
			if p.list != "" {
				path = p.list + "/*" + one.at
			}
			m, ok := f.contract.members[path]
			if !ok {
				return fmt.Errorf("the form has a field the contract has not: %s", path)
			}
			f.lines = append(f.lines, line{field: one, member: m, path: path, part: p})
		}
		if err := f.gather(p.parts); err != nil {
			return err
		}
	}
	return nil
}

// unit is the unit of a quantity that stands first in a unit system.
func (l line) unit(system string) string {
	if system == "si" {
		return l.si
	}
	return l.us
}

// place is the pointer of a field in row i of its list; where it stands in none, i is not used.
func (l line) place(i int) string { return rowPlace(l.path, i) }

func rowPlace(path string, i int) string {
	return strings.Replace(path, "*", fmt.Sprint(i), 1)
}

// names are the names of the inputs of a field, from its place.
func (l line) names(place string) []string {
	switch l.kind {
	case kindQuantity:
		return []string{place + valueName, place + unitName}
	case kindMoment:
		return []string{place + localName, place + offsetName}
	case kindPoint:
		return []string{place + latitudeName, place + longitudeName}
	case kindPolygons:
		return []string{place, place + fileName}
	case kindIDs:
		return []string{place, place + otherName, place + noneName}
	default:
		return []string{place}
	}
}

// What is added to the pointer of a field that has more than one input.
const (
	valueName     = "/value"
	unitName      = "/unit"
	localName     = "/local"
	offsetName    = "/offset"
	latitudeName  = "/latitude"
	longitudeName = "/longitude"
	fileName      = "/file"
	otherName     = "/other"
	noneName      = "/none"
)
