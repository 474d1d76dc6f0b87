package wire

import (
	"fmt"
	"math/big"
	"slices"
	"strconv"
	"strings"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/santhosh-tekuri/jsonschema/v6/kind"
)

// faults says one error of the schema in a body as faults: where, what was sent, what the contract
// asks for and what to do. An error about members is one fault for each member, and its pointer
// names the member, not the object around it.
func (s *shapes) faults(endpoint Endpoint, body any, e *jsonschema.ValidationError) []Fault {
	where, name := e.InstanceLocation, nameOf(e.InstanceLocation)
	node := s.node(e.SchemaURL) // the part of the contract that was broken
	switch k := e.ErrorKind.(type) {
	case *kind.Required:
		return s.missing(body, where, node, k.Missing)
	case *kind.DependentRequired:
		return s.missing(body, where, node, k.Missing)
	case *kind.AdditionalProperties:
		return unknowns(where, k.Properties, namesOf(node))
	case *kind.FalseSchema:
		return unknowns(where[:len(where)-1], where[len(where)-1:], nil)
	case *kind.Type:
		f := wrongType(name, k.Got, s.allowed(body, where, node), s.needed(endpoint, where))
		f.Pointer, f.Value = pointerOf(where), scalar(sentAt(body, where))
		return []Fault{f}
	}
	f := Fault{Pointer: pointerOf(where), Code: FaultConflict, Allowed: s.allowed(body, where, node)}
	sent := outside(e.ErrorKind, &f)
	if f.Allowed == "" {
		f.Allowed = "what the contract describes at this place"
	}
	f.Message = fmt.Sprintf("%s %s. Send %s.", name, sent, f.Allowed)
	return []Fault{f}
}

// outside fills in a fault about one value and words what was sent.
func outside(broken jsonschema.ErrorKind, f *Fault) string {
	switch k := broken.(type) {
	case *kind.Enum:
		return notListed(k.Got, k.Want, f)
	case *kind.Const:
		return notListed(k.Got, []any{k.Want}, f)
	case *kind.Minimum:
		return outOfRange(k.Got, f)
	case *kind.Maximum:
		return outOfRange(k.Got, f)
	case *kind.ExclusiveMinimum:
		return outOfRange(k.Got, f)
	case *kind.ExclusiveMaximum:
		return outOfRange(k.Got, f)
	case *kind.MultipleOf:
		return outOfRange(k.Got, f)
	case *kind.MinLength:
		return wrongLength(k.Got, "at least", k.Want, "character", f)
	case *kind.MaxLength:
		return wrongLength(k.Got, "at most", k.Want, "character", f)
	case *kind.MinItems:
		return wrongLength(k.Got, "at least", k.Want, "item", f)
	case *kind.MaxItems:
		return wrongLength(k.Got, "at most", k.Want, "item", f)
	case *kind.MinProperties:
		return wrongLength(k.Got, "at least", k.Want, "member", f)
	case *kind.MaxProperties:
		return wrongLength(k.Got, "at most", k.Want, "member", f)
	case *kind.UniqueItems:
		f.Code, f.Allowed = FaultLength, "each item once"
		return fmt.Sprintf("has the same item at %d and %d", k.Duplicates[0], k.Duplicates[1])
	case *kind.Pattern:
		return wrongFormat(k.Got, f)
	default:
		return "does not fit together with the members around it"
	}
}

// missing says that members are absent.
func (s *shapes) missing(body any, where []string, node map[string]any, names []string) []Fault {
	faults := make([]Fault, len(names))
	for i, name := range names {
		place := append(slices.Clone(where), name)
		allowed := s.allowed(body, place, s.property(node, name))
		message := nameOf(place) + " is missing. Add it."
		if allowed != "" {
			message = fmt.Sprintf("%s is missing. Add it: %s.", nameOf(place), allowed)
		}
		faults[i] = Fault{Pointer: pointerOf(where, name), Code: FaultMissing, Allowed: allowed, Message: message}
	}
	return faults
}

// unknowns says that the contract has no such members. Of more than anyone could mend the first by
// name are kept, the same ones every time.
func unknowns(where, sent, known []string) []Fault {
	if len(sent) > noted {
		sent = slices.Sorted(slices.Values(sent))[:noted]
	}
	allowed := strings.Join(known, ", ")
	faults := make([]Fault, len(sent))
	for i, name := range sent {
		faults[i] = unknown(pointerOf(where, name), name, allowed, known)
	}
	return faults
}

// unknown says that the contract has no such member, and which one may have been meant.
func unknown(pointer, name, allowed string, known []string) Fault {
	f := Fault{Pointer: pointer, Code: FaultUnknown, Allowed: allowed}
	said := strconv.Quote(clip(name))
	switch meant := Nearest(name, known); {
	case meant != "":
		f.Message = fmt.Sprintf("%s is not a member of this object. Did you mean %q? Names are written in small letters with underscores.", said, meant)
	case len(known) > 0:
		f.Message = fmt.Sprintf("%s is not a member of this object. Remove it, or use one of: %s.", said, f.Allowed)
	default:
		f.Message = said + " is not a member of this object. Remove it."
	}
	return f
}

// wrongType says that a value is of another JSON type, null included.
func wrongType(name, got, allowed string, needed bool) Fault {
	f := Fault{Code: FaultType, Allowed: allowed}
	switch {
	case got == "null" && needed:
		f.Message = fmt.Sprintf("%s is null, but it is needed. Send %s.", name, allowed)
	case got == "null":
		f.Message = fmt.Sprintf("%s is null. Send %s, or leave the member out where you do not know it.", name, allowed)
	case got == "number" && strings.HasPrefix(allowed, "a whole number"):
		f.Message = fmt.Sprintf("%s is not a whole number. Send %s.", name, allowed)
	default:
		f.Message = fmt.Sprintf("%s is of type %s. Send %s.", name, got, allowed)
	}
	return f
}

// notListed fills in a fault about a value outside a closed list; a unit code has a code of its own.
func notListed(got any, want []any, f *Fault) string {
	sent := clip(fmt.Sprint(got))
	f.Code, f.Value, f.Allowed = FaultEnum, sent, orList(want)
	if strings.HasSuffix(f.Pointer, "/unit") {
		f.Code = FaultUnit
	}
	return fmt.Sprintf("is %q, which is not in the list", sent)
}

func outOfRange(got *big.Rat, f *Fault) string {
	value, _ := got.Float64()
	f.Code, f.Value = FaultRange, finite(value)
	return "is " + sayNumber(value)
}

func wrongLength(got int, side string, want int, of string, f *Fault) string {
	f.Code, f.Value, f.Allowed = FaultLength, got, side+" "+counted(strconv.Itoa(want), of)
	return "has " + counted(strconv.Itoa(got), of)
}

// counted words a number of things.
func counted(number, thing string) string {
	if number == "1" {
		return number + " " + thing
	}
	return number + " " + thing + "s"
}

func wrongFormat(got string, f *Fault) string {
	f.Code, f.Value = FaultFormat, clip(got)
	return fmt.Sprintf("is %q, which is not written as the contract asks", clip(got))
}

// nameOf is the name a message calls a place by: its last name, or that of the quantity around it.
func nameOf(location []string) string {
	last := len(location) - 1
	if last > 0 && (location[last] == "value" || location[last] == "unit") {
		return "The " + location[last] + " of " + clip(location[last-1])
	}
	if last < 0 {
		return "The body"
	}
	if _, err := strconv.Atoi(location[last]); err == nil && last > 0 {
		return fmt.Sprintf("Item %s of %s", location[last], clip(location[last-1]))
	}
	return clip(location[last])
}
