package wire

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strconv"
	"unicode/utf8"

	"github.com/go-json-experiment/json/jsontext"
)

// Limits of the text of one body. Own choices: a mission nests 9 deep at most, and the 10,000
// positions of the largest field the contract admits have 40,000 values.
const (
	maxDepth  = 16
	maxValues = 50_000
)

// noted is how many faults of text are kept; a body of a million slips needs no more to be mended.
const noted = 1000

// byteOrderMark is the UTF-8 form of U+FEFF, which JSON texts must not begin with (RFC 8259,
// section 8.1).
var byteOrderMark = []byte{0xEF, 0xBB, 0xBF}

// text is what pass 1 makes of a body: the value, as far as it could be read, and the faults of
// its text. The value holds nil, bool, float64, string, []any and map[string]any; of a name sent
// twice the last value stands, and a number outside float64 stands as 0.
type text struct {
	value  any
	whole  bool // the value was read to its end; passes 2 and 3 can run
	faults []located
}

// located is a fault and the byte of the body it stands at.
type located struct {
	Fault
	offset int64
}

// textReader walks the tokens of one body.
type textReader struct {
	body   []byte
	tokens *jsontext.Decoder
	values int
	faults []located
}

// errStopped ends the walk where the rest of the body cannot be read; the fault is noted already.
var errStopped = errors.New("the text cannot be read further")

// readText is pass 1: one strict JSON value (RFC 8259, and RFC 7493 for names and numbers) and
// nothing after it. It collects every name sent twice and every number outside float64, and stops
// at the first place where the syntax is broken. It never fails: what is wrong is in the faults.
func readText(body []byte) text {
	r := &textReader{}
	if bytes.HasPrefix(body, byteOrderMark) {
		body = body[len(byteOrderMark):]
		r.note(0, Fault{
			Code: FaultSyntax, Allowed: "UTF-8 without a byte order mark",
			Message: "The body begins with a byte order mark. Save it as UTF-8 without one.",
		})
	}
	r.body = body
	if len(bytes.TrimLeft(body, " \t\r\n")) == 0 {
		r.note(0, Fault{
			Code: FaultEmpty, Allowed: "one JSON object",
			Message: "The body is empty. Send the request as one JSON object.",
		})
		return text{faults: r.faults}
	}
	r.tokens = jsontext.NewDecoder(bytes.NewBuffer(body), jsontext.AllowDuplicateNames(true))
	value, err := r.read(0)
	if err != nil {
		return text{faults: r.faults}
	}
	r.end()
	return text{value: value, whole: true, faults: r.faults}
}

// note keeps a fault.
func (r *textReader) note(offset int64, f Fault) {
	if len(r.faults) < noted {
		r.faults = append(r.faults, located{Fault: f, offset: offset})
	}
}

// read reads the next value.
func (r *textReader) read(depth int) (any, error) {
	token, err := r.tokens.ReadToken()
	if err != nil {
		return nil, r.broken(err)
	}
	if r.values++; r.values > maxValues {
		return nil, r.stop(Fault{
			Code: FaultLength, Allowed: fmt.Sprintf("at most %d values", maxValues),
			Message: "The body holds too many values. Simplify its geometry, or split it into several requests.",
		})
	}
	switch token.Kind() {
	case jsontext.KindBeginObject, jsontext.KindBeginArray:
		if depth == maxDepth {
			return nil, r.stop(Fault{
				Code: FaultSyntax, Allowed: fmt.Sprintf("at most %d levels", maxDepth),
				Message: "The body nests too deep. Check its braces and brackets.",
			})
		}
		if token.Kind() == jsontext.KindBeginObject {
			return r.object(depth + 1)
		}
		return r.array(depth + 1)
	case jsontext.KindString:
		return token.String(), nil
	case jsontext.KindNumber:
		return r.number(token), nil
	case jsontext.KindTrue, jsontext.KindFalse:
		return token.Bool(), nil
	default:
		return nil, nil
	}
}

// object reads the members of an object up to its brace.
func (r *textReader) object(depth int) (any, error) {
	members := map[string]any{}
	for {
		token, err := r.tokens.ReadToken()
		if err != nil {
			return nil, r.broken(err)
		}
		if token.Kind() == jsontext.KindEndObject {
			return members, nil
		}
		name := token.String()
		if _, twice := members[name]; twice {
			r.note(r.tokens.InputOffset(), Fault{
				Pointer: string(r.tokens.StackPointer()), Code: FaultDuplicate, Allowed: "each name once",
				Message: strconv.Quote(clip(name)) + " is here twice. Keep one of the two.",
			})
		}
		value, err := r.read(depth)
		if err != nil {
			return nil, err
		}
		members[name] = value
	}
}

// array reads the items of an array up to its bracket.
func (r *textReader) array(depth int) (any, error) {
	items := []any{}
	for {
		if r.tokens.PeekKind() == jsontext.KindEndArray {
			_, err := r.tokens.ReadToken()
			return items, err
		}
		item, err := r.read(depth)
		if err != nil {
			return nil, err
		}
		items = append(items, item)
	}
}

// number reads a number as float64. One outside its range is a fault: no two programs agree on
// what such a number means (RFC 7493, section 2.2).
func (r *textReader) number(token jsontext.Token) float64 {
	written := token.String()
	value, err := strconv.ParseFloat(written, 64)
	if err == nil {
		return value
	}
	r.note(r.tokens.InputOffset(), Fault{
		Pointer: string(r.tokens.StackPointer()), Code: FaultNumber, Value: clip(written),
		Allowed: "a number of magnitude below 1.797e308",
		Message: "The number " + clip(written) + " is too large to compute with. Check its digits and its exponent.",
	})
	return 0
}

// end notes what stands after the value.
func (r *textReader) end() {
	after := r.tokens.InputOffset()
	_, err := r.tokens.ReadToken()
	if errors.Is(err, io.EOF) {
		return
	}
	r.note(after, Fault{
		Code: FaultTrailing, Value: clip(string(bytes.TrimSpace(r.body[after:]))), Allowed: "one JSON object and nothing after it",
		Message: "Something stands after the end of the object. Remove it; send one request at a time.",
	})
}

// stop notes a fault at the place reached and ends the walk.
func (r *textReader) stop(f Fault) error {
	f.Pointer = string(r.tokens.StackPointer())
	r.note(r.tokens.InputOffset(), f)
	return errStopped
}

// broken notes broken syntax, with the line and column of the place.
func (r *textReader) broken(err error) error {
	offset, pointer := r.tokens.InputOffset(), string(r.tokens.StackPointer())
	reason := "the body ends before its last brace"
	var syntax *jsontext.SyntacticError
	if errors.As(err, &syntax) {
		offset, pointer = syntax.ByteOffset, string(syntax.JSONPointer)
		if !errors.Is(syntax.Err, io.ErrUnexpectedEOF) {
			reason = syntax.Err.Error()
		}
	}
	place := "character %d"
	line, column := lineColumn(r.body, offset)
	if bytes.ContainsRune(bytes.TrimSpace(r.body), '\n') {
		place = fmt.Sprintf("line %d, column %%d", line)
	}
	r.note(offset, Fault{
		Pointer: pointer, Code: FaultSyntax, Allowed: "strict JSON (RFC 8259) in UTF-8",
		Message: fmt.Sprintf("The body is not JSON from "+place+" on: %s. Mend it there; what follows could not be checked.",
			column, clip(reason)),
	})
	return errStopped
}

// lineColumn reports where a byte stands, both counted from 1, columns in characters.
func lineColumn(body []byte, offset int64) (line, column int) {
	before := body[:min(max(offset, 0), int64(len(body)))]
	line = 1 + bytes.Count(before, []byte{'\n'})
	return line, 1 + utf8.RuneCount(before[bytes.LastIndexByte(before, '\n')+1:])
}
