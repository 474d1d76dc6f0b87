package form

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"errors"
	"fmt"
	"html/template"
	"slices"
	"strings"

	"tractcheck/api/sheet"
	"tractcheck/api/wire"
)

//go:embed pages/*.html
var pageFiles embed.FS

// Style is the style sheet of the form pages; it adds to that of every page.
//
//go:embed form.css
var Style string

// StylePath is where the style sheet is served.
const StylePath = "/assets/form.css"

// StyleAddress is the address of the style sheet; it changes with its content.
func StyleAddress() string { return StylePath + "?v=" + styleVersion }

var styleVersion = func() string {
	sum := sha256.Sum256([]byte(Style))
	return hex.EncodeToString(sum[:6])
}()

// Action is what a button of the form asks for: the value of the input named Do.
type Action string

// Do is the name of the buttons of the form.
const Do = "do"

// The actions.
const (
	Check   Action = "check"    // answer the job; what a form does when a person presses the return key
	Edit    Action = "edit"     // show the form with what is sent
	UnitsUS Action = "units-us" // show every value in US units
	UnitsSI Action = "units-si" // show every value in SI units
	AddRow  Action = "add:"     // with the pointer of a list behind it: one more row

	AskHours   Action = "ask-hours"   // show the page that asks for the weather of the hours
	Hours      Action = "hours"       // judge them
	AskSetUps  Action = "ask-compare" // show the page that asks for other ways
	CompareAll Action = "compare"     // compare them
)

// parse reads the templates, which are part of the build.
func (f *Form) parse() error {
	functions := template.FuncMap{"style": StyleAddress}
	var err error
	if f.page, err = sheet.Layout(pageFiles, functions, "pages/form.html", "pages/control.html", "pages/shared.html"); err != nil {
		return err
	}
	if f.trouble, err = sheet.Layout(pageFiles, functions, "pages/trouble.html", "pages/shared.html"); err != nil {
		return err
	}
	if f.hoursPage, err = sheet.Layout(pageFiles, functions, "pages/hours.html", "pages/shared.html"); err != nil {
		return err
	}
	if f.setUpsPage, err = sheet.Layout(pageFiles, functions, "pages/setups.html", "pages/control.html", "pages/shared.html"); err != nil {
		return err
	}
	f.next, err = template.New("next").Funcs(functions).ParseFS(pageFiles, "pages/next.html")
	return err
}

// Page is what a form page shows.
type Page struct {
	Values Values
	Faults []wire.Fault
	Start  string         // what the form started from
	More   map[string]int // lists to show more blank rows of, and how many
	Notice string         // one line above the form
}

// formData is what the template of the form sees.
type formData struct {
	sheet.Frame

	Starts   []Start
	System   string
	Sections []section
	Summary  []summaryLine
	Notice   string
}

// summaryLine is a fault in the list above the form.
type summaryLine struct {
	Anchor, Label, Message string
}

// Render writes the form page.
func (f *Form) Render(p Page) ([]byte, error) {
	marks := f.marks(p.Values, p.Faults)
	data := formData{
		Frame:  sheet.Frame{Title: "Can a spray drone do this tract?"},
		Starts: f.Starts(p.Start), System: p.Values.units(), Notice: p.Notice,
	}
	beside := map[string][]string{}
	for _, m := range marks {
		beside[m.place] = append(beside[m.place], m.message)
		line := summaryLine{Label: m.label, Message: m.message}
		if m.place != "" {
			line.Anchor = InputID(m.place)
		}
		data.Summary = append(data.Summary, line)
	}
	if len(marks) > 0 {
		data.Title = "Please mend the form: " + data.Title
	}
	w := viewer{form: f, values: p.Values, faults: beside, spare: p.More}
	data.Sections = w.sections(f.parts)
	return sheet.Render(f.page, data)
}

// hidden is an input that carries what was typed from one page to the next.
type hidden struct{ Name, Value string }

// carried are the values as hidden inputs.
func carried(v Values) []hidden {
	var out []hidden
	for _, name := range v.Names() {
		for _, text := range v[name] {
			if text != "" {
				out = append(out, hidden{name, text})
			}
		}
	}
	return out
}

// Trouble writes the page of a failure that is about no field.
func (f *Form) Trouble(title, detail string) ([]byte, error) {
	return sheet.Render(f.trouble, struct {
		sheet.Frame

		Detail string
	}{sheet.Frame{Title: title}, detail})
}

// Answered is the page of an answer with what a person at the form can do next at its end: go back to
// what was typed, or take the JSON request that was made of it.
func (f *Form) Answered(page []byte, v Values, request []byte) ([]byte, error) {
	// What people type is escaped, so neither of these can stand in it.
	const end, head = "</main>", "</head>"
	if bytes.Count(page, []byte(end)) != 1 || bytes.Count(page, []byte(head)) != 1 {
		return nil, errors.New("the page of the answer has no single head and main part")
	}
	var more bytes.Buffer
	data := struct {
		Request string
		Carried []hidden
	}{Indented(request), carried(v)}
	if err := f.next.ExecuteTemplate(&more, "next", data); err != nil {
		return nil, fmt.Errorf("writing what comes after an answer: %w", err)
	}
	links := `<link rel="stylesheet" href="` + StyleAddress() + `">`
	page = bytes.Replace(page, []byte(head), []byte(links+head), 1)
	return bytes.Replace(page, []byte(end), append(more.Bytes(), end...), 1), nil
}

// Beside keeps the faults of the reader that say something new beside those of the form: a field
// whose text could not be put into the request is missing there for that reason alone.
func Beside(own, found []wire.Fault) []wire.Fault {
	return slices.DeleteFunc(slices.Clone(found), func(fault wire.Fault) bool {
		return slices.ContainsFunc(own, func(known wire.Fault) bool {
			return known.Pointer != "" && (known.Pointer == fault.Pointer || strings.HasPrefix(known.Pointer, fault.Pointer+"/"))
		})
	})
}

// File is what is added to the name of an input for the file that can be sent in its place.
const File = fileName
