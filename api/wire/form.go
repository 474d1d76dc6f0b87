package wire

import (
	"encoding/json"
	"maps"
	"math"
	"regexp"
	"slices"
)

// form is a schema of the contract as the quick reading checks it. It knows the few keywords that the
// request schemas use; a schema with any other has no form, and its bodies are read the long way.
type form struct {
	kind      formKind
	nullable  bool                  // of a patch: a null takes the member away
	members   map[string]formMember // of an object; no other is admitted
	sorted    []formMember          // the same, in the order of RFC 8785
	required  memberSet
	items     *form // of a list
	distinct  bool  // no two items of a list are alike
	least     int   // characters of a text, items of a list
	most      int
	values    []string       // of a text; any where nil
	pattern   *regexp.Regexp // of a text; any where nil
	low, high float64        // of a number
}

// formKind is what a form admits.
type formKind int

const (
	objectForm formKind = iota
	listForm
	textForm
	numberForm
	wholeForm
	flagForm
	coordinateForm // a number, or a list of numbers and lists
)

// formMember is one member of an object.
type formMember struct {
	place int // its bit in a memberSet
	name  string
	label string // its name as it stands before a value
	form  *form
}

// memberSet is a set of members of one object.
type memberSet uint64

const mostMembers = 64

func (s memberSet) has(place int) bool { return s&(1<<place) != 0 }

// formsOf works out the forms of all endpoints; an endpoint whose schema has none is left out.
func (s *shapes) formsOf() map[Endpoint]*form {
	forms := map[Endpoint]*form{}
	for _, endpoint := range endpoints {
		maker := formMaker{shapes: s, whole: forms[Assessments]}
		if f, ok := maker.formOf(s.root(endpoint), 0); ok {
			forms[endpoint] = f
		}
	}
	return forms
}

// formMaker works out forms.
type formMaker struct {
	*shapes
	whole *form // of a whole mission, whose parts are patched; nil where it is not known yet
}

// root is the schema of the bodies of an endpoint.
func (s *shapes) root(endpoint Endpoint) map[string]any {
	return s.node(contractURL + "#/components/schemas/" + endpoint.SchemaName())
}

// described are the keywords that admit and refuse nothing. Format is one of them: the schemas say so
// by the draft they are written in.
var described = []string{"description", "examples", "title", "format", "default", "deprecated"}

// formOf works out the form of a schema; false where it has none.
func (s formMaker) formOf(node map[string]any, depth int) (*form, bool) {
	if node == nil || depth > maxDepth {
		return nil, false
	}
	f := &form{most: math.MaxInt, low: math.Inf(-1), high: math.Inf(1)}
	kind, typed := node["type"].(string)
	if _, sent := node["type"]; sent != typed || !f.ofType(kind) {
		return nil, false
	}
	for keyword, value := range node {
		switch keyword {
		case "type", "properties", "required", "additionalProperties":
		case "items":
			items, _ := value.(map[string]any)
			below, known := s.formOf(s.follow(items), depth+1)
			if !known {
				return nil, false
			}
			f.items = below
		default:
			if !slices.Contains(described, keyword) && !f.bound(keyword, value) {
				return nil, false
			}
		}
	}
	if f.distinct && (f.items == nil || f.items.kind != textForm || f.items.values == nil) {
		return nil, false
	}
	return f, f.kind != objectForm || s.object(f, node, depth)
}

// ofType takes the type of a schema; a schema without one is that of a coordinate.
func (f *form) ofType(name string) bool {
	names := []string{"object", "array", "string", "number", "integer", "boolean", ""}
	at := slices.Index(names, name)
	f.kind = formKind(at)
	return at >= 0
}

// bound takes a keyword about one value. A bound must be a number that float64 holds, or the
// comparison would not be that of the schema.
func (f *form) bound(keyword string, value any) bool {
	switch v := value.(type) {
	case json.Number:
		x, err := v.Float64()
		if err != nil || x*64 != math.Trunc(x*64) || math.Abs(x) > 1<<53 {
			return false
		}
		return f.number(keyword, x)
	case string:
		pattern, err := regexp.Compile(v)
		f.pattern = pattern
		return keyword == "pattern" && err == nil
	case bool:
		f.distinct = v
		return keyword == "uniqueItems"
	case []any:
		for _, one := range v {
			text, ok := one.(string)
			if !ok {
				return false
			}
			f.values = append(f.values, text)
		}
		return keyword == "enum" && f.kind == textForm
	default:
		return false
	}
}

func (f *form) number(keyword string, x float64) bool {
	switch keyword {
	case "minimum":
		f.low = x
	case "maximum":
		f.high = x
	case "minLength", "minItems":
		f.least = int(x)
	case "maxLength", "maxItems":
		f.most = int(x)
	default:
		return false
	}
	return true
}

// plainNames need no escapes, and their order by bytes is that of RFC 8785.
var plainNames = regexp.MustCompile(`^[A-Za-z0-9_]+$`)

// add adds a member, whose name comes after those before it.
func (f *form) add(member formMember) {
	member.label = `"` + member.name + `":`
	f.members[member.name] = member
	f.sorted = append(f.sorted, member)
}

// object takes the members of an object, which must be closed.
func (s formMaker) object(f *form, node map[string]any, depth int) bool {
	properties, _ := node["properties"].(map[string]any)
	if closed, ok := node["additionalProperties"].(bool); !ok || closed || len(properties) > mostMembers {
		return false
	}
	f.members = make(map[string]formMember, len(properties))
	for place, name := range slices.Sorted(maps.Keys(properties)) {
		below, ok := s.memberForm(name, s.property(node, name), depth+1)
		if !ok || !plainNames.MatchString(name) {
			return false
		}
		f.add(formMember{place: place, name: name, form: below})
	}
	required, _ := node["required"].([]any)
	for _, name := range required {
		text, _ := name.(string)
		member, ok := f.members[text]
		if !ok {
			return false
		}
		f.required |= 1 << member.place
	}
	return true
}
