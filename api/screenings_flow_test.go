package api

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"tractcheck/feasibility"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The framework and the standard library drop the rest of a request when its answer begins, and say
// nothing: all lines must be answered, however they are sent.
func TestTrap1EveryLineOfAStreamIsAnswered(t *testing.T) {
	t.Parallel()
	_, url := quickly(t, Config{})
	const count = 1000
	body := strings.Repeat(padded, count)
	for name, r := range map[string]*http.Request{"with its length": linesOf(t, url, body), "in chunks": streamOf(t, url, strings.NewReader(body))} {
		response, err := http.DefaultTransport.RoundTrip(r)
		require.NoError(t, err, name)
		answered := 0
		scanner := bufio.NewScanner(response.Body)
		for scanner.Scan() {
			answered++
		}
		require.NoError(t, scanner.Err(), name)
		require.NoError(t, response.Body.Close())
		assert.Equal(t, count+1, answered, name)
	}
}

func TestAnAnswerComesBeforeTheNextLineIsSent(t *testing.T) {
	t.Parallel()
	_, url := quickly(t, Config{})
	body, client := io.Pipe()
	defer func() { _ = client.Close() }()
	line := compact(t, levee) + "\n"
	go func() { _, _ = io.WriteString(client, line) }()
	response, err := http.DefaultTransport.RoundTrip(streamOf(t, url, body))
	require.NoError(t, err)
	defer func() { _ = response.Body.Close() }()
	answers := bufio.NewReader(response.Body)
	for number := range int64(5) {
		if number > 0 {
			_, err = io.WriteString(client, line)
			require.NoError(t, err)
		}
		text, err := answers.ReadString('\n')
		require.NoError(t, err)
		assert.Equal(t, number+1, readLine(t, text).Line)
	}
	require.NoError(t, client.Close())
	rest, err := io.ReadAll(answers)
	require.NoError(t, err)
	_, summary := readLines(t, string(rest))
	assert.Equal(t, int64(5), summary.Answers)
}

// Browsers send a whole body before they read: some hundred lines fit what the system holds for them.
func TestACallerMaySendAllBeforeItReads(t *testing.T) {
	t.Parallel()
	_, url := quickly(t, Config{})
	body := strings.Repeat(padded, 500)
	connection := dial(t, url)
	_, err := fmt.Fprintf(connection, "POST %s HTTP/1.1\r\nHost: x\r\nContent-Type: %s\r\nContent-Length: %d\r\n\r\n%s", screeningsPath, mediaNDJSON, len(body), body)
	require.NoError(t, err)
	time.Sleep(50 * time.Millisecond)
	response, err := http.ReadResponse(bufio.NewReader(connection), nil)
	require.NoError(t, err)
	defer func() { _ = response.Body.Close() }()
	text, err := io.ReadAll(response.Body)
	require.NoError(t, err)
	lines, _ := readLines(t, string(text))
	assert.Len(t, lines, 500)
}

func TestOnlySoManyScreeningsRunAtATime(t *testing.T) {
	t.Parallel()
	s, url := quickly(t, Config{Screenings: 1})
	connection := begin(t, url, compact(t, levee)+"\n")
	require.Eventually(t, func() bool { return len(s.screens.running) == 1 }, time.Minute, time.Millisecond)
	got := call(t, linesOf(t, url, compact(t, levee)))
	assert.Equal(t, http.StatusServiceUnavailable, got.StatusCode)
	assert.Equal(t, "1", got.Header.Get("Retry-After"))
	_, err := io.WriteString(connection, "0\r\n\r\n")
	require.NoError(t, err)
	_, text := ended(t, connection)
	_, summary := readLines(t, text)
	assert.True(t, *summary.Complete)
	require.Eventually(t, func() bool { return len(s.screens.running) == 0 }, time.Minute, time.Millisecond)
	assert.Equal(t, http.StatusOK, call(t, linesOf(t, url, compact(t, levee))).StatusCode)
}

func TestAConnectionThatCannotDoBothIsAFailureOfTheService(t *testing.T) {
	t.Parallel()
	s := newServer(t, Config{})
	r := httptest.NewRequestWithContext(t.Context(), http.MethodPost, screeningsPath, strings.NewReader("{}"))
	r.Header.Set("Content-Type", mediaNDJSON)
	w := httptest.NewRecorder()
	s.ServeHTTP(w, r)
	assert.Equal(t, http.StatusInternalServerError, w.Code)
	assert.Equal(t, mediaProblem, w.Header().Get("Content-Type"))
}

func TestACallerMayAskWhetherToGoOn(t *testing.T) {
	t.Parallel()
	_, url := quickly(t, Config{})
	r := linesOf(t, url, strings.Repeat(padded, 100), "Expect", "100-continue")
	lines, _ := readLines(t, string(call(t, r).body))
	assert.Len(t, lines, 100)
}

func TestAPanicIsAProblemOnItsLine(t *testing.T) {
	t.Parallel()
	var log syncBuffer
	s, url := quickly(t, Config{Logger: slog.New(slog.NewJSONHandler(&log, nil))})
	var calls atomic.Int64
	s.screens.assess = func(m feasibility.Mission) (feasibility.Answer, error) {
		switch calls.Add(1) {
		case 2:
			panic("secret")
		case 3:
			return feasibility.Answer{}, errors.New("secret too")
		default:
			return quick(m)
		}
	}
	line := compact(t, levee) + "\n"
	got := call(t, linesOf(t, url, strings.Repeat(line, 4), "X-Request-Id", "quoted"))
	lines, summary := readLines(t, string(got.body))
	require.Len(t, lines, 4)
	assert.Equal(t, int64(2), summary.Problems)
	assert.Equal(t, int64(2), summary.Answers)
	assert.True(t, *summary.Complete)
	assert.NotContains(t, string(got.body), "secret")
	assert.Contains(t, log.String(), "panic: secret")
	assert.Contains(t, log.String(), "secret too")
	assert.Contains(t, log.String(), `"request_id":"quoted"`)
	assert.NotContains(t, log.String(), "Kestrel", "bodies are never logged")
}
