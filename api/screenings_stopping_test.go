package api

import (
	"bufio"
	"fmt"
	"io"
	"net"
	"net/http"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// begin opens a connection and sends the head of a screening and a line, as chunks.
func begin(t testing.TB, url string, texts ...string) net.Conn {
	t.Helper()
	connection := dial(t, url)
	_, err := fmt.Fprintf(connection, "POST %s HTTP/1.1\r\nHost: x\r\nContent-Type: %s\r\nTransfer-Encoding: chunked\r\n\r\n", screeningsPath, mediaNDJSON)
	require.NoError(t, err)
	for _, text := range texts {
		_, err = fmt.Fprintf(connection, "%x\r\n%s\r\n", len(text), text)
		require.NoError(t, err)
	}
	return connection
}

// ended reads what a service answers until it hangs up.
func ended(t testing.TB, connection net.Conn) (status int, text string) {
	t.Helper()
	require.NoError(t, connection.SetReadDeadline(time.Now().Add(time.Minute)))
	response, err := http.ReadResponse(bufio.NewReader(connection), nil)
	require.NoError(t, err)
	body, err := io.ReadAll(response.Body)
	require.NoError(t, err)
	require.NoError(t, response.Body.Close())
	return response.StatusCode, string(body)
}

func TestACallerWhoStallsIsToldSo(t *testing.T) {
	t.Parallel()
	_, url := quickly(t, Config{Stall: 2 * time.Second})
	line := compact(t, levee)

	status, text := ended(t, begin(t, url, line[:100])) // nothing was answered yet
	assert.Equal(t, http.StatusRequestTimeout, status)
	assert.Contains(t, text, "request-timeout")

	status, text = ended(t, begin(t, url, line+"\n", line[:100]))
	assert.Equal(t, http.StatusOK, status)
	lines, summary := readLines(t, text)
	assert.Len(t, lines, 1)
	assert.False(t, *summary.Complete)
	assert.Equal(t, http.StatusRequestTimeout, summary.status())
}

func TestAnInputThatBreaksOffIsToldSo(t *testing.T) {
	t.Parallel()
	_, url := quickly(t, Config{})
	line := compact(t, levee)
	for _, end := range []string{"", "nonsense\r\n"} {
		connection := begin(t, url, line+"\n", line)
		_, err := io.WriteString(connection, end)
		require.NoError(t, err)
		if end == "" {
			require.NoError(t, connection.(*net.TCPConn).CloseWrite())
		}
		_, text := ended(t, connection)
		lines, summary := readLines(t, text)
		assert.Len(t, lines, 1, "a line that may be cut is not answered")
		assert.False(t, *summary.Complete)
		assert.Equal(t, "urn:tractcheck:problem:unreadable-body", summary.Problem.Type)
	}
}

func TestHaltEndsScreeningsVisibly(t *testing.T) {
	t.Parallel()
	s, url := quickly(t, Config{})
	connection := begin(t, url, compact(t, levee)+"\n")
	require.Eventually(t, func() bool {
		return counted(t, s, "tractcheck_screening_lines_total", "result", "answer") == 1
	}, time.Minute, time.Millisecond)
	s.Drain()
	s.Halt()
	_, text := ended(t, connection)
	lines, summary := readLines(t, text)
	assert.Len(t, lines, 1)
	assert.False(t, *summary.Complete)
	assert.Equal(t, http.StatusServiceUnavailable, summary.status())

	got := call(t, linesOf(t, url, compact(t, levee)))
	assert.Equal(t, http.StatusServiceUnavailable, got.StatusCode, "no new one begins")
	assert.Equal(t, http.StatusOK, post(t, url, string(sample(t, levee))).StatusCode)
}
