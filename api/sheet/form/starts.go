package form

import (
	"cmp"
	"embed"
	"encoding/json"
	"fmt"
	"path"
	"strings"

	"tractcheck/api/wire"
)

//go:embed starts/*.json
var startFiles embed.FS

// examples are the invented missions a form can start from, by their files in starts: the first one
// is what a page starts from when nothing was chosen. The files are copies of sample missions.
var examples = []string{"levee-strip-small", "woodlot-ring", "pecan-block-rotary", "seven-hectares-si"}

// Start is one choice of what a form starts from.
type Start struct {
	ID, Title string
	Machine   bool // a class of machine, not a whole job
	Chosen    bool
}

// Starts is what a form can start from, in the order it is offered.
func (f *Form) Starts(chosen string) []Start {
	if chosen == "" {
		chosen = examples[0]
	}
	var all []Start
	for _, id := range examples {
		all = append(all, Start{ID: id, Title: titleOf(example(id)), Chosen: id == chosen})
	}
	for _, m := range machines {
		all = append(all, Start{ID: m.id, Title: m.title, Machine: true, Chosen: m.id == chosen})
	}
	return append(all, Start{ID: emptyStart, Title: "An empty form", Chosen: chosen == emptyStart})
}

// emptyStart is the choice of nothing to start from.
const emptyStart = "empty"

// Begin is what a form starts with: the values of an example or a machine, in the units asked for,
// "us" or "si"; where units is empty, as the example has them. The error is for an id there is not.
func (f *Form) Begin(id, units string) (Values, error) {
	if id == "" {
		id = examples[0]
	}
	for _, m := range machines {
		if m.id == id {
			return f.machine(m, cmp.Or(units, "us")), nil
		}
	}
	if id == emptyStart {
		return Values{"/units": {cmp.Or(units, "us")}}, nil
	}
	text := example(id)
	if text == nil {
		return nil, fmt.Errorf("there is nothing to start from named %.40q", id)
	}
	v, err := f.Fill(text)
	if err != nil || units == "" || units == v.text("/units") {
		return v, err
	}
	return f.In(v, units), nil
}

// example reads an embedded mission; nil where there is none of that name.
func example(id string) []byte {
	if strings.ContainsAny(id, "/.") {
		return nil
	}
	text, err := startFiles.ReadFile(path.Join("starts", id+".json"))
	if err != nil {
		return nil
	}
	return text
}

// titleOf is the name an example gives itself.
func titleOf(mission []byte) string {
	var named struct {
		Reference string `json:"reference"`
	}
	if json.Unmarshal(mission, &named) != nil {
		return ""
	}
	return named.Reference
}

// In is the values with every quantity in the unit that stands first in a unit system. What cannot
// be read as a number stays as it was typed, with its unit.
func (f *Form) In(v Values, system string) Values {
	out := Values{}
	for name, texts := range v {
		out[name] = texts
	}
	out.set("/units", system)
	for _, l := range f.lines {
		if l.kind != kindQuantity {
			continue
		}
		if l.part.list == "" {
			out.convert(l, l.path, system)
			continue
		}
		for row := range v.rows(l.part.list) {
			out.convert(l, l.place(row), system)
		}
	}
	return out
}

// convert rewrites one quantity.
func (v Values) convert(l line, place, system string) {
	value, from, to := v.text(place+valueName), v.text(place+unitName), l.unit(system)
	if value == "" || from == "" {
		v.set(place+unitName, to)
		return
	}
	var number float64
	if json.Unmarshal([]byte(literal(value)), &number) != nil {
		return
	}
	if from == to {
		return
	}
	if converted, ok := wire.Convert(number, from, to); ok {
		v.set(place+valueName, decimal(converted))
		v.set(place+unitName, to)
	}
}
