package api

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"errors"
	"fmt"
	"go/parser"
	"go/token"
	"io"
	"io/fs"
	"log/slog"
	"math"
	"net/http"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/labstack/echo/v4"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility"
	"tractcheck/openapi"
)

// Each test of this file is named for a way in which services of this make are known to fail: what
// the framework, the decoders, the generators and the standard library do when nobody looks. Number
// 1, of streams of lines, stands with the tests of screenings.

// codes lists the codes of the faults of a problem.
func codes(p Problem) []string {
	out := []string{}
	for _, f := range p.Faults {
		out = append(out, f.Pointer+" "+string(f.Code))
	}
	return out
}

func post(t testing.TB, url, body string, header ...string) reply {
	t.Helper()
	return call(t, request(t, "POST", url+"/v1/assessments", body, header...))
}

func TestTrap2HugeNumbersAreAFault(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{})
	for _, number := range []string{"1e400", "-1e400", "1e10000000", "1e1000000000", strings.Repeat("9", 400)} {
		body := strings.Replace(string(sample(t, levee)), `"count": 4`, `"count": `+number, 1)
		got := post(t, url, body)
		assert.Equal(t, http.StatusBadRequest, got.StatusCode)
		require.Len(t, got.problem.Faults, 1, number)
		assert.Contains(t, codes(got.problem)[0], "/count number_not_finite")
	}
	for _, word := range []string{"NaN", "Infinity", "-Infinity", "0x10", "01"} {
		got := post(t, url, `{"reference":`+word+`}`)
		assert.Equal(t, http.StatusBadRequest, got.StatusCode)
		assert.Equal(t, "syntax", string(got.problem.Faults[0].Code), word)
	}
}

func TestTrap3ReadingIsStrict(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{})
	whole := string(sample(t, levee))
	tests := []struct {
		name, body, want string
		status           int
	}{
		{"unknown member", strings.Replace(whole, `"units"`, `"unit"`, 1), "/unit unknown_member", 400},
		{"letter case", strings.Replace(whole, `"aircraft"`, `"Aircraft"`, 1), "/Aircraft unknown_member", 400},
		{"duplicate", strings.Replace(whole, `"units"`, `"units": "si", "units"`, 1), "/units duplicate_member", 400},
		{"trailing data", whole + "]", " trailing_data", 400},
		{"two values", whole + whole, " trailing_data", 400},
		{"empty body", " ", " empty_body", 400},
		{"byte order mark", "\xEF\xBB\xBF" + whole, " syntax", 400},
		{"null body", "null", " wrong_type", 422},
		{"null number", strings.Replace(whole, `"swath": {`, `"swath": null, "course": {`, 1), "/flight/swath wrong_type", 422},
		{"missing number", strings.Replace(whole, `"value": 13`, `"unit": "ft"`, 1), "/flight/swath/value missing_member", 400},
		{"text for a number", strings.Replace(whole, `"value": 13`, `"value": "13"`, 1), "/flight/swath/value wrong_type", 422},
		{"wrong unit", strings.Replace(whole, `"mph"`, `"psi"`, 1), "wrong_unit", 422},
		{"absurd magnitude", strings.Replace(whole, `"value": 13`, `"value": 1e300`, 1), "/flight/swath/value out_of_range", 422},
	}
	for _, tc := range tests {
		t.Run(tc.name, func(t *testing.T) {
			t.Parallel()
			require.NotEqual(t, whole, tc.body)
			got := post(t, url, tc.body)
			assert.Equal(t, tc.status, got.StatusCode, "%s", got.body)
			assert.Contains(t, strings.Join(codes(got.problem), "\n"), tc.want)
			for _, f := range got.problem.Faults {
				assert.NotEmpty(t, f.Message)
			}
		})
	}
}

// chunked hides the length of a body from the client, so it travels in chunks.
type chunked struct{ io.Reader }

// A limit that may be set can be met: an idle service reads the largest body to its end, and is not too
// busy for it.
func TestABodyOfTheLargestLimitIsRead(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{MaxBody: LargestMaxBody})
	blank := strings.Repeat(" ", LargestMaxBody)
	for name, body := range map[string]io.Reader{"length": strings.NewReader(blank), "chunks": chunked{strings.NewReader(blank)}} {
		r, err := http.NewRequestWithContext(t.Context(), http.MethodPost, url+"/v1/assessments", body)
		require.NoError(t, err)
		r.Header.Set("Content-Type", "application/json")
		assert.Equal(t, http.StatusBadRequest, call(t, r).StatusCode, "%s: it was read, and is no JSON", name)
	}
	assert.Equal(t, http.StatusRequestEntityTooLarge, post(t, url, blank+" ").StatusCode)
	assert.Equal(t, http.StatusOK, post(t, url, string(sample(t, levee))).StatusCode)
}

func TestTrap4TheLimitOfABodyIsExact(t *testing.T) {
	t.Parallel()
	body := string(sample(t, levee))
	_, exact := serve(t, Config{MaxBody: int64(len(body))})
	_, tight := serve(t, Config{MaxBody: int64(len(body)) - 1})

	assert.Equal(t, http.StatusOK, post(t, exact, body).StatusCode)
	over := post(t, tight, body)
	assert.Equal(t, http.StatusRequestEntityTooLarge, over.StatusCode)
	require.Len(t, over.problem.Faults, 1)
	assert.Equal(t, fmt.Sprintf("at most %d bytes", len(body)-1), over.problem.Faults[0].Allowed)

	for url, status := range map[string]int{exact: 200, tight: 413} {
		r := request(t, "POST", url+"/v1/assessments", body)
		r.Body, r.ContentLength, r.GetBody = io.NopCloser(chunked{strings.NewReader(body)}), -1, nil
		assert.Equal(t, status, call(t, r).StatusCode, "a chunked body")
	}
	_, url := serve(t, Config{})
	assert.Equal(t, http.StatusRequestEntityTooLarge, post(t, url, strings.Repeat(" ", DefaultMaxBody+1)).StatusCode)
}

func TestTrap5CompressedBodiesAreRefused(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{})
	var small bytes.Buffer
	w := gzip.NewWriter(&small)
	_, err := w.Write(bytes.Repeat([]byte(" "), 10<<20))
	require.NoError(t, err)
	require.NoError(t, w.Close())
	for _, coding := range []string{"gzip", "GZIP", "br", "deflate", "identity, gzip"} {
		got := post(t, url, small.String(), "Content-Encoding", coding)
		assert.Equal(t, http.StatusUnsupportedMediaType, got.StatusCode, coding)
		assert.Equal(t, "identity", got.Header.Get("Accept-Encoding"))
	}
	assert.Equal(t, http.StatusOK, post(t, url, string(sample(t, levee)), "Content-Encoding", "identity").StatusCode)
}

func TestTrap6TheCallersAddressCannotBeForged(t *testing.T) {
	t.Parallel()
	var log syncBuffer
	_, url := serve(t, Config{Logger: slog.New(slog.NewJSONHandler(&log, nil))})
	post(t, url, "{}", "X-Forwarded-For", "203.0.113.7", "X-Real-Ip", "203.0.113.8", "Forwarded", "for=203.0.113.9")
	assert.Contains(t, log.String(), `"remote_ip":"127.0.0.1"`)
	assert.NotContains(t, log.String(), "203.0.113")
}

func TestTrap7EveryNumberOfTheContractIsADouble(t *testing.T) {
	t.Parallel()
	var document any
	require.NoError(t, json.Unmarshal([]byte(openapi.JSON), &document))
	numbers := 0
	var walk func(at string, node any)
	walk = func(at string, node any) {
		switch v := node.(type) {
		case map[string]any:
			if v["type"] == "number" {
				numbers++
				assert.Equal(t, "double", v["format"], at)
			}
			if _, closed := v["enum"].([]any); closed {
				assert.NotNil(t, v["type"], "%s: a type must stand beside an enum", at)
			}
			for name, child := range v {
				walk(at+"/"+name, child)
			}
		case []any:
			for i, child := range v {
				walk(fmt.Sprintf("%s/%d", at, i), child)
			}
		}
	}
	walk("", at(document.(map[string]any), "components", "schemas"))
	assert.Greater(t, numbers, 10)
}

func TestTrap8ARequestOverItsTimeIs503(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{Timeout: time.Nanosecond})
	got := post(t, url, string(sample(t, levee)))
	assert.Equal(t, http.StatusServiceUnavailable, got.StatusCode)
	assert.Equal(t, "1", got.Header.Get("Retry-After"))
}

func TestTrap9APostIsNeverNotModified(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{})
	for _, tag := range []string{"*", `"x"`} {
		got := post(t, url, string(sample(t, levee)), "If-None-Match", tag)
		assert.Equal(t, http.StatusOK, got.StatusCode)
		assert.Empty(t, got.Header.Get("ETag"))
		assert.Equal(t, "no-store", got.Header.Get("Cache-Control"))
	}
}

func TestTrap10TheFrameworkStaysInItsRoom(t *testing.T) {
	t.Parallel()
	files := 0
	require.NoError(t, filepath.WalkDir("..", func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || !strings.HasSuffix(path, ".go") {
			return err
		}
		files++
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		for _, imported := range file.Imports {
			if strings.Contains(imported.Path.Value, "labstack/echo") {
				assert.Equal(t, filepath.Join("..", "api"), filepath.Dir(path), "%s imports the web framework", path)
			}
		}
		return nil
	}))
	assert.Greater(t, files, 50)
}

func TestTrap11NothingIsPrettyAndNothingBreaksMidway(t *testing.T) {
	t.Parallel()
	s := newServer(t, Config{})
	s.echo.POST("/test/nan", func(c echo.Context) error {
		body, err := encode(map[string]any{"ok": strings.Repeat("x", 1<<16), "bad": math.NaN()})
		if err != nil {
			return err
		}
		return send(c, 200, mediaJSON, body)
	})
	url := listen(t, s)
	got := call(t, request(t, "POST", url+"/test/nan", "{}"))
	assert.Equal(t, http.StatusInternalServerError, got.StatusCode)
	assert.NotContains(t, string(got.body), "xxx")

	plain := call(t, request(t, "GET", url+"/healthz", ""))
	pretty := call(t, request(t, "GET", url+"/healthz?pretty", ""))
	assert.Equal(t, plain.body, pretty.body)
	got = call(t, request(t, "POST", url+"/v1/assessments?pretty", string(sample(t, levee))))
	assert.Equal(t, http.StatusBadRequest, got.StatusCode)
}

func TestTrap12OneFormOneStrongTag(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{})
	for _, coding := range []string{"gzip", "gzip;q=0", "br"} {
		got := call(t, request(t, "GET", url+"/openapi.json", "", "Accept-Encoding", coding))
		assert.Empty(t, got.Header.Get("Content-Encoding"))
		assert.NotContains(t, got.Header.Get("ETag"), "W/")
		assert.True(t, json.Valid(got.body))
	}
}

func TestTrap13TheErrorHandlerRunsOnceAndSeesThroughWrapping(t *testing.T) {
	t.Parallel()
	s := newServer(t, Config{Logger: slog.New(slog.DiscardHandler)})
	s.echo.GET("/test/wrapped", func(echo.Context) error {
		return fmt.Errorf("outer: %w", echo.NewHTTPError(http.StatusTooManyRequests, "secret"))
	})
	s.echo.GET("/test/begun", func(c echo.Context) error {
		_ = send(c, http.StatusOK, mediaJSON, []byte(`{}`))
		return errors.New("too late")
	})
	url := listen(t, s)
	got := call(t, request(t, "GET", url+"/test/wrapped", ""))
	assert.Equal(t, http.StatusTooManyRequests, got.StatusCode)
	assert.Equal(t, "1", got.Header.Get("Retry-After"))
	assert.NotContains(t, string(got.body), "secret")
	assert.Equal(t, 1.0, counted(t, s, "tractcheck_problems_total", "type", got.problem.Type))

	got = call(t, request(t, "GET", url+"/test/begun", ""))
	assert.Equal(t, http.StatusOK, got.StatusCode)
	assert.Equal(t, `{}`, string(got.body))
}

func TestTrap14HeadStandsBesideGet(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{})
	for _, path := range []string{"/healthz", "/readyz", "/metrics", "/openapi.json", "/openapi.yaml"} {
		get := call(t, request(t, "GET", url+path, ""))
		head := call(t, request(t, "HEAD", url+path, ""))
		assert.Equal(t, http.StatusOK, head.StatusCode, path)
		assert.Empty(t, head.body)
		assert.Equal(t, get.Header.Get("Content-Type"), head.Header.Get("Content-Type"))
		if path != "/metrics" { // the length of which changes from one look to the next
			assert.Equal(t, int64(len(get.body)), head.ContentLength)
		}
	}
	for path, status := range map[string]int{"/nothing": 404, "/v1/assessments": 405} {
		head := call(t, request(t, "HEAD", url+path, ""))
		assert.Equal(t, status, head.StatusCode)
		assert.Equal(t, mediaProblem, head.Header.Get("Content-Type"))
		assert.Empty(t, head.body)
	}
}

func TestTrap15TimesAreStrict(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{})
	for _, moment := range []string{
		"2026-06-03T7:30:00-05:00", "2026-06-03T07:30:00,5-05:00", "2026-06-03 07:30:00-05:00", "2026-06-03T07:30:00",
		"2026-02-30T07:30:00Z", "2026-06-03T24:00:00Z", "2026-06-03T07:30:00+25:00", "yesterday", "",
	} {
		var body map[string]any
		require.NoError(t, json.Unmarshal(sample(t, levee), &body))
		at(body, "weather")["at"] = moment
		encoded, err := json.Marshal(body)
		require.NoError(t, err)
		got := post(t, url, string(encoded))
		assert.Equal(t, http.StatusUnprocessableEntity, got.StatusCode, moment)
		require.Len(t, got.problem.Faults, 1, moment)
		assert.Equal(t, "/weather/at wrong_format", codes(got.problem)[0], moment)
	}
}

// An answer whose computation fails is a failure of the service, and says nothing of its inside.
func TestAFailedComputationIsAProblem(t *testing.T) {
	t.Parallel()
	s := newServer(t, Config{})
	broken := resource{endpoint: "assessments", assess: func(feasibility.Mission) (feasibility.Answer, error) {
		return feasibility.Answer{}, errors.New("secret")
	}}
	s.echo.POST("/test/broken", s.post(broken))
	url := listen(t, s)
	got := call(t, request(t, "POST", url+"/test/broken", string(sample(t, levee))))
	assert.Equal(t, http.StatusInternalServerError, got.StatusCode)
	assert.NotContains(t, string(got.body), "secret")
}
