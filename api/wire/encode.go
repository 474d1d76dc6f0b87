package wire

import (
	"bytes"
	"encoding"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"
	"unicode/utf8"
)

// AppendJSON appends the answer as JSON on one line, byte for byte as encoding/json writes it with
// HTML left unescaped, in a third of the time. The error is for a number that JSON has no form for.
func (a *Answer) AppendJSON(to []byte) ([]byte, error) {
	return answerAppender(to, reflect.ValueOf(a))
}

// appender appends a value of one type.
type appender func(to []byte, v reflect.Value) ([]byte, error)

// The appenders know how every part of an answer is written. They are worked out once.
var (
	answerAppender     = appenderOf(reflect.TypeFor[*Answer]())
	hoursAppender      = appenderOf(reflect.TypeFor[*SprayHoursAnswer]())
	comparisonAppender = appenderOf(reflect.TypeFor[*ComparisonAnswer]())
)

// appenderOf works out how a type is written. What is no plain value of the wire is left to
// encoding/json.
func appenderOf(t reflect.Type) appender {
	if t.Implements(reflect.TypeFor[json.Marshaler]()) || t.Implements(reflect.TypeFor[encoding.TextMarshaler]()) {
		return appendOther
	}
	if t == reflect.TypeFor[*Quantity]() {
		return appendQuantity
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
	text    bool   // most members are
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
			text: field.Type.Kind() == reflect.String,
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
			if m.text {
				to = appendText(to, value.String())
				continue
			}
			if to, err = m.append(to, value); err != nil {
				return nil, err
			}
		}
		return append(to, '}'), nil
	}
}

// appendQuantity writes a quantity, of which an answer has hundreds.
func appendQuantity(to []byte, v reflect.Value) ([]byte, error) {
	q, _ := v.Interface().(*Quantity)
	if q == nil {
		return append(to, "null"...), nil
	}
	to = append(to, '{')
	if q.Value != nil {
		var err error
		if to, err = appendFigure(append(to, `"value":`...), *q.Value); err != nil {
			return nil, err
		}
		to = append(to, ',')
	}
	return append(appendText(append(to, `"unit":`...), q.Unit), '}'), nil
}

// appendFloat writes a number as ECMAScript does, as encoding/json and RFC 8785 have it.
func appendFloat(to []byte, v reflect.Value) ([]byte, error) { return appendFigure(to, v.Float()) }

func appendFigure(to []byte, x float64) ([]byte, error) {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil, fmt.Errorf("a figure of the answer is %v", x)
	}
	if x == 0 && math.Signbit(x) {
		to = append(to, '-') // RFC 8785 writes no sign, encoding/json does
	}
	return appendNumber(to, x), nil
}

// appendText writes a text. One that is plain throughout, as nearly all are, is copied and looked
// through; quotes and backslashes are escaped on the way.
func appendText(to []byte, s string) []byte {
	start := len(to)
	to = append(append(to, '"'), s...)
	if isPlain(to[start+1:]) {
		return append(to, '"')
	}
	to = to[:start+1]
	from := 0
	for i := range len(s) {
		switch c := s[i]; {
		case c == '"' || c == '\\':
			to = append(to, s[from:i]...)
			to = append(to, '\\', c)
			from = i + 1
		case c < ' ' || c >= utf8.RuneSelf:
			return appendRareText(to[:start], s)
		}
	}
	return append(append(to, s[from:]...), '"')
}

// isPlain reports whether a text is ASCII that stands in a JSON text as it is. It looks at eight bytes
// at a time: in each the top bit is set by the borrow of a subtraction where the byte is small, or, the
// bits of a sign taken out, zero.
func isPlain(text []byte) bool {
	const ones, tops = 0x0101010101010101, 0x8080808080808080
	for ; len(text) >= 8; text = text[8:] {
		w := binary.LittleEndian.Uint64(text)
		quote, slash := w^(ones*'"'), w^(ones*'\\')
		if (w|(w-ones*' ')|((quote-ones)&^quote)|((slash-ones)&^slash))&tops != 0 {
			return false
		}
	}
	for _, c := range text {
		if c < ' ' || c >= utf8.RuneSelf || c == '"' || c == '\\' {
			return false
		}
	}
	return true
}

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
