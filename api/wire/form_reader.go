package wire

import (
	"bytes"
	"errors"
	"io"
	"math"
	"slices"
	"strconv"
	"sync"
	"unicode/utf8"

	"github.com/go-json-experiment/json/jsontext"
)

// formReader holds the tokens of a body to a form, and writes the body in the canonical form of RFC
// 8785 on the way. It refuses all that passes 1 and 2 find fault with, and some of what they do not:
// what it refuses is read the long way.
type formReader struct {
	source    bytes.Buffer
	tokens    *jsontext.Decoder
	values    int
	canonical []byte
	unsorted  []byte // members of the object that is being sorted
}

var formReaders = sync.Pool{New: func() any {
	return &formReader{tokens: jsontext.NewDecoder(bytes.NewReader(nil))}
}}

// admits reports whether a body is one strict JSON value of a form and nothing after it, and takes its
// canonical form. A body with escapes in a name is left to the long way.
func (f *form) admits(body []byte, take func(canonical []byte)) bool {
	r := formReaders.Get().(*formReader)
	defer formReaders.Put(r)
	r.source = *bytes.NewBuffer(body)
	r.tokens.Reset(&r.source, jsontext.AllowDuplicateNames(true)) // object sees to them
	r.values, r.canonical, r.unsorted = 0, slices.Grow(r.canonical[:0], len(body)), slices.Grow(r.unsorted[:0], len(body))
	fits := r.value(f, 0) && r.atEnd()
	if fits {
		take(r.canonical)
	}
	r.source = bytes.Buffer{} // the body is the caller's
	r.tokens.Reset(&r.source)
	return fits
}

func (r *formReader) atEnd() bool {
	_, err := r.tokens.ReadToken()
	return errors.Is(err, io.EOF)
}

// value reads the next value.
func (r *formReader) value(f *form, depth int) bool {
	if r.values++; r.values > maxValues {
		return false
	}
	switch r.tokens.PeekKind() {
	case jsontext.KindBeginObject:
		return f.kind == objectForm && depth < maxDepth && r.object(f, depth+1)
	case jsontext.KindBeginArray:
		return (f.kind == listForm || f.kind == coordinateForm) && depth < maxDepth && r.list(f, depth+1)
	case jsontext.KindString:
		return f.kind == textForm && r.text(f)
	case jsontext.KindNumber:
		return (f.kind == numberForm || f.kind == wholeForm || f.kind == coordinateForm) && r.number(f)
	case jsontext.KindTrue, jsontext.KindFalse:
		flag, err := r.tokens.ReadValue()
		r.canonical = append(r.canonical, flag...)
		return f.kind == flagForm && err == nil
	case jsontext.KindNull:
		null, err := r.tokens.ReadValue()
		r.canonical = append(r.canonical, null...)
		return f.nullable && err == nil
	default:
		return false // broken syntax
	}
}

// object reads the members of an object, each once.
func (r *formReader) object(f *form, depth int) bool {
	if _, err := r.tokens.ReadToken(); err != nil {
		return false
	}
	var seen memberSet
	var ends [mostMembers][2]int // where the value of each member stands
	start := len(r.canonical)
	for r.tokens.PeekKind() != jsontext.KindEndObject {
		name, err := r.tokens.ReadValue()
		if err != nil || len(name) < 2 {
			return false
		}
		member, known := f.members[string(name[1:len(name)-1])]
		begin := len(r.canonical)
		if !known || seen.has(member.place) || !r.value(member.form, depth) {
			return false
		}
		ends[member.place] = [2]int{begin - start, len(r.canonical) - start}
		seen |= 1 << member.place
	}
	r.sort(f, seen, &ends, start)
	_, err := r.tokens.ReadToken()
	return err == nil && seen&f.required == f.required
}

// sort writes the members of an object, whose values stand from start on, in their canonical order.
func (r *formReader) sort(f *form, seen memberSet, ends *[mostMembers][2]int, start int) {
	r.unsorted = append(r.unsorted[:0], r.canonical[start:]...)
	r.canonical = append(r.canonical[:start], '{')
	for i := range f.sorted {
		member := &f.sorted[i]
		if !seen.has(member.place) {
			continue
		}
		if len(r.canonical) > start+1 {
			r.canonical = append(r.canonical, ',')
		}
		r.canonical = append(r.canonical, member.label...)
		r.canonical = append(r.canonical, r.unsorted[ends[member.place][0]:ends[member.place][1]]...)
	}
	r.canonical = append(r.canonical, '}')
}

// list reads the items of a list.
func (r *formReader) list(f *form, depth int) bool {
	if _, err := r.tokens.ReadToken(); err != nil {
		return false
	}
	item, count := f.items, 0
	if item == nil {
		item = anyCoordinate
	}
	r.canonical = append(r.canonical, '[')
	start := len(r.canonical)
	for ; r.tokens.PeekKind() != jsontext.KindEndArray; count++ {
		if count > 0 {
			r.canonical = append(r.canonical, ',')
		}
		begin := len(r.canonical)
		if !r.value(item, depth) || f.distinct && r.repeats(start, begin) {
			return false
		}
	}
	r.canonical = append(r.canonical, ']')
	_, err := r.tokens.ReadToken()
	return err == nil && count >= f.least && count <= f.most
}

// repeats reports whether the item of a list that begins there is alike one before it, from start on.
// Lists of distinct items hold short texts of a closed list in quotation marks, which need no escapes:
// one that stands between commas is an item.
func (r *formReader) repeats(start, begin int) bool {
	before, item := r.canonical[start:begin], r.canonical[begin:]
	return bytes.Contains(before, item)
}

// anyCoordinate is the form of what stands in a list that the contract says no more of.
var anyCoordinate = &form{kind: coordinateForm, most: math.MaxInt, low: math.Inf(-1), high: math.Inf(1)}

func (r *formReader) text(f *form) bool {
	quoted, err := r.tokens.ReadValue()
	if err != nil || len(quoted) < 2 {
		return false
	}
	text := quoted[1 : len(quoted)-1]
	if bytes.IndexByte(text, '\\') < 0 {
		r.canonical = append(r.canonical, quoted...)
	} else if text, err = r.unescaped(quoted); err != nil {
		return false
	}
	if f.values != nil && !slices.ContainsFunc(f.values, func(v string) bool { return v == string(text) }) {
		return false
	}
	if f.least > 0 || len(text) > f.most {
		if n := utf8.RuneCount(text); n < f.least || n > f.most {
			return false
		}
	}
	return f.pattern == nil || f.pattern.Match(text)
}

// unescaped is a text with escapes as it is meant. The canonical form keeps those escapes alone that
// JSON needs.
func (r *formReader) unescaped(quoted []byte) ([]byte, error) {
	text, err := jsontext.AppendUnquote(nil, quoted)
	if err == nil {
		r.canonical, err = jsontext.AppendQuote(r.canonical, text)
	}
	return text, err
}

func (r *formReader) number(f *form) bool {
	written, err := r.tokens.ReadValue()
	if err != nil {
		return false
	}
	x, err := strconv.ParseFloat(string(written), 64)
	r.canonical = appendNumber(r.canonical, x)
	return err == nil && x >= f.low && x <= f.high && (f.kind != wholeForm || x == math.Trunc(x))
}

// appendNumber writes a number as RFC 8785, section 3.2.2.3, asks: the shortest digits that read back
// as the same float64, with an exponent only where ECMAScript writes one.
func appendNumber(to []byte, x float64) []byte {
	if x == 0 {
		return append(to, '0')
	}
	if size := math.Abs(x); size >= 1e-6 && size < 1e21 {
		return strconv.AppendFloat(to, x, 'f', -1, 64)
	}
	to = strconv.AppendFloat(to, x, 'e', -1, 64)
	if n := len(to); to[n-4] == 'e' && to[n-2] == '0' { // e-07 is written e-7
		to[n-2] = to[n-1]
		to = to[:n-1]
	}
	return to
}
