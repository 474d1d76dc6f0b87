package form

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
)

// Values is what was typed: the texts of every input by its name. The name of an input is the JSON
// pointer of its value in the request.
type Values map[string][]string

// text is what was typed into an input, without the blanks around it.
func (v Values) text(name string) string {
	if texts := v[name]; len(texts) > 0 {
		return strings.TrimSpace(texts[0])
	}
	return ""
}

// ticked reports whether a tick box is ticked.
func (v Values) ticked(name string) bool { return v.text(name) != "" }

// set puts one text into an input.
func (v Values) set(name, text string) { v[name] = []string{text} }

// units is the unit system of the page.
func (v Values) units() string {
	if v.text("/units") == "si" {
		return "si"
	}
	return "us"
}

// MostRows is the most rows of one list that the form reads. Own choice: more are sent as JSON.
const MostRows = 200

// rowOf splits the name of an input in a row of a list: the row, and the name from there on.
func rowOf(list, name string) (row int, rest string, ok bool) {
	tail, ok := strings.CutPrefix(name, list+"/")
	if !ok {
		return 0, "", false
	}
	index, rest, ok := strings.Cut(tail, "/")
	row, err := strconv.Atoi(index)
	if !ok || err != nil || row < 0 || row >= MostRows || strconv.Itoa(row) != index {
		return 0, "", false
	}
	return row, "/" + rest, true
}

// rows is how many rows of a list were posted: one more than the highest index.
func (v Values) rows(list string) int {
	most := 0
	for name := range v {
		if row, _, ok := rowOf(list, name); ok {
			most = max(most, row+1)
		}
	}
	return most
}

// blankRow reports whether nothing was typed into a row; a unit alone is nothing.
func (v Values) blankRow(list string, row int) bool {
	prefix := list + "/" + strconv.Itoa(row) + "/"
	for name := range v {
		if strings.HasPrefix(name, prefix) && !strings.HasSuffix(name, unitName) && v.text(name) != "" {
			return false
		}
	}
	return true
}

// Names are the names of all inputs with something in them, in a fixed order.
func (v Values) Names() []string {
	names := make([]string, 0, len(v))
	for name := range v {
		if slices.ContainsFunc(v[name], func(text string) bool { return text != "" }) {
			names = append(names, name)
		}
	}
	slices.SortFunc(names, cmp.Compare)
	return names
}

// Tidy is the values with the blank rows of every list left out, so that a row has the index it has
// in the request, and how many blank rows there were. What was typed stays as it is.
func (f *Form) Tidy(v Values) (tidy Values, blanks map[string]int) {
	tidy, blanks = Values{}, map[string]int{}
	moved := map[string]map[int]int{}
	for list := range f.contract.lists {
		to := map[int]int{}
		for row := range v.rows(list) {
			if v.blankRow(list, row) {
				blanks[list]++
				continue
			}
			to[row] = len(to)
		}
		moved[list] = to
	}
	for name, texts := range v {
		if to, kept := f.moved(moved, name); kept {
			tidy[to] = slices.Clone(texts)
		}
	}
	return tidy, blanks
}

// moved is the name of an input after the blank rows are gone; it reports false for one in a blank
// row.
func (f *Form) moved(moves map[string]map[int]int, name string) (string, bool) {
	for list, to := range moves {
		row, rest, ok := rowOf(list, name)
		if !ok {
			continue
		}
		at, kept := to[row]
		return list + "/" + strconv.Itoa(at) + rest, kept
	}
	return name, true
}

// Unknown are the names of inputs that this form does not have: the page they come from is of
// another release, and what was typed there must not be dropped in silence.
func (f *Form) Unknown(v Values) []string {
	known := map[string]bool{}
	for _, l := range f.lines {
		for _, name := range l.names(l.path) {
			known[name] = true
		}
		if l.part.none != "" {
			known[l.part.list+noneName] = true
		}
	}
	var unknown []string
	for _, name := range v.Names() {
		if !known[name] && !known[f.path(name)] {
			unknown = append(unknown, name)
		}
	}
	return unknown
}

// path is the name of an input with * in place of the row.
func (f *Form) path(name string) string {
	for list := range f.contract.lists {
		if _, rest, ok := rowOf(list, name); ok {
			return list + "/*" + rest
		}
	}
	return name
}
