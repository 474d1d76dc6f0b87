package feasibility

import (
	"reflect"

	"tractcheck/feasibility/units"
)

// significantDigits is how many decimal digits of a figure leave the house: more than any model
// here deserves, and few enough that processors whose last bits differ agree on them.
const significantDigits = 9

// rounded returns the answer with every figure rounded to significantDigits. Figures reached
// through a pointer are copied first, so that the caller's mission is never changed.
func rounded(a Answer) Answer {
	round(reflect.ValueOf(&a).Elem())
	return a
}

// round walks a value and rounds every float it can set.
func round(v reflect.Value) {
	switch v.Kind() {
	case reflect.Float64:
		if v.CanSet() {
			v.SetFloat(float64(units.Significant(units.Proportion(v.Float()), significantDigits)))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				round(v.Field(i))
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			round(v.Index(i))
		}
	case reflect.Pointer, reflect.Interface:
		roundBehind(v)
	}
}

// roundBehind replaces what a pointer or an interface holds by a rounded copy.
func roundBehind(v reflect.Value) {
	if v.IsNil() || !v.CanSet() {
		return
	}
	held := v.Elem()
	if v.Kind() == reflect.Pointer && held.Kind() == reflect.Struct {
		return // times and the like; no figure of the answer lies behind such a pointer
	}
	fresh := reflect.New(held.Type())
	fresh.Elem().Set(held)
	round(fresh.Elem())
	if v.Kind() == reflect.Pointer {
		v.Set(fresh)
		return
	}
	v.Set(fresh.Elem())
}
