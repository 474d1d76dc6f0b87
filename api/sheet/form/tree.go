package form

import (
	"bytes"
	"encoding/json"
	"slices"
	"strconv"
	"strings"
)

// tree is a JSON value that is built from its leaves. Members keep the order they were set in.
type tree struct {
	text  string // of a leaf, as JSON
	list  bool
	names []string
	under map[string]*tree
}

func newTree() *tree { return &tree{under: map[string]*tree{}} }

// at is the value at a pointer; what is missing on the way there is made. A whole number makes the
// value before it a list: no object of a request has such a member.
func (t *tree) at(pointer string) *tree {
	for token := range strings.SplitSeq(strings.TrimPrefix(pointer, "/"), "/") {
		if _, err := strconv.Atoi(token); err == nil {
			t.list = true
		}
		next, ok := t.under[token]
		if !ok {
			next = newTree()
			t.under[token] = next
			t.names = append(t.names, token)
		}
		t = next
	}
	return t
}

// set puts JSON text at a pointer.
func (t *tree) set(pointer, text string) { t.at(pointer).text = text }

// write writes the value as JSON.
func (t *tree) write(out *bytes.Buffer) {
	if t.text != "" {
		out.WriteString(t.text)
		return
	}
	if t.list {
		t.writeItems(out)
		return
	}
	out.WriteByte('{')
	for i, name := range t.names {
		if i > 0 {
			out.WriteByte(',')
		}
		out.WriteString(quoted(name) + ":")
		t.under[name].write(out)
	}
	out.WriteByte('}')
}

// writeItems writes the rows of a list by their index: they may have been set in another order.
func (t *tree) writeItems(out *bytes.Buffer) {
	rows := make([]int, 0, len(t.names))
	for _, name := range t.names {
		row, _ := strconv.Atoi(name) // a list has no other names
		rows = append(rows, row)
	}
	slices.Sort(rows)
	out.WriteByte('[')
	for i, row := range rows {
		if i > 0 {
			out.WriteByte(',')
		}
		t.under[strconv.Itoa(row)].write(out)
	}
	out.WriteByte(']')
}

// quoted is a text as JSON. Signs such as < stay as they are.
func quoted(text string) string {
	var out bytes.Buffer
	encoder := json.NewEncoder(&out)
	encoder.SetEscapeHTML(false)
	if encoder.Encode(text) != nil {
		return `""` // a text always encodes
	}
	return strings.TrimSuffix(out.String(), "\n")
}
