package feasibility

import (
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"

	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/units"
)

// unrounded fills every figure of a struct with one of more digits than leave the house.
func unrounded(v reflect.Value) {
	for i := range v.NumField() {
		switch f := v.Field(i); {
		case !f.CanSet():
		case f.Kind() == reflect.Float64:
			f.SetFloat(1.23456789012345)
		case f.Type() == reflect.TypeFor[units.Quantity]():
			f.Set(reflect.ValueOf(units.Mass(1.23456789012345)))
		case f.Kind() == reflect.Struct:
			unrounded(f)
		case f.Type() == reflect.TypeFor[*permits.Comparison]():
			f.Set(reflect.New(f.Type().Elem()))
			unrounded(f.Elem())
		case f.Kind() == reflect.Pointer && f.Type().Elem().Kind() == reflect.Float64:
			f.Set(reflect.New(f.Type().Elem()))
			f.Elem().SetFloat(1.23456789012345)
		}
	}
}

// The lists whose figures are named come out as the walk by types leaves them.
func TestLongListsForgetNoFigure(t *testing.T) {
	for list, round := range longLists {
		named, found := reflect.New(list).Elem(), reflect.New(list).Elem()
		for _, v := range []reflect.Value{named, found} {
			v.Set(reflect.MakeSlice(list, 2, 2))
			unrounded(v.Index(1))
		}
		before := reflect.New(list.Elem()).Elem()
		unrounded(before)
		round(named)
		roundingOfItems(roundingOf(list.Elem()))(found)
		assert.Equal(t, found.Interface(), named.Interface(), list)
		assert.NotEqual(t, before.Interface(), named.Index(1).Interface(), "%s holds figures", list)
	}
}
