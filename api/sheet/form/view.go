package form

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"tractcheck/api/wire"
)

// control is a field as the page shows it.
type control struct {
	ID, Name, Label string
	Kind            kind
	Value           string
	Options         []option
	Unit, UnitWords string // of a quantity that has no other unit
	UnitOptions     []option
	Offsets         []option
	Local           string // of a moment
	Latitude        string // of a point
	Longitude       string
	Papers          []paperView // of ids
	Closed          bool        // the ids are a closed list
	Other           string
	None            bool
	Hint            string
	Needed          bool
	Numeric         bool
	Faults          []string
}

// option is one choice of a list.
type option struct {
	Value, Words string
	Chosen       bool
}

// paperView is a group of papers with what is ticked.
type paperView struct {
	Title  string
	Folded bool
	Boxes  []box
}

// box is a paper to tick.
type box struct {
	paper

	Input  string // id of the input
	Ticked bool
}

// Described are the ids of what describes the input: its fault before its hint.
func (c control) Described() string {
	var ids []string
	if len(c.Faults) > 0 {
		ids = append(ids, c.ID+"-fault")
	}
	if c.Hint != "" {
		ids = append(ids, c.ID+"-hint")
	}
	return strings.Join(ids, " ")
}

// section is a part as the page shows it.
type section struct {
	ID, Title, Note string
	Folded, Open    bool
	Filled, Total   int
	Controls        []control
	List            string
	None            string // label of the tick that says there are none
	NoneTicked      bool
	Rows            []row
	Parts           []section
}

// row is one row of a list.
type row struct {
	Number   int
	Controls []control
}

// InputID is the id of the input of a place.
func InputID(place string) string { return "in" + strings.ReplaceAll(place, "/", "-") }

// viewer makes the view of one page.
type viewer struct {
	form   *Form
	values Values
	faults map[string][]string
	spare  map[string]int // blank rows to show
}

// sections shows parts with what was typed.
func (w viewer) sections(parts []part) []section {
	out := make([]section, 0, len(parts))
	for _, p := range parts {
		s := section{ID: p.id, Title: p.title, Note: p.note, Folded: p.folded, List: p.list, None: p.none}
		if p.list == "" {
			s.Controls = w.controls(p, 0, &s)
		} else {
			w.rows(p, &s)
		}
		s.Parts = w.sections(p.parts)
		for _, inner := range s.Parts {
			s.Open = s.Open || inner.Open
			s.Filled, s.Total = s.Filled+inner.Filled, s.Total+inner.Total
		}
		out = append(out, s)
	}
	return out
}

// rows shows the rows of a list and the blank ones behind them.
func (w viewer) rows(p part, s *section) {
	const shown = 1
	filled := w.values.rows(p.list)
	blank := max(w.spare[p.list], shown)
	s.Open = s.Open || w.spare[p.list] > 0
	for i := range min(filled+blank, MostRows) {
		s.Rows = append(s.Rows, row{Number: i + 1, Controls: w.controls(p, i, s)})
	}
	s.NoneTicked = w.values.ticked(p.list + noneName)
}

// controls shows the fields of a part, of one row where it is a list.
func (w viewer) controls(p part, row int, s *section) []control {
	var out []control
	for _, l := range w.form.lines {
		if l.part.id != p.id {
			continue
		}
		c := w.control(l, l.place(row))
		s.Total++
		if c.filled() {
			s.Filled++
		}
		s.Open = s.Open || len(c.Faults) > 0
		out = append(out, c)
	}
	return out
}

// filled reports whether anything was typed into the field.
func (c control) filled() bool {
	ticked := slices.ContainsFunc(c.Papers, func(g paperView) bool {
		return slices.ContainsFunc(g.Boxes, func(b box) bool { return b.Ticked })
	})
	return ticked || c.Value+c.Local+c.Latitude+c.Longitude+c.Other != ""
}

func (w viewer) control(l line, place string) control {
	c := control{
		ID: InputID(place), Name: place, Label: l.label, Kind: l.kind, Hint: l.hint,
		Needed: l.required, Faults: w.faults[place], Value: w.values.text(place),
	}
	if len(c.Faults) == 0 && l.part.only.at != "" {
		c.Needed = l.required && w.values.text(l.part.only.at) == l.part.only.value
	}
	switch l.kind {
	case kindQuantity:
		w.quantity(&c, l, place)
	case kindNumber, kindWhole:
		c.Numeric = true
		c.Hint = joined(l.hint, bounds(l.member))
	case kindChoice:
		c.Options = choices(l.choices, c.Value, blankWords(l))
	case kindYesNo:
		c.Options = yesNo(c.Value, blankWords(l))
	case kindMoment:
		c.Local = w.values.text(place + localName)
		c.Offsets = offsets(w.values.text(place + offsetName))
		c.Value = ""
	case kindPoint:
		c.Latitude, c.Longitude = w.values.text(place+latitudeName), w.values.text(place+longitudeName)
	case kindIDs:
		w.papers(&c, l, place)
	}
	return c
}

func (w viewer) quantity(c *control, l line, place string) {
	unit := cmp.Or(w.values.text(place+unitName), l.unit(w.values.units()))
	c.Value, c.Numeric = w.values.text(place+valueName), true
	c.Unit, c.UnitWords = unit, say(unitWords, unit)
	if len(l.units) > 1 || !slices.Contains(l.units, unit) {
		c.UnitOptions = unitChoices(l, unit)
	}
	if allowed, ok := wire.AllowedIn(l.path, unit); ok {
		number := strings.TrimSuffix(allowed, " "+unit)
		c.Hint = joined(l.hint, grouping(number)+" "+say(unitWords, unit)+".")
	}
}

// unitChoices are the units of a quantity. Micrometers are for drops; elsewhere they are left out.
func unitChoices(l line, chosen string) []option {
	var out []option
	for _, code := range l.units {
		if code == "um" && l.us != "um" && chosen != "um" {
			continue
		}
		out = append(out, option{Value: code, Words: say(unitWords, code), Chosen: code == chosen})
	}
	if !slices.Contains(l.units, chosen) {
		out = append(out, option{Value: chosen, Words: chosen, Chosen: true})
	}
	return out
}

// blankWords is what a list says where nothing is chosen.
func blankWords(l line) string {
	if l.required {
		return "Choose"
	}
	return "Not known"
}

func yesNo(chosen, blank string) []option {
	out := []option{
		{Value: "", Words: blank, Chosen: chosen == ""},
		{Value: "true", Words: "Yes", Chosen: chosen == "true"},
		{Value: "false", Words: "No", Chosen: chosen == "false"},
	}
	return kept(out, chosen)
}

func choices(codes []string, chosen, blank string) []option {
	out := []option{{Value: "", Words: blank, Chosen: chosen == ""}}
	for _, code := range codes {
		out = append(out, option{Value: code, Words: say(choiceWords, code), Chosen: code == chosen})
	}
	return kept(out, chosen)
}

// kept adds what was sent and is not in the list, so that the page never changes it in silence.
func kept(list []option, chosen string) []option {
	if slices.ContainsFunc(list, func(o option) bool { return o.Value == chosen }) {
		return list
	}
	return append(list, option{Value: chosen, Words: chosen, Chosen: true})
}

func offsets(chosen string) []option {
	out := []option{{Value: "", Words: "Choose", Chosen: chosen == ""}}
	for _, w := range offsetWords {
		out = append(out, option{Value: w.code, Words: w.words, Chosen: w.code == chosen})
	}
	return kept(out, chosen)
}

func (w viewer) papers(c *control, l line, place string) {
	ticked, groups := w.values[place], w.form.boxes(l)
	c.Closed = len(l.choices) > 0
	var other []string
	for _, id := range ticked {
		if !boxed(groups, id) {
			other = append(other, id)
		}
	}
	for i, g := range groups {
		view := paperView{Title: g.Title, Folded: g.Folded}
		for j, p := range g.Papers {
			view.Boxes = append(view.Boxes, box{
				paper: p, Input: c.ID + "-" + strconv.Itoa(i) + "-" + strconv.Itoa(j), Ticked: slices.Contains(ticked, p.ID),
			})
		}
		c.Papers = append(c.Papers, view)
	}
	c.Other = strings.TrimSpace(strings.Join(append(other, w.values.text(place+otherName)), " "))
	c.None = w.values.ticked(place + noneName)
	c.Value = ""
}

// bounds says the range of a bare number.
func bounds(m member) string {
	if m.low == nil || m.high == nil {
		return ""
	}
	return grouping(decimal(*m.low)) + " to " + grouping(decimal(*m.high)) + "."
}

// grouping sets commas into the numbers of a range from five digits on.
func grouping(text string) string {
	words := strings.Fields(text)
	for i, word := range words {
		whole, fraction, broken := strings.Cut(word, ".")
		digits := strings.TrimPrefix(whole, "-")
		const long = 5
		if len(digits) < long || strings.Trim(digits, "0123456789") != "" {
			continue
		}
		sign := len(whole) - len(digits)
		for at := len(whole) - 3; at > sign; at -= 3 {
			whole = whole[:at] + "," + whole[at:]
		}
		if words[i] = whole; broken {
			words[i] = whole + "." + fraction
		}
	}
	return strings.Join(words, " ")
}

func joined(texts ...string) string {
	texts = slices.DeleteFunc(texts, func(t string) bool { return t == "" })
	return strings.Join(texts, " ")
}
