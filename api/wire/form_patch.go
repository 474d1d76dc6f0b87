package wire

import (
	"encoding/json"
	"slices"
)

// memberForm is the form of a member of an object. A schema says of a merge patch only that it is one;
// its form is that of the part it patches.
func (s formMaker) memberForm(name string, node map[string]any, depth int) (*form, bool) {
	if s.whole != nil {
		if part, known := s.whole.members[name]; known && admitsPatches(node, part.form) {
			return part.form.patch(), true
		}
	}
	return s.formOf(node, depth)
}

// admitsPatches reports whether a schema admits every merge patch of a part, and no list, text or number.
func admitsPatches(node map[string]any, part *form) bool {
	kinds, _ := node["type"].([]any)
	if part.kind != objectForm || !slices.Equal(kinds, []any{"object", "null"}) {
		return false
	}
	for keyword, value := range node {
		switch keyword {
		case "type", "description":
		case "additionalProperties":
			if value != true {
				return false
			}
		case "maxProperties":
			number, _ := value.(json.Number)
			if most, err := number.Int64(); err != nil || most < int64(len(part.members)) {
				return false
			}
		default:
			return false
		}
	}
	return true
}

// patch is the form of a patch of what has this form. An object may come in part, and null stands for a
// member taken away; anything else takes the place of the old, whole. What has not this form makes a
// mission that has not its own, whatever it is merged over.
func (f *form) patch() *form {
	p := *f
	p.nullable = true
	if f.kind == objectForm {
		p.required, p.members, p.sorted = 0, make(map[string]formMember, len(f.members)), nil
		for _, member := range f.sorted {
			member.form = member.form.patch()
			p.add(member)
		}
	}
	return &p
}
