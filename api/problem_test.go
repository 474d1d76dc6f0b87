package api

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/labstack/echo/v4"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/api/wire"
	"tractcheck/openapi"
)

// syncBuffer is a buffer that several goroutines may write to.
type syncBuffer struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (s *syncBuffer) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.b.Write(p)
}

func (s *syncBuffer) String() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.b.String()
}

func TestEveryLayerFailsWithAProblem(t *testing.T) {
	t.Parallel()
	s := newServer(t, Config{MaxBody: 20_000})
	s.echo.GET("/test/panic", func(echo.Context) error { panic("secret") })
	s.echo.GET("/test/unknown", func(echo.Context) error { return fmt.Errorf("secret") })
	s.echo.GET("/test/teapot", func(echo.Context) error { return echo.NewHTTPError(http.StatusTeapot, "secret") })
	s.echo.GET("/test/odd", func(echo.Context) error { return echo.NewHTTPError(http.StatusBadGateway, "secret") })
	s.echo.GET("/test/busy", func(echo.Context) error { return echo.ErrTooManyRequests })
	url := listen(t, s)
	good := string(sample(t, levee))
	const assessments = "/v1/assessments"
	tests := []struct {
		name, method, path, body string
		header                   []string
		status                   int
		slug                     string
		wantHeader, wantValue    string
	}{
		{"malformed", "POST", assessments, "{", nil, 400, "bad-request", "", ""},
		{"empty", "POST", assessments, "", []string{"Content-Type", mediaJSON}, 400, "bad-request", "", ""},
		{"query", "POST", assessments + "?units=si", good, nil, 400, "unknown-query-parameter", "", ""},
		{"repeated query", "POST", assessments + "?a=1&a=2", good, nil, 400, "unknown-query-parameter", "", ""},
		{"broken query", "POST", assessments + "?a;b=%zz", good, nil, 400, "unknown-query-parameter", "", ""},
		{"no such path", "GET", "/v1/nothing", "", nil, 404, "not-found", "", ""},
		{"slash behind", "POST", assessments + "/", good, nil, 404, "not-found", "", ""},
		{"escaped path", "GET", "/%2e%2e/%0a<script>", "", nil, 404, "not-found", "", ""},
		{"wrong method", "GET", assessments, "", nil, 405, "method-not-allowed", "Allow", "OPTIONS, POST"},
		{"odd method", "WEIRD", assessments, "", nil, 405, "method-not-allowed", "Allow", "OPTIONS, POST"},
		{"trace", "TRACE", "/healthz", "", nil, 405, "method-not-allowed", "Allow", "OPTIONS, GET, HEAD"},
		{"delete", "DELETE", "/openapi.json", "", nil, 405, "method-not-allowed", "Allow", "OPTIONS, GET, HEAD"},
		{"form not offered", "POST", assessments, good, []string{"Accept", "text/csv"}, 406, "not-acceptable", "", ""},
		{"too large", "POST", assessments, strings.Repeat(" ", 20_001), nil, 413, "payload-too-large", "", ""},
		{"form post", "POST", assessments, "a=1", []string{"Content-Type", "application/x-www-form-urlencoded"}, 415, "unsupported-media-type", "Accept-Post", mediaJSON},
		{"no media type", "POST", assessments, good, []string{"Content-Type", ""}, 415, "unsupported-media-type", "Accept-Post", mediaJSON},
		{"other charset", "POST", assessments, good, []string{"Content-Type", "application/json; charset=iso-8859-1"}, 415, "unsupported-media-type", "", ""},
		{"compressed", "POST", assessments, good, []string{"Content-Encoding", "gzip"}, 415, "unsupported-content-coding", "Accept-Encoding", "identity"},
		{"broken contract", "POST", assessments, "{}", nil, 422, "unprocessable-content", "", ""},
		{"busy", "GET", "/test/busy", "", nil, 429, "too-many-requests", "Retry-After", "1"},
		{"panic", "GET", "/test/panic", "", nil, 500, "internal-server-error", "", ""},
		{"unknown error", "GET", "/test/unknown", "", nil, 500, "internal-server-error", "", ""},
		{"unknown client error", "GET", "/test/teapot", "", nil, 400, "refused-request", "", ""},
		{"unknown server error", "GET", "/test/odd", "", nil, 500, "internal-server-error", "", ""},
	}
	for _, tc := range tests {
		t.Run(tc.name, func(t *testing.T) {
			t.Parallel()
			got := call(t, request(t, tc.method, url+tc.path, tc.body, tc.header...))
			assert.Equal(t, tc.status, got.StatusCode, "%s", got.body)
			assert.Equal(t, "urn:tractcheck:problem:"+tc.slug, got.problem.Type)
			assert.Equal(t, "no-store", got.Header.Get("Cache-Control"))
			assert.NotContains(t, string(got.body), "secret")
			if tc.wantHeader != "" {
				assert.Equal(t, tc.wantValue, got.Header.Get(tc.wantHeader))
			}
		})
	}
}

func TestMediaTypesAreReadAsTheStandardSays(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{})
	body := string(sample(t, levee))
	for mediaType, status := range map[string]int{
		"application/json": 200, "Application/JSON": 200, "application/json; charset=utf-8": 200,
		"application/json;charset=\"UTF-8\"": 200, "application/vnd.order+json": 200, "application/geo+json": 200,
		"application/json; charset=utf-16": 415, "text/json": 415, "application/+json": 415, "application/jsonp": 415,
		"json": 415, "text/plain": 415, "multipart/form-data; boundary=x": 415, "application/json; charset": 415, ";": 415,
	} {
		assert.Equal(t, status, post(t, url, body, "Content-Type", mediaType).StatusCode, mediaType)
	}
	r := request(t, "POST", url+"/v1/assessments", body)
	r.Header["Content-Type"] = []string{mediaJSON, "text/plain"}
	assert.Equal(t, 415, call(t, r).StatusCode, "two media types")
}

func TestAcceptIsReadAsTheStandardSays(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{})
	body := string(sample(t, levee))
	for accept, status := range map[string]int{
		"": 200, "*/*": 200, "application/*": 200, "application/json": 200, "APPLICATION/JSON": 200,
		"application/json;q=0.1, text/html": 200, "text/html, */*;q=0.1": 200, "application/json; charset=utf-8": 200,
		"nonsense": 200, "text/html": 200, "text/*": 200, "application/json;q=0": 406, "application/json;q=0, */*": 200,
		"*/*;q=0": 406, "application/*;q=0, */*": 200, "text/css": 406, "application/geo+json": 422, "application/json;q=0, application/geo+json;q=0": 406,
	} {
		got := post(t, url, body, "Accept", accept)
		assert.Equal(t, status, got.StatusCode, accept)
		if status == 406 {
			assert.Contains(t, got.problem.Detail, mediaJSON, "the forms on offer must be named")
		}
	}
}

func TestRequestIDsAreTakenOverOnlyWhereTheyAreSafe(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{})
	for _, good := range []string{"a", "order-0001.7_B", strings.Repeat("x", 64)} {
		got := call(t, request(t, "GET", url+"/nothing", "", "X-Request-Id", good))
		assert.Equal(t, good, got.Header.Get("X-Request-Id"))
		assert.Equal(t, "/nothing#"+good, got.problem.Instance)
	}
	seen := map[string]bool{}
	for _, bad := range []string{"", "a b", strings.Repeat("x", 65), "é", `"`, "a/b", "<script>"} {
		got := call(t, request(t, "GET", url+"/nothing", "", "X-Request-Id", bad))
		id := got.Header.Get("X-Request-Id")
		assert.NotEqual(t, bad, id)
		assert.False(t, seen[id], "ids must differ")
		seen[id] = true
	}
}

func TestTraceIDs(t *testing.T) {
	t.Parallel()
	const trace, span = "0af7651916cd43dd8448eb211c80319c", "b7ad6b7169203331"
	for header, good := range map[string]bool{
		"00-" + trace + "-" + span + "-01":                       true,
		"01-" + trace + "-" + span + "-01-more":                  true,
		"00-" + trace + "-" + span + "-01-more":                  false,
		"ff-" + trace + "-" + span + "-01":                       false,
		"00-" + strings.Repeat("0", 32) + "-" + span + "-01":     false,
		"00-" + trace + "-" + strings.Repeat("0", 16) + "-01":    false,
		"00-" + strings.ToUpper(trace) + "-" + span + "-01":      false,
		"00-" + trace + "-" + span:                               false,
		"":                                                       false,
		"00-" + trace + "-" + span + "-01\n00-" + trace + "-0-0": false,
	} {
		id, ok := traceID([]string{header})
		assert.Equal(t, good, ok, header)
		if good {
			assert.Equal(t, trace, id)
		}
	}
	_, ok := traceID([]string{"00-" + trace + "-" + span + "-01", "00-" + trace + "-" + span + "-01"})
	assert.False(t, ok, "two headers say nothing")
}

func TestTheLogHasTheRouteAndNeverTheBody(t *testing.T) {
	t.Parallel()
	var log syncBuffer
	s := newServer(t, Config{Logger: slog.New(slog.NewJSONHandler(&log, nil))})
	s.echo.GET("/test/panic", func(echo.Context) error { panic("it broke") })
	url := listen(t, s)
	const trace = "0af7651916cd43dd8448eb211c80319c"
	call(t, request(t, "POST", url+"/v1/assessments?private=1", `{"private": "body"}`))
	call(t, request(t, "POST", url+"/v1/assessments", `{"private": "body"}`,
		"X-Request-Id", "order-7", "Traceparent", "00-"+trace+"-b7ad6b7169203331-01"))
	call(t, request(t, "GET", url+"/private/path", ""))
	call(t, request(t, "GET", url+"/test/panic", ""))
	for _, path := range []string{"/healthz", "/readyz", "/metrics"} {
		call(t, request(t, "GET", url+path, ""))
	}
	assert.NotContains(t, log.String(), "private")

	var lines []map[string]any
	for line := range strings.Lines(log.String()) {
		var entry map[string]any
		require.NoError(t, json.Unmarshal([]byte(line), &entry), line)
		lines = append(lines, entry)
	}
	require.Len(t, lines, 5, "three requests, one panic and its request; no probes")
	second := lines[1]
	assert.Equal(t, "order-7", second["request_id"])
	assert.Equal(t, trace, second["trace_id"])
	assert.Equal(t, "POST", second["method"])
	assert.Equal(t, "/v1/assessments", second["route"])
	assert.Equal(t, 400.0, second["status"])
	assert.Equal(t, 19.0, second["bytes_in"])
	assert.Greater(t, second["bytes_out"], 100.0)
	assert.Greater(t, second["faults"], 0.0)
	assert.Equal(t, "unmatched", lines[2]["route"])
	assert.Equal(t, "panic", lines[3]["msg"])
	assert.Contains(t, lines[3]["stack"], "problem_test.go")
	assert.Equal(t, 500.0, lines[4]["status"])
	assert.Equal(t, "ERROR", lines[4]["level"])
	assert.Equal(t, "it broke", lines[4]["error"])
}

// A flood that is shed must not hide the service's own mistakes among lines of the same level.
func TestHowGraveTheEndOfARequestIs(t *testing.T) {
	t.Parallel()
	tests := []struct {
		name   string
		end    error
		status float64
		level  string
	}{
		{"answered", nil, 200, "INFO"},
		{"the caller's fault", notFound.problem("x"), 404, "INFO"},
		{"too many in hand", overloaded(), 503, "WARN"},
		{"no time left", context.DeadlineExceeded, 503, "ERROR"},
		{"the caller hung up", context.Canceled, 503, "INFO"},
		{"the service's own mistake", errors.New("it broke"), 500, "ERROR"},
	}
	for _, tc := range tests {
		t.Run(tc.name, func(t *testing.T) {
			t.Parallel()
			var log syncBuffer
			s := newServer(t, Config{Logger: slog.New(slog.NewJSONHandler(&log, nil))})
			s.echo.GET("/test/end", func(echo.Context) error { return tc.end })
			s.ServeHTTP(httptest.NewRecorder(), request(t, "GET", "/test/end", ""))
			var line map[string]any
			require.NoError(t, json.Unmarshal([]byte(log.String()), &line), log.String())
			assert.Equal(t, tc.status, line["status"])
			assert.Equal(t, tc.level, line["level"])
			assert.Equal(t, tc.level == "ERROR", line["error"] != nil, "what caused it stands beside an error alone")
		})
	}
}

// A question that gets no turn is one that is shed.
func TestAShedQuestionIsLoggedAsAWarning(t *testing.T) {
	t.Parallel()
	var log syncBuffer
	s := newServer(t, Config{Computations: 1, Timeout: time.Second, Logger: slog.New(slog.NewJSONHandler(&log, nil))})
	s.load.computing <- struct{}{}
	w := httptest.NewRecorder()
	s.ServeHTTP(w, request(t, "POST", "/v1/assessments", string(sample(t, levee))))
	require.Equal(t, 503, w.Code, "%s", w.Body)
	assert.Contains(t, log.String(), `"level":"WARN"`)
	assert.NotContains(t, log.String(), `"level":"ERROR"`)
}

// sendPart begins a request whose body promises 100 bytes, and sends two of them.
func sendPart(t *testing.T, url string) *net.TCPConn {
	t.Helper()
	connection, err := (&net.Dialer{}).DialContext(t.Context(), "tcp", strings.TrimPrefix(url, "http://"))
	require.NoError(t, err)
	t.Cleanup(func() { _ = connection.Close() })
	require.NoError(t, connection.SetDeadline(time.Now().Add(time.Minute)))
	_, err = io.WriteString(connection, "POST /v1/assessments HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: 100\r\n\r\n{}")
	require.NoError(t, err)
	return connection.(*net.TCPConn)
}

// problemOn reads the problem a connection gets.
func problemOn(t *testing.T, connection io.Reader) Problem {
	t.Helper()
	response, err := http.ReadResponse(bufio.NewReader(connection), nil)
	require.NoError(t, err)
	defer func() { _ = response.Body.Close() }()
	assert.Equal(t, mediaProblem, response.Header.Get("Content-Type"))
	var p Problem
	require.NoError(t, json.NewDecoder(response.Body).Decode(&p))
	assert.Equal(t, response.StatusCode, p.Status)
	return p
}

func TestABodyCutShortIsAProblem(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{})
	connection := sendPart(t, url)
	require.NoError(t, connection.CloseWrite())
	assert.Equal(t, unreadableBody.problem("").Type, problemOn(t, connection).Type)
}

func TestABodyThatComesTooSlowlyIsAProblem(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{Timeout: 100 * time.Millisecond})
	p := problemOn(t, sendPart(t, url))
	assert.Equal(t, bodyTimeout.problem("").Type, p.Type, "the server of the tests has no timeout of its own")
	assert.Equal(t, 408, p.Status)
}

var kinds = []kind{
	malformedBody, unacceptableBody, unknownParameter, unreadableBody, bodyTimeout, refused, notFound, unauthorized, methodNotAllowed, notAcceptable,
	bodyTooLarge, wrongMediaType, wrongContentCoding, tooManyRequests, internalError, unavailable,
}

func TestTheContractShowsProblemsAsTheyAre(t *testing.T) {
	t.Parallel()
	var document map[string]any
	require.NoError(t, json.Unmarshal([]byte(openapi.JSON), &document))
	shown := 0
	for name, response := range at(document, "components", "responses") {
		if name == "FailurePage" {
			continue // a page for people
		}
		example := at(response.(map[string]any), "content", mediaProblem, "example")
		require.NotNil(t, example, name)
		i := slices.IndexFunc(kinds, func(k kind) bool { return k.problem("").Type == example["type"] })
		require.GreaterOrEqual(t, i, 0, "%s shows a type there is not: %v", name, example["type"])
		assert.Equal(t, kinds[i].title, example["title"], name)
		assert.EqualValues(t, kinds[i].status, example["status"], name)
		shown++
	}
	assert.GreaterOrEqual(t, shown, 11)
	named, _ := at(document, "components", "schemas", "Problem", "properties", "type")["description"].(string)
	for _, k := range kinds {
		assert.Regexp(t, `(^|[ :])`+k.slug+`[ ,;(]`, named, "the contract names every kind")
	}
}

func TestProblemKindsAreSound(t *testing.T) {
	t.Parallel()
	slugs := map[string]bool{}
	for _, k := range kinds {
		assert.False(t, slugs[k.slug], k.slug)
		slugs[k.slug] = true
		assert.Regexp(t, `^[a-z-]+$`, k.slug)
		assert.NotEmpty(t, k.title)
		assert.GreaterOrEqual(t, k.status, 400)
	}
	p := faulty([]wire.Fault{{Code: wire.FaultRange}})
	assert.Equal(t, 422, p.Status)
	assert.Contains(t, p.Error(), "422")
	p = faulty([]wire.Fault{{Code: wire.FaultRange}, {Code: wire.FaultUnknown}})
	assert.Equal(t, 400, p.Status, "one fault of text makes it 400")
	p = faulty(make([]wire.Fault, wire.MaxFaults))
	assert.Contains(t, p.Detail, "At least 99 things")
}
