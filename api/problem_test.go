package api

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
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
