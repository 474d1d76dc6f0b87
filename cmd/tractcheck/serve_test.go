package main

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net"
	"net/http"
	"os"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// syncBuffer is a buffer that the service writes to while a test reads it.
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

// running is a service that was started by its command.
type running struct {
	address string
	log     *syncBuffer
	stop    context.CancelFunc
	status  chan int
}

// start runs serve on a free port and waits until it says where.
func start(t *testing.T, args ...string) *running {
	t.Helper()
	ctx, stop := context.WithCancel(t.Context())
	r := &running{log: &syncBuffer{}, stop: stop, status: make(chan int, 1)}
	args = append([]string{"serve", "-listen", "127.0.0.1:0"}, args...)
	go func() { r.status <- run(ctx, args, nil, strings.NewReader(""), r.log, io.Discard) }()
	t.Cleanup(stop)
	require.Eventually(t, func() bool {
		first, _, whole := strings.Cut(r.log.String(), "\n")
		var line struct{ Msg, Address string }
		if !whole || json.Unmarshal([]byte(first), &line) != nil || line.Msg != "serving" {
			return false
		}
		r.address = line.Address
		return true
	}, time.Minute, 5*time.Millisecond, "the service must say where it serves")
	return r
}

// ended waits for the exit status.
func (r *running) ended(t *testing.T) int {
	t.Helper()
	select {
	case status := <-r.status:
		return status
	case <-time.After(time.Minute):
		require.Fail(t, "the service does not stop")
		return -1
	}
}

func fetch(t *testing.T, url string) int {
	t.Helper()
	r, err := http.NewRequestWithContext(t.Context(), http.MethodGet, url, nil)
	require.NoError(t, err)
	response, err := (&http.Transport{DisableKeepAlives: true}).RoundTrip(r)
	require.NoError(t, err)
	defer func() { _ = response.Body.Close() }()
	return response.StatusCode
}

func TestServeAnswersAndStopsGracefully(t *testing.T) {
	t.Parallel()
	r := start(t, "-drain", "6s") // a busy machine may take seconds for the looks within it
	base := "http://" + r.address
	assert.Equal(t, http.StatusOK, fetch(t, base+"/readyz"))

	// A request whose body comes slowly is in hand when the stop signal comes.
	body, err := os.ReadFile(missions + "levee-strip-small.json")
	require.NoError(t, err)
	reader, writer := io.Pipe()
	done := make(chan int, 1)
	go func() {
		request, err := http.NewRequestWithContext(context.Background(), http.MethodPost, base+"/v1/assessments", reader)
		if err != nil {
			done <- -1
			return
		}
		request.Header.Set("Content-Type", "application/json")
		response, err := (&http.Transport{DisableKeepAlives: true}).RoundTrip(request)
		if err != nil {
			done <- -1
			return
		}
		_, _ = io.Copy(io.Discard, response.Body)
		_ = response.Body.Close()
		done <- response.StatusCode
	}()
	_, err = writer.Write(body[:100])
	require.NoError(t, err)

	r.stop()
	require.Eventually(t, func() bool { return fetch(t, base+"/readyz") == http.StatusServiceUnavailable },
		time.Minute, 5*time.Millisecond, "readiness must go before the service does")
	assert.Equal(t, http.StatusOK, fetch(t, base+"/healthz"))
	require.Eventually(t, func() bool {
		connection, err := (&net.Dialer{}).DialContext(t.Context(), "tcp", r.address)
		if err == nil {
			_ = connection.Close()
		}
		return err != nil
	}, time.Minute, 10*time.Millisecond, "after the drain no new request is taken")
	_, err = writer.Write(body[100:])
	require.NoError(t, err)
	require.NoError(t, writer.Close())
	assert.Equal(t, http.StatusOK, <-done, "the request in hand must be answered")
	assert.Equal(t, exitOK, r.ended(t))

	for line := range strings.Lines(r.log.String()) {
		assert.True(t, json.Valid([]byte(line)), line)
	}
	assert.Contains(t, r.log.String(), `"msg":"stopping"`)
	assert.Contains(t, r.log.String(), `"msg":"stopped"`)
}

func TestServeCutsOffWhatOutlivesTheGrace(t *testing.T) {
	t.Parallel()
	r := start(t, "-grace", "50ms")
	connection, err := (&net.Dialer{}).DialContext(t.Context(), "tcp", r.address)
	require.NoError(t, err)
	defer func() { _ = connection.Close() }()
	_, err = io.WriteString(connection, "POST /v1/assessments HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: 10\r\n\r\n{")
	require.NoError(t, err)
	require.Eventually(t, func() bool {
		return inFlight(t, "http://"+r.address) == "2" // this one and the look itself
	}, time.Minute, 10*time.Millisecond)
	r.stop()
	assert.Equal(t, exitFailed, r.ended(t))
	assert.Contains(t, r.log.String(), "cut off")
}

// A screening goes on while the service stops, and ends visibly before the grace does.
func TestServeEndsScreeningsVisibly(t *testing.T) {
	t.Parallel()
	r := start(t, "-grace", "8s")
	body, client := io.Pipe()
	defer func() { _ = client.Close() }()
	go func() { _, _ = io.WriteString(client, "{}\n") }()
	request, err := http.NewRequestWithContext(t.Context(), http.MethodPost, "http://"+r.address+"/v1/screenings", body)
	require.NoError(t, err)
	request.Header.Set("Content-Type", "application/x-ndjson")
	response, err := (&http.Transport{}).RoundTrip(request)
	require.NoError(t, err)
	defer func() { _ = response.Body.Close() }()
	answers := bufio.NewReader(response.Body)
	answered := func() string {
		line, err := answers.ReadString('\n')
		require.NoError(t, err)
		return line
	}
	assert.Contains(t, answered(), `{"line":1,`)
	r.stop()
	_, err = io.WriteString(client, "{}\n")
	require.NoError(t, err)
	assert.Contains(t, answered(), `{"line":2,`)
	last := answered()
	assert.Contains(t, last, `"complete":false`)
	assert.Contains(t, last, "service-unavailable")
	assert.Equal(t, exitOK, r.ended(t))
}

// inFlight reads how many requests a service is answering.
func inFlight(t *testing.T, base string) string {
	t.Helper()
	r, err := http.NewRequestWithContext(t.Context(), http.MethodGet, base+"/metrics", nil)
	require.NoError(t, err)
	response, err := (&http.Transport{DisableKeepAlives: true}).RoundTrip(r)
	require.NoError(t, err)
	defer func() { _ = response.Body.Close() }()
	text, err := io.ReadAll(response.Body)
	require.NoError(t, err)
	_, value, _ := strings.Cut(string(text), "\ntractcheck_http_requests_in_flight ")
	value, _, _ = strings.Cut(value, "\n")
	return value
}

func TestServeOnATakenPortFailsAtOnce(t *testing.T) {
	t.Parallel()
	r := start(t)
	got := command(t, []string{"TRACTCHECK_LISTEN=" + r.address}, "", "serve")
	assert.Equal(t, exitFailed, got.status)
	assert.Contains(t, got.stdout, "address already in use")
}

func TestProbe(t *testing.T) {
	t.Parallel()
	r := start(t, "-drain", "1h") // it ends with the tests
	environ := []string{"TRACTCHECK_LISTEN=" + r.address}
	got := command(t, environ, "", "probe")
	assert.Equal(t, outcome{0, "ready\n", ""}, got)
	got = command(t, environ, "", "probe", "-url", "http://"+r.address+"/healthz")
	assert.Equal(t, 0, got.status)
	got = command(t, nil, "", "probe", "-url", "http://"+r.address+"/nothing")
	assert.Equal(t, 1, got.status)
	assert.Contains(t, got.stderr, "404")
	r.stop()
	require.Eventually(t, func() bool { return command(t, environ, "", "probe").status == 1 }, time.Minute, 10*time.Millisecond)
}

func TestReachable(t *testing.T) {
	t.Parallel()
	for listen, want := range map[string]string{
		":8080": "127.0.0.1:8080", "0.0.0.0:80": "127.0.0.1:80", "[::]:80": "[::1]:80",
		"127.0.0.1:8080": "127.0.0.1:8080", "host:1": "host:1", "bad": "bad",
	} {
		assert.Equal(t, want, reachable(listen))
	}
}

// This test stands alone: the signal reaches every service of the process.
func TestServeStopsOnSIGTERM(t *testing.T) {
	r := start(t)
	require.NoError(t, syscall.Kill(os.Getpid(), syscall.SIGTERM))
	assert.Equal(t, exitOK, r.ended(t))
	assert.Contains(t, r.log.String(), `"msg":"stopped"`)
}
