package api

import (
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/api/sheet"
)

func TestAnswerSheetsAreServedWithThePolicyOfPages(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{})
	got := call(t, request(t, "POST", url+"/v1/assessments", string(sample(t, levee)), "Accept", "text/html"))
	require.Equal(t, http.StatusOK, got.StatusCode, string(got.body))
	assert.Equal(t, "text/html; charset=utf-8", got.Header.Get("Content-Type"))
	assert.Equal(t, sheet.Policy, got.Header.Get("Content-Security-Policy"))
	assert.NotContains(t, got.Header.Get("Content-Security-Policy"), "unsafe")
	assert.Equal(t, "no-referrer", got.Header.Get("Referrer-Policy"))
	assert.Equal(t, "no-store", got.Header.Get("Cache-Control"))
	assert.Contains(t, got.Header.Values("Vary"), "Accept")
	assert.True(t, strings.HasPrefix(string(got.body), "<!doctype html>"))
	plain := call(t, request(t, "POST", url+"/v1/assessments", string(sample(t, levee))))
	assert.NotEqual(t, sheet.Policy, plain.Header.Get("Content-Security-Policy"), "JSON keeps the stricter one")
}

func TestSheetsAreChosenByQuality(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{})
	body := string(sample(t, "woodlot-ring.json"))
	for accept, want := range map[string]string{
		"text/html": "text/html; charset=utf-8", "Text/HTML;q=0.5, application/json;q=0.4": "text/html; charset=utf-8",
		"text/html;q=0.4, application/json;q=0.5": mediaJSON, "text/html, application/json": mediaJSON,
		"text/html;q=0, */*": mediaJSON, "application/geo+json, text/html;q=0.9": mediaMap,
		"text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8": "text/html; charset=utf-8",
	} {
		got := call(t, request(t, "POST", url+"/v1/assessments", body, "Accept", accept))
		require.Equal(t, http.StatusOK, got.StatusCode, accept)
		assert.Equal(t, want, got.Header.Get("Content-Type"), accept)
	}
	got := call(t, request(t, "POST", url+"/v1/assessments", string(sample(t, levee)), "Accept", "application/geo+json, text/html;q=0.1"))
	assert.Equal(t, "text/html; charset=utf-8", got.Header.Get("Content-Type"), "a sheet where there is no map")
	got = call(t, request(t, "POST", url+"/v1/takeoff-weights", body, "Accept", "text/html"))
	assert.Equal(t, http.StatusNotAcceptable, got.StatusCode, "a part has no sheet")
}

// Whoever posts JSON reads JSON: a request for a sheet that fails gets a problem document.
func TestFailuresOfSheetsAreProblems(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{})
	for body, status := range map[string]int{`{`: 400, `{}`: 422} {
		got := call(t, request(t, "POST", url+"/v1/assessments", body, "Accept", "text/html"))
		assert.Equal(t, status, got.StatusCode)
		assert.Equal(t, mediaProblem, got.Header.Get("Content-Type"))
		assert.NotEmpty(t, got.problem.Faults)
	}
}

func TestTheStyleSheetIsServedWithATag(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{})
	got := call(t, request(t, "GET", url+sheet.StylePath, ""))
	require.Equal(t, http.StatusOK, got.StatusCode)
	assert.Equal(t, "text/css; charset=utf-8", got.Header.Get("Content-Type"))
	assert.Equal(t, sheet.Style, string(got.body))
	head := call(t, request(t, "HEAD", url+sheet.StylePath, ""))
	assert.Equal(t, http.StatusOK, head.StatusCode)
	assert.Equal(t, got.Header.Get("Content-Length"), head.Header.Get("Content-Length"))
	assert.Empty(t, head.body)
	tag := got.Header.Get("ETag")
	require.NotEmpty(t, tag)
	assert.Equal(t, tag, head.Header.Get("ETag"))
	again := call(t, request(t, "GET", url+sheet.Frame{}.StyleAddress(), "", "If-None-Match", tag))
	assert.Equal(t, http.StatusNotModified, again.StatusCode)
	assert.NotContains(t, sheet.Style, "url(", "the style asks for nothing else")
	assert.NotContains(t, sheet.Style, "@import")
}
