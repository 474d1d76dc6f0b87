package sheet_test

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/api/sheet"
)

func TestAPageStandsInTheFrame(t *testing.T) {
	t.Parallel()
	from := fstest.MapFS{"one.html": {Data: []byte(`{{define "main"}}<p>{{.Said}}</p>{{end}}`)}}
	page, err := sheet.Layout(from, nil, "one.html")
	require.NoError(t, err)
	type data struct {
		sheet.Frame
		Said string
	}
	out, err := sheet.Render(page, data{sheet.Frame{Title: "A <b>", Engine: "e"}, `</p><script>`})
	require.NoError(t, err)
	text := string(out)
	assert.Contains(t, text, "<title>A &lt;b&gt;</title>")
	assert.Contains(t, text, `href="/assets/sheet.css?v=`)
	assert.Contains(t, text, "&lt;/p&gt;&lt;script&gt;")
	assert.NotContains(t, text, "<script")
	assert.NotContains(t, text, "<style")
	alone, err := sheet.Render(page, data{Frame: sheet.Frame{Standalone: true}})
	require.NoError(t, err)
	assert.Contains(t, string(alone), "<style>")
	assert.NotContains(t, string(alone), "<link")
}

func TestALayoutThatDoesNotParseIsAnError(t *testing.T) {
	t.Parallel()
	_, err := sheet.Layout(fstest.MapFS{"one.html": {Data: []byte(`{{define "main"}}{{end}`)}}, nil, "one.html")
	require.Error(t, err)
	page, err := sheet.Layout(fstest.MapFS{"one.html": {Data: []byte(`{{define "main"}}{{.Missing}}{{end}}`)}}, nil, "one.html")
	require.NoError(t, err)
	_, err = sheet.Render(page, sheet.Frame{})
	require.Error(t, err, "a page is written whole or not at all")
}
