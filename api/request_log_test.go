package api

import (
	"context"
	"encoding/json"
	"errors"
	"log/slog"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"github.com/labstack/echo/v4"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

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
	assert.Contains(t, lines[3]["stack"], "request_log_test.go")
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
