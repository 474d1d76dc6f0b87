package wire

import (
	"bytes"
	"encoding"
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"
)

// AppendJSON appends the answer as JSON on one line, byte for byte as encoding/json writes it with
// HTML left unescaped, in a third of the time. The error is for a number that JSON has no form for.
func (a *Answer) AppendJSON(to []byte) ([]byte, error) {
	return answerAppender(to, reflect.ValueOf(a))
}

// appender appends a value of one type.
type appender func(to []byte, v reflect.Value) ([]byte, error)

// answerAppender knows how every part of an answer is written. It is worked out once.
var answerAppender = appenderOf(reflect.TypeFor[*Answer]())

// appenderOf works out how a type is written. What is no plain value of the wire is left to
// encoding/json.
func appenderOf(t reflect.Type) appender {
	if t.Implements(reflect.TypeFor[json.Marshaler]()) || t.Implements(reflect.TypeFor[encoding.TextMarshaler]()) {
		return appendOther
	}
	switch t.Kind() {
	case reflect.Pointer:
		return appendBehind(appenderOf(t.Elem()))
	case reflect.Struct:
		return appendObject(membersOf(t))
	case reflect.Slice:
		if t.Elem().Kind() == reflect.Uint8 {
			return appendOther // bytes are written in base64
		}
		return appendList(appenderOf(t.Elem()))
	case reflect.String:
		return func(to []byte, v reflect.Value) ([]byte, error) { return appendText(to, v.String()), nil }
	case reflect.Bool:
		return func(to []byte, v reflect.Value) ([]byte, error) { return strconv.AppendBool(to, v.Bool()), nil }
	case reflect.Int:
		return func(to []byte, v reflect.Value) ([]byte, error) { return strconv.AppendInt(to, v.Int(), 10), nil }
	case reflect.Float64:
		return appendFloat
	default:
		return appendOther
	}
}

func appendBehind(item appender) appender {
	return func(to []byte, v reflect.Value) ([]byte, error) {
		if v.IsNil() {
			return append(to, "null"...), nil
		}
		return item(to, v.Elem())
	}
}

func appendList(item appender) appender {
	return func(to []byte, v reflect.Value) ([]byte, error) {
		if v.IsNil() {
			return append(to, "null"...), nil
		}
		to = append(to, '[')
		var err error
		for i := range v.Len() {
			if i > 0 {
				to = append(to, ',')
			}
			if to, err = item(to, v.Index(i)); err != nil {
				return nil, err
			}
		}
		return append(to, ']'), nil
	}
}

// writtenMember is one member of an object.
type writtenMember struct {
	field   int
	label   string // its name as it stands before a value
	omitted bool   // where it is zero
	append  appender
}

// membersOf lists the members of an object in the order of its fields. Every field of the wire has a
// name, and leaves itself out by omitzero or not at all.
func membersOf(t reflect.Type) []writtenMember {
	members := make([]writtenMember, 0, t.NumField())
	for i := range t.NumField() {
		field := t.Field(i)
		name, options, _ := strings.Cut(field.Tag.Get("json"), ",")
		if !field.IsExported() || name == "-" {
			continue
		}
		members = append(members, writtenMember{
			field: i, label: `"` + name + `":`, omitted: options == "omitzero", append: appenderOf(field.Type),
		})
	}
	return members
}

func appendObject(members []writtenMember) appender {
	return func(to []byte, v reflect.Value) ([]byte, error) {
		to = append(to, '{')
		start := len(to)
		var err error
		for i := range members {
			m := &members[i]
			value := v.Field(m.field)
			if m.omitted && value.IsZero() {
				continue
			}
			if len(to) > start {
				to = append(to, ',')
			}
			to = append(to, m.label...)
			if to, err = m.append(to, value); err != nil {
				return nil, err
			}
		}
		return append(to, '}'), nil
	}
}

// appendFloat writes a number as ECMAScript does, as encoding/json and RFC 8785 have it.
func appendFloat(to []byte, v reflect.Value) ([]byte, error) {
	x := v.Float()
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil, fmt.Errorf("a figure of the answer is %v", x)
	}
	if x == 0 && math.Signbit(x) {
		to = append(to, '-') // RFC 8785 writes no sign, encoding/json does
	}
	return appendNumber(to, x), nil
}

// appendText writes a text. One of printable ASCII, as nearly all are, is copied; quotes and
// backslashes are escaped on the way.
func appendText(to []byte, s string) []byte {
	start := len(to)
	to = append(to, '"')
	from := 0
	for i := range len(s) {
		c := s[i]
		if plainByte[c] {
			continue
		}
		if c != '"' && c != '\\' {
			return appendRareText(to[:start], s)
		}
		to = append(to, s[from:i]...)
		to = append(to, '\\', c)
		from = i + 1
	}
	return append(append(to, s[from:]...), '"')
}

// plainByte are the bytes that stand in a text as they are.
var plainByte = func() (plain [256]bool) {
	for c := byte(' '); c <= '~'; c++ {
		plain[c] = c != '"' && c != '\\'
	}
	return plain
}()

// appendRareText writes a text with control characters or letters outside ASCII.
func appendRareText(to []byte, s string) []byte {
	written, _ := encodeOther(s) // a text has a form always
	return append(to, written...)
}

func appendOther(to []byte, v reflect.Value) ([]byte, error) {
	written, err := encodeOther(v.Interface())
	return append(to, written...), err
}

// encodeOther writes a value by encoding/json.
func encodeOther(value any) ([]byte, error) {
	var buffer bytes.Buffer
	encoder := json.NewEncoder(&buffer)
	encoder.SetEscapeHTML(false)
	err := encoder.Encode(value)
	return bytes.TrimSuffix(buffer.Bytes(), []byte{'\n'}), err
}
