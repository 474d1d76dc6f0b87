package wire

import (
	"reflect"
	"strconv"
	"strings"
)

// quantityAt finds the quantity a JSON pointer names in the request; nil where there is none.
func (r *Request) quantityAt(pointer string) *Quantity {
	at := reflect.ValueOf(r)
	for token := range strings.SplitSeq(strings.TrimPrefix(pointer, "/"), "/") {
		at = stepInto(at, token)
		if !at.IsValid() {
			return nil
		}
	}
	q, ok := at.Interface().(*Quantity)
	if !ok || q == nil || q.Value == nil {
		return nil
	}
	return q
}

// stepInto follows one name or index; the zero value where it leads nowhere.
func stepInto(at reflect.Value, token string) reflect.Value {
	for at.Kind() == reflect.Pointer {
		if at.IsNil() {
			return reflect.Value{}
		}
		at = at.Elem()
	}
	switch at.Kind() {
	case reflect.Struct:
		for i := range at.NumField() {
			if name, _, _ := strings.Cut(at.Type().Field(i).Tag.Get("json"), ","); name == token {
				return at.Field(i)
			}
		}
	case reflect.Slice:
		if i, err := strconv.Atoi(token); err == nil && i >= 0 && i < at.Len() {
			return at.Index(i)
		}
	}
	return reflect.Value{}
}
