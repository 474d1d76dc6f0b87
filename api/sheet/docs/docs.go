// Package docs is the documentation page for programmers: the contract, shown by an embedded viewer.
// Everything it needs comes from the program itself; the page has no script but its own files and
// asks nothing of any other host.
package docs

import (
	"bytes"
	"compress/gzip"
	"embed"
	"fmt"
	"io"

	viewer "github.com/swaggest/swgui/v5/static"

	"tractcheck/api/sheet"
)

//go:embed docs.html docs.js docs.css
var files embed.FS

// Policy is the Content-Security-Policy of the page: scripts and styles from this service alone, and
// requests to it alone, for the viewer reads the contract and can try a request out. The viewer also
// sets styles on elements from its script, which 'self' admits.
const Policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; " +
	"connect-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'"

// Asset is a file the page is made of.
type Asset struct {
	Path      string
	MediaType string
	Packed    []byte // with gzip
}

// Assets are the files of the page, in a fixed order.
func Assets() []Asset {
	return []Asset{
		{"/assets/docs.css", "text/css", own("docs.css")},
		{"/assets/docs.js", "text/javascript", own("docs.js")},
		{"/assets/viewer.css", "text/css", viewers("swagger-ui.css.gz")},
		{"/assets/viewer.js", "text/javascript", viewers("swagger-ui-bundle.js.gz")},
	}
}

// Plain is the file unpacked.
func (a Asset) Plain() ([]byte, error) {
	reader, err := gzip.NewReader(bytes.NewReader(a.Packed))
	if err != nil {
		return nil, fmt.Errorf("unpacking %s: %w", a.Path, err)
	}
	plain, err := io.ReadAll(reader)
	if err != nil {
		return nil, fmt.Errorf("unpacking %s: %w", a.Path, err)
	}
	return plain, nil
}

// viewers is a file of the viewer; nil where there is none of that name, which a test rules out.
func viewers(name string) []byte {
	text, err := viewer.FS.ReadFile(name)
	if err != nil {
		return nil
	}
	return text
}

// own is one of our files, packed like those of the viewer.
func own(name string) []byte {
	text, err := files.ReadFile(name)
	if err != nil {
		return nil
	}
	var out bytes.Buffer
	packer := gzip.NewWriter(&out)
	if _, err := packer.Write(text); err != nil {
		return nil
	}
	if err := packer.Close(); err != nil {
		return nil
	}
	return out.Bytes()
}

// Page writes the page.
func Page() ([]byte, error) {
	page, err := sheet.Layout(files, nil, "docs.html")
	if err != nil {
		return nil, err
	}
	return sheet.Render(page, struct{ sheet.Frame }{sheet.Frame{Title: "For programmers: the contract of tractcheck"}})
}
