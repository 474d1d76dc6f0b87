package wire

import (
	"bytes"
	"cmp"
	"fmt"
	"slices"
	"strconv"

	"github.com/go-json-experiment/json/jsontext"
)

// MaxFaults is how many faults one answer lists at most; where there are more, the last entry says
// how many.
const MaxFaults = 100

// inOrder sorts faults by their place in the body, keeps one for each pointer and code, and cuts
// the list at MaxFaults.
func inOrder(found []located) []Fault {
	slices.SortFunc(found, func(a, b located) int {
		return cmp.Or(
			cmp.Compare(a.offset, b.offset), cmp.Compare(a.Pointer, b.Pointer),
			cmp.Compare(a.Code, b.Code), cmp.Compare(a.Message, b.Message),
		)
	})
	found = slices.CompactFunc(found, func(a, b located) bool {
		return a.Pointer == b.Pointer && a.Code == b.Code
	})
	if len(found) == 0 {
		return nil
	}
	faults := make([]Fault, len(found))
	for i, f := range found {
		faults[i] = f.Fault
		faults[i].Pointer = shortened(f.Pointer)
	}
	return capped(faults)
}

// longestPointer is how long a pointer of a fault may be. Own choice: no place of the contract has
// one half as long, so a longer one only repeats a name the caller made up.
const longestPointer = 256

// shortened is a pointer, or the nearest place around it that has one short enough.
func shortened(pointer string) string {
	for len(pointer) > longestPointer {
		pointer = parent(pointer)
	}
	return pointer
}

// capped cuts a list of faults. The status of an answer depends on whether a fault is one of text,
// so one such fault stays on the list where there is any.
func capped(faults []Fault) []Fault {
	if len(faults) <= MaxFaults {
		return faults
	}
	total := len(faults)
	kept, dropped := faults[:MaxFaults-1:MaxFaults-1], faults[MaxFaults-1:]
	if i := slices.IndexFunc(dropped, Fault.Text); i >= 0 && !slices.ContainsFunc(kept, Fault.Text) {
		kept[len(kept)-1] = dropped[i]
	}
	return append(kept, Fault{
		Code: FaultLength, Value: total, Allowed: fmt.Sprintf("a list of at most %d faults", MaxFaults),
		Message: fmt.Sprintf("At least %d more faults are not listed. Mend these and send the request again.", total-len(kept)),
	})
}

// placed finds where in the body each fault stands. A missing member stands where the object
// around it begins.
func placed(body []byte, faults []Fault) []located {
	if len(faults) == 0 {
		return nil
	}
	wanted := map[string]int64{"": 0}
	for _, f := range faults {
		for at := f.Pointer; at != ""; at = parent(at) {
			wanted[at] = -1
		}
	}
	body = bytes.TrimPrefix(body, byteOrderMark)
	find(jsontext.NewDecoder(bytes.NewBuffer(body), jsontext.AllowDuplicateNames(true)), "", wanted)
	out := make([]located, len(faults))
	for i, f := range faults {
		at := f.Pointer
		for at != "" && wanted[at] < 0 {
			at = parent(at)
		}
		out[i] = located{Fault: f, offset: wanted[at]}
	}
	return out
}

// find walks one value and notes the offsets of the wanted places in it; what holds no wanted place
// is skipped. It is used on bodies that pass 1 read to their end.
func find(tokens *jsontext.Decoder, at jsontext.Pointer, wanted map[string]int64) {
	if _, ok := wanted[string(at)]; !ok {
		_ = tokens.SkipValue()
		return
	}
	token, err := tokens.ReadToken()
	if err != nil {
		return
	}
	wanted[string(at)] = tokens.InputOffset()
	switch token.Kind() {
	case jsontext.KindBeginObject:
		for {
			name, err := tokens.ReadToken()
			if err != nil || name.Kind() == jsontext.KindEndObject {
				return
			}
			find(tokens, at.AppendToken(name.String()), wanted)
		}
	case jsontext.KindBeginArray:
		for i := 0; ; i++ {
			switch tokens.PeekKind() {
			case jsontext.KindInvalid:
				return
			case jsontext.KindEndArray:
				_, _ = tokens.ReadToken()
				return
			}
			find(tokens, at.AppendToken(strconv.Itoa(i)), wanted)
		}
	}
}

// item is the item of a list a pointer's token names; nil where there is none.
func item(list []any, token string) any {
	i, err := strconv.Atoi(token)
	if err != nil || i < 0 || i >= len(list) {
		return nil
	}
	return list[i]
}
