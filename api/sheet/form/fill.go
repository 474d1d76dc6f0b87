package form

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
)

// Fill is what would be typed for a request. It is the reverse of Request: the values give a request
// that means the same. The error is for a text that is not a JSON object.
func (f *Form) Fill(request []byte) (Values, error) {
	decoder := json.NewDecoder(bytes.NewReader(request))
	decoder.UseNumber()
	var root map[string]any
	if err := decoder.Decode(&root); err != nil {
		return nil, fmt.Errorf("reading a request: %w", err)
	}
	v := Values{}
	for _, l := range f.lines {
		if l.part.list == "" {
			v.fill(l, l.path, find(root, l.path))
			continue
		}
		rows, isList := find(root, l.part.list).([]any)
		for row := range min(len(rows), MostRows) {
			v.fill(l, l.place(row), find(root, l.place(row)))
		}
		if isList && len(rows) == 0 {
			v.set(l.part.list+noneName, "yes")
		}
	}
	return v, nil
}

// find is the value at a pointer; nil where there is none.
func find(value any, pointer string) any {
	for token := range strings.SplitSeq(strings.TrimPrefix(pointer, "/"), "/") {
		switch v := value.(type) {
		case map[string]any:
			value = v[token]
		case []any:
			i, err := strconv.Atoi(token)
			if err != nil || i < 0 || i >= len(v) {
				return nil
			}
			value = v[i]
		default:
			return nil
		}
	}
	return value
}

// fill types one value into the inputs of its field.
func (v Values) fill(l line, place string, value any) {
	if value == nil {
		return
	}
	switch l.kind {
	case kindQuantity:
		v.set(place+valueName, plain(find(value, "/value")))
		v.set(place+unitName, plain(find(value, "/unit")))
	case kindMoment:
		local, offset := splitMoment(plain(value))
		v.set(place+localName, local)
		v.set(place+offsetName, offset)
	case kindPoint:
		v.set(place+latitudeName, plain(find(value, "/coordinates/1")))
		v.set(place+longitudeName, plain(find(value, "/coordinates/0")))
	case kindPolygons:
		if text, err := json.Marshal(value); err == nil {
			v.set(place, string(text))
		}
	case kindIDs:
		v.fillIDs(place, value)
	default:
		v.set(place, plain(value))
	}
}

// fillIDs ticks what the list has a box for; the page shows the rest in the line beside it.
func (v Values) fillIDs(place string, value any) {
	list, _ := value.([]any)
	for _, item := range list {
		v[place] = append(v[place], plain(item))
	}
	if len(list) == 0 {
		v.set(place+noneName, "yes")
	}
}

// plain is a JSON value as it would be typed.
func plain(value any) string {
	switch v := value.(type) {
	case nil:
		return ""
	case string:
		return v
	case json.Number:
		return v.String()
	case bool:
		return strconv.FormatBool(v)
	default:
		return fmt.Sprint(v)
	}
}

// splitMoment takes the offset off a time.
func splitMoment(text string) (local, offset string) {
	const dateLength = len("2006-01-02")
	if i := strings.LastIndexAny(text, "Zz+-"); i > dateLength {
		return text[:i], text[i:]
	}
	return text, ""
}
