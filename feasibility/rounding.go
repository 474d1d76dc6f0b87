package feasibility

import (
	"reflect"

	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/units"
)

// significantDigits is how many decimal digits of a figure leave the house: more than any model
// here deserves, and few enough that processors whose last bits differ agree on them.
const significantDigits = 9

// rounded returns the answer with every figure rounded.
func rounded(a Answer) Answer {
	a.round()
	return a
}

// round rounds every figure of the answer to significantDigits. Figures reached through a pointer are
// copied first, so that the caller's mission is never changed.
func (a *Answer) round() { roundAnswer(reflect.ValueOf(a).Elem()) }

// rounding rounds every figure in a value of one type; the value can be set.
type rounding func(reflect.Value)

// roundAnswer knows where the figures of an answer are. It is worked out once, and skips what holds
// none, so that nobody can forget a figure and none is looked for in vain.
var roundAnswer = roundingOf(reflect.TypeFor[Answer]())

// roundingOf works out the rounding of a type; nil where the type holds no figure. Other pointers
// to structs are times, entries of the rules table and the like: no figure that was worked out lies behind one.
func roundingOf(t reflect.Type) rounding {
	switch {
	case longLists[t] != nil:
		return longLists[t]
	case t == reflect.TypeFor[units.Quantity]():
		return roundQuantity
	case t == reflect.TypeFor[*permits.Comparison]():
		return roundingBehind(roundingOf(t.Elem()))
	case t.Kind() == reflect.Float64:
		return roundFloat
	case t.Kind() == reflect.Pointer && t.Elem().Kind() == reflect.Float64:
		return roundBehind
	case t.Kind() == reflect.Slice:
		return roundingOfItems(roundingOf(t.Elem()))
	case t.Kind() == reflect.Struct:
		return roundingOfFields(t)
	default:
		return nil
	}
}

func roundingOfItems(item rounding) rounding {
	if item == nil {
		return nil
	}
	return func(v reflect.Value) {
		for i := range v.Len() {
			item(v.Index(i))
		}
	}
}

func roundingOfFields(t reflect.Type) rounding {
	type field struct {
		at    int
		round rounding
	}
	var fields []field
	for i := range t.NumField() {
		if round := roundingOf(t.Field(i).Type); round != nil && t.Field(i).IsExported() {
			fields = append(fields, field{i, round})
		}
	}
	if fields == nil {
		return nil
	}
	return func(v reflect.Value) {
		for _, f := range fields {
			f.round(v.Field(f.at))
		}
	}
}

// roundingBehind rounds what a pointer leads to, in its place.
func roundingBehind(held rounding) rounding {
	return func(v reflect.Value) {
		if !v.IsNil() {
			held(v.Elem())
		}
	}
}

// roundFloat rounds a figure in its place.
func roundFloat(v reflect.Value) {
	x := v.Float()
	if round := significant(x); round != x {
		v.SetFloat(round)
	}
}

// roundBehind points at a rounded copy.
func roundBehind(v reflect.Value) {
	if v.IsNil() {
		return
	}
	x := v.Elem().Float()
	if round := significant(x); round != x {
		fresh := reflect.New(v.Type().Elem())
		fresh.Elem().SetFloat(round)
		v.Set(fresh)
	}
}

// roundQuantity holds a rounded quantity instead.
func roundQuantity(v reflect.Value) {
	if v.IsNil() { // as most are
		return
	}
	if held, ok := v.Addr().Interface().(*units.Quantity); ok {
		*held = units.Rounded(*held, significantDigits)
	}
}

func significant(x float64) float64 { return units.Significant(x, significantDigits) }
