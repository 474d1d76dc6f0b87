package form

import (
	"fmt"
	"regexp"
	"strings"

	"tractcheck/api/wire"
)

// mark is one fault as the page shows it: at the place of a field, or of the whole page where place
// is empty.
type mark struct {
	place   string // pointer of the field
	label   string
	message string
}

// marks lays faults beside the fields they are about, in the order of the page, each message once.
// The pointer of a fault may lie inside a field, as the unit of a quantity does, or be that of the
// object around some; the first of these fields then carries it.
func (f *Form) marks(v Values, faults []wire.Fault) []mark {
	seen := map[mark]bool{}
	byPlace := map[string][]mark{}
	var order []string
	add := func(m mark) {
		if !seen[m] {
			seen[m] = true
			byPlace[m.place] = append(byPlace[m.place], m)
		}
	}
	for _, fault := range faults {
		add(f.mark(v, fault))
	}
	order = append(order, "")
	f.each(v, func(_ line, place string) { order = append(order, place) })
	var all []mark
	for _, place := range order {
		all = append(all, byPlace[place]...)
	}
	return all
}

// each calls visit for every field with the place of each of its rows.
func (f *Form) each(v Values, visit func(l line, place string)) {
	done := map[string]bool{}
	for _, l := range f.lines {
		if l.part.list == "" {
			visit(l, l.path)
			continue
		}
		if done[l.part.list] {
			continue
		}
		done[l.part.list] = true
		for row := range v.rows(l.part.list) + 1 {
			for _, inRow := range f.lines {
				if inRow.part.list == l.part.list {
					visit(inRow, inRow.place(row))
				}
			}
		}
	}
}

// mark finds the field of a fault and says it in the words of the page.
func (f *Form) mark(v Values, fault wire.Fault) mark {
	var inside, around *mark
	f.each(v, func(l line, place string) {
		switch {
		case fault.Pointer == place || strings.HasPrefix(fault.Pointer, place+"/"):
			inside = &mark{place, l.label, f.plain(said(l, place, fault))}
		case around == nil && fault.Pointer != "" && strings.HasPrefix(place, fault.Pointer+"/"):
			around = &mark{place, l.label, f.plain(about(l.part, fault))}
		}
	})
	switch {
	case inside != nil:
		return *inside
	case around != nil:
		return *around
	default:
		return mark{message: f.plain(fault.Message)}
	}
}

// plain is a message of the reader with the names of members said as the labels of their fields.
func (f *Form) plain(message string) string {
	return memberName.ReplaceAllStringFunc(message, func(name string) string {
		for _, l := range f.lines {
			if strings.HasSuffix(l.path, "/"+name) {
				return "\u201c" + l.label + "\u201d"
			}
		}
		return name
	})
}

// memberName finds names of members that cannot be words of a sentence.
var memberName = regexp.MustCompile(`[a-z]+(_[a-z0-9]+)+`)

// about says a fault of the object around a field.
func about(p part, fault wire.Fault) string {
	if fault.Code == wire.FaultMissing {
		return "Fill in this part: " + strings.ToLower(p.title[:1]) + p.title[1:] + "."
	}
	return fault.Message
}

// said says a fault of a field. The reader's messages name members of the request; where the fault is
// of one field alone, the page can say it without them.
func said(l line, place string, fault wire.Fault) string {
	switch fault.Code {
	case wire.FaultMissing:
		if fault.Pointer == place && !l.required && !strings.Contains(fault.Message, "is missing") {
			return fault.Message // a demand on several fields
		}
		return "Fill this in: " + allowed(l) + "."
	case wire.FaultType:
		return "Write " + allowed(l) + "." + wrote(fault)
	case wire.FaultRange:
		return "This must be " + fault.Allowed + "." + wrote(fault)
	case wire.FaultEnum, wire.FaultUnit:
		return "Choose one from the list."
	case wire.FaultLength:
		return "This is too long or too short: write " + fault.Allowed + "."
	case wire.FaultFormat:
		text, _, pattern := strings.Cut(fault.Allowed, ", by the pattern")
		if pattern {
			return "Write " + text + "." + wrote(fault)
		}
		return fault.Message
	default:
		return fault.Message
	}
}

// allowed says what a field takes.
func allowed(l line) string {
	switch l.kind {
	case kindQuantity, kindNumber:
		return "a number, such as 12.5"
	case kindWhole:
		return "a whole number, such as 2"
	case kindChoice, kindYesNo:
		return "choose one from the list"
	case kindMoment, kindDate:
		return "a date"
	case kindPolygons:
		return "GeoJSON"
	case kindPoint:
		return "a latitude and a longitude, such as 33.41 and -90.87"
	default:
		return "some text"
	}
}

// wrote repeats what was typed, cut short.
func wrote(fault wire.Fault) string {
	const longest = 40
	switch v := fault.Value.(type) {
	case nil, map[string]any, []any:
		return ""
	case string:
		if len(v) > longest {
			return ""
		}
		return fmt.Sprintf(" You wrote %q.", v)
	default:
		return fmt.Sprintf(" You wrote %v.", v)
	}
}
