package api

import (
	"fmt"
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestLinesThatAreTooLongAreAnsweredAndPassed(t *testing.T) {
	t.Parallel()
	good := compact(t, levee)
	_, url := quickly(t, Config{MaxBody: int64(len(good))})
	body := good + "\r\n" + good + " \n" + strings.Repeat(" ", 3<<20) + "\n" + good
	lines, summary := readLines(t, string(call(t, linesOf(t, url, body)).body))
	require.Len(t, lines, 4)
	for i, status := range []int{200, 413, 413, 200} {
		assert.Equal(t, status, lines[i].status(), "line %d", i+1)
	}
	assert.Equal(t, fmt.Sprintf("at most %d bytes", len(good)), lines[1].Problem.Faults[0].Allowed)
	assert.True(t, *summary.Complete)
}

func TestAnEmptyBodyIsAnsweredByTheSummaryAlone(t *testing.T) {
	t.Parallel()
	_, url := quickly(t, Config{})
	for _, body := range []string{"", "\n\r\n"} {
		r := linesOf(t, url, body)
		got := call(t, r)
		require.Equal(t, http.StatusOK, got.StatusCode)
		lines, summary := readLines(t, string(got.body))
		assert.Empty(t, lines)
		assert.Equal(t, int64(strings.Count(body, "\n")), summary.Lines)
		assert.True(t, *summary.Complete)
		assert.Contains(t, string(got.body), `"binding":[]`)
	}
}

func TestScreeningsRefuseWhatIsNoStreamOfLines(t *testing.T) {
	t.Parallel()
	_, url := quickly(t, Config{})
	line := compact(t, levee)
	for _, tc := range []struct {
		name   string
		header []string
		status int
	}{
		{"JSON", []string{"Content-Type", mediaJSON}, 415},
		{"no type", []string{"Content-Type", ""}, 415},
		{"another charset", []string{"Content-Type", mediaNDJSON + "; charset=utf-16"}, 415},
		{"compressed", []string{"Content-Encoding", "gzip"}, 415},
		{"another answer", []string{"Accept", "text/csv"}, 406},
		{"upper case", []string{"Content-Type", "Application/JSONL; Charset=UTF-8"}, 200},
		{"another name", []string{"Content-Type", "application/ndjson"}, 200},
	} {
		got := call(t, linesOf(t, url, line, tc.header...))
		assert.Equal(t, tc.status, got.StatusCode, tc.name)
		if tc.status == 415 && tc.name != "compressed" {
			assert.Equal(t, mediaNDJSON+", "+mediaJSONL, got.Header.Get("Accept-Post"))
		}
	}
	assert.Equal(t, http.StatusMethodNotAllowed, call(t, request(t, "GET", url+screeningsPath, "")).StatusCode)
	r := linesOf(t, url, line)
	r.URL.RawQuery = "workers=9"
	assert.Equal(t, http.StatusBadRequest, call(t, r).StatusCode)
}

func TestTheAnswerComesUnderTheNameThatIsWelcome(t *testing.T) {
	t.Parallel()
	_, url := quickly(t, Config{})
	for accept, want := range map[string]string{"": mediaNDJSON, "*/*": mediaNDJSON, mediaJSONL: mediaJSONL, "application/*": mediaNDJSON} {
		assert.Equal(t, want, call(t, linesOf(t, url, compact(t, levee), "Accept", accept)).Header.Get("Content-Type"), accept)
	}
}
