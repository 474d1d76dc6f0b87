package wire

import (
	"reflect"
	"strings"
)

// togetherRule is the rule of a member that must not come without another. It is the one rule of the
// tags that the schemas do not say as well.
const togetherRule = "required_with="

// pair is a member of an object of a request that must be sent where another is.
type pair struct {
	object       []int // fields on the way to the object; each a pointer
	member, with int   // fields of the object
}

// pairs are all such members of a mission, hourPairs those of the weather of an hour.
var (
	pairs     = pairsOf(reflect.TypeFor[Request](), nil)
	hourPairs = pairsOf(reflect.TypeFor[HourWeather](), nil)
)

func pairsOf(t reflect.Type, path []int) []pair {
	var found []pair
	for i := range t.NumField() {
		field := t.Field(i)
		if other, ok := strings.CutPrefix(field.Tag.Get("validate"), togetherRule); ok {
			if with, ok := t.FieldByName(other); ok {
				found = append(found, pair{path, i, with.Index[0]})
			}
		}
		if field.Type.Kind() == reflect.Pointer && field.Type.Elem().Kind() == reflect.Struct {
			found = append(found, pairsOf(field.Type.Elem(), append(path[:len(path):len(path)], i))...)
		}
	}
	return found
}

// paired reports whether every member that must come with another does.
func (r *Request) paired() bool { return together(pairs, reflect.ValueOf(r).Elem()) }

// paired reports whether every such member of the mission and of its hours does.
func (s *SprayHoursRequest) paired() bool {
	for i := range s.Hours {
		if !together(hourPairs, reflect.ValueOf(&s.Hours[i]).Elem()) {
			return false
		}
	}
	return s.Mission.paired()
}

func together(pairs []pair, object reflect.Value) bool {
	for _, p := range pairs {
		if !p.holds(object) {
			return false
		}
	}
	return true
}

func (p pair) holds(object reflect.Value) bool {
	for _, field := range p.object {
		if object = object.Field(field); object.IsNil() {
			return true
		}
		object = object.Elem()
	}
	return object.Field(p.with).IsNil() || !object.Field(p.member).IsNil()
}
