package form

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"sync"

	"tractcheck/openapi"
)

// kind is the way a member of the request is filled in.
type kind string

// The kinds of members.
const (
	kindQuantity kind = "quantity" // a number and a unit
	kindNumber   kind = "number"   // a bare number
	kindWhole    kind = "whole"    // a whole number
	kindText     kind = "text"     // free text
	kindChoice   kind = "choice"   // one of a closed list
	kindYesNo    kind = "yes_no"   // yes, no or not known
	kindMoment   kind = "moment"   // a date, a time of day and an offset
	kindDate     kind = "date"     // a date
	kindPolygons kind = "polygons" // GeoJSON, pasted or from a file
	kindPoint    kind = "point"    // a latitude and a longitude
	kindIDs      kind = "ids"      // a list of ids, ticked
)

// member is one leaf of the request as the contract describes it. Its pointer has * in place of an
// index.
type member struct {
	pointer     string
	kind        kind
	required    bool // by the object it stands in
	description string
	units       []string // of a quantity
	choices     []string
	low, high   *float64 // of a bare number
	longest     int      // of a text
}

// contract is what the form knows of the request: its leaves by pointer, the leaves in no order of
// meaning, the lists, and the objects the request must hold.
type contract struct {
	members map[string]member
	lists   map[string]int // the most rows of each list
	objects []string       // required objects whose every parent is required
}

// contractOnce reads the request schema of an assessment out of the embedded contract.
var contractOnce = sync.OnceValues(func() (*contract, error) {
	var document struct {
		Components struct {
			Schemas map[string]map[string]any `json:"schemas"`
		} `json:"components"`
	}
	if err := json.Unmarshal([]byte(openapi.Requests), &document); err != nil {
		return nil, fmt.Errorf("reading the contract: %w", err)
	}
	c := &contract{members: map[string]member{}, lists: map[string]int{}}
	w := walker{schemas: document.Components.Schemas, contract: c}
	if err := w.object("", w.schemas["AssessmentRequest"], true); err != nil {
		return nil, err
	}
	slices.Sort(c.objects)
	return c, nil
})

// walker goes through the schemas of the contract from one request down to its leaves.
type walker struct {
	schemas  map[string]map[string]any
	contract *contract
}

// resolve follows a reference; members that stand beside it go before those it points to.
func (w walker) resolve(schema map[string]any) map[string]any {
	name, ok := schema["$ref"].(string)
	if !ok {
		return schema
	}
	merged := map[string]any{}
	for key, value := range w.schemas[strings.TrimPrefix(name, "#/components/schemas/")] {
		merged[key] = value
	}
	for key, value := range schema {
		if key != "$ref" {
			merged[key] = value
		}
	}
	return merged
}

// object walks the properties of an object. needed says that the object is in every request.
func (w walker) object(pointer string, schema map[string]any, needed bool) error {
	if needed && pointer != "" {
		w.contract.objects = append(w.contract.objects, pointer)
	}
	required := map[string]bool{}
	for _, name := range texts(schema["required"]) {
		required[name] = true
	}
	properties, _ := schema["properties"].(map[string]any)
	for name, property := range properties {
		of, _ := property.(map[string]any)
		if err := w.property(pointer+"/"+name, w.resolve(of), required[name], needed); err != nil {
			return err
		}
	}
	return nil
}

// property walks one property: into it, or down to a leaf.
func (w walker) property(pointer string, schema map[string]any, required, needed bool) error {
	leaf, ok := leafOf(schema)
	switch {
	case ok:
		leaf.pointer, leaf.required = pointer, required
		w.contract.members[pointer] = leaf
		return nil
	case schema["type"] == "object":
		return w.object(pointer, schema, required && needed)
	case schema["type"] == "array":
		most, _ := schema["maxItems"].(float64)
		w.contract.lists[pointer] = int(most)
		items, _ := schema["items"].(map[string]any)
		return w.object(pointer+"/*", w.resolve(items), false)
	default:
		return fmt.Errorf("the contract has a member the form cannot show: %s", pointer)
	}
}

// leafOf recognizes a member that is filled in as a whole.
func leafOf(schema map[string]any) (member, bool) {
	m := member{choices: texts(schema["enum"])}
	m.description, _ = schema["description"].(string)
	properties, _ := schema["properties"].(map[string]any)
	switch schema["type"] {
	case "string":
		m.kind = textKind(schema)
		longest, _ := schema["maxLength"].(float64)
		m.longest = int(longest)
	case "boolean":
		m.kind = kindYesNo
	case "number", "integer":
		m.kind = kindNumber
		if schema["type"] == "integer" {
			m.kind = kindWhole
		}
		m.low, m.high = number(schema["minimum"]), number(schema["maximum"])
	case "array":
		items, _ := schema["items"].(map[string]any)
		m.kind, m.choices = kindIDs, texts(items["enum"])
		return m, items["type"] == "string"
	case "object":
		return compound(m, properties)
	default:
		return m, false
	}
	return m, true
}

// compound recognizes an object that is filled in as one: a quantity or a geometry.
func compound(m member, properties map[string]any) (member, bool) {
	unit, isQuantity := properties["unit"].(map[string]any)
	if isQuantity {
		m.kind, m.units = kindQuantity, texts(unit["enum"])
		return m, true
	}
	if _, isGeometry := properties["coordinates"]; !isGeometry {
		return m, false
	}
	m.kind = kindPolygons
	of, _ := properties["type"].(map[string]any)
	if names := texts(of["enum"]); len(names) == 1 && names[0] == "Point" {
		m.kind = kindPoint
	}
	return m, true
}

// textKind tells the kinds of text apart.
func textKind(schema map[string]any) kind {
	switch {
	case schema["enum"] != nil:
		return kindChoice
	case schema["format"] == "date-time":
		return kindMoment
	case schema["format"] == "date":
		return kindDate
	default:
		return kindText
	}
}

// texts reads a list of strings.
func texts(value any) []string {
	list, _ := value.([]any)
	out := make([]string, 0, len(list))
	for _, item := range list {
		if text, ok := item.(string); ok {
			out = append(out, text)
		}
	}
	return out
}

func number(value any) *float64 {
	if n, ok := value.(float64); ok {
		return &n
	}
	return nil
}
