package sheet

import (
	"bytes"
	"crypto/sha256"
	_ "embed"
	"encoding/hex"
	"fmt"
	"html/template"
	"io/fs"
)

// Style is the style sheet of every page.
//
//go:embed sheet.css
var Style string

//go:embed page.html
var frameFile string

// StylePath is where the style sheet is served.
const StylePath = "/assets/sheet.css"

// Policy is the Content-Security-Policy of every page: no script, no style but the style sheet, and
// nothing from outside.
const Policy = "default-src 'none'; style-src 'self'; img-src 'self' data:; form-action 'self'; " +
	"frame-ancestors 'none'; base-uri 'none'"

// Frame is what stands around the main part of a page. A page's data embeds it, so that page.html
// finds it.
type Frame struct {
	Title      string // of the document
	Engine     string // what computed the page; empty where nothing was computed
	RulesAsOf  string // date of the rules the page stands on; may be empty
	Standalone bool   // the page is a file of its own: the style goes inside
}

// StyleAddress is the address of the style sheet; it changes with its content.
func (Frame) StyleAddress() string { return StylePath + "?v=" + styleVersion }

// InlineStyle is the style sheet for a page that is a file of its own. It is a constant of the
// build, so it needs no escaping.
func (Frame) InlineStyle() template.CSS { return template.CSS(Style) } //nolint:gosec // a constant

var styleVersion = func() string {
	sum := sha256.Sum256([]byte(Style))
	return hex.EncodeToString(sum[:6])
}()

// Layout parses the files of a page into the frame. The files must define the template "main", and
// may define "head" (more of the document's head) and "navigation". functions may be nil.
func Layout(from fs.FS, functions template.FuncMap, names ...string) (*template.Template, error) {
	page, err := template.New("page").Funcs(functions).Parse(frameFile)
	if err != nil {
		return nil, fmt.Errorf("parsing the frame: %w", err)
	}
	return page.ParseFS(from, names...)
}

// Render writes a page made by Layout, whole or not at all. data must have the fields of Frame.
func Render(page *template.Template, data any) ([]byte, error) {
	var out bytes.Buffer
	if err := page.ExecuteTemplate(&out, "page", data); err != nil {
		return nil, fmt.Errorf("writing a page: %w", err)
	}
	return out.Bytes(), nil
}
