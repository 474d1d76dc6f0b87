package main

import (
	"bufio"
	"io"
	"net"
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// answeredOn asks for the health on a connection, and reports whether an answer comes within a time.
func answeredOn(t *testing.T, connection net.Conn, within time.Duration) bool {
	t.Helper()
	require.NoError(t, connection.SetReadDeadline(time.Now().Add(within)))
	response, err := http.ReadResponse(bufio.NewReader(connection), nil)
	if err != nil {
		return false
	}
	defer func() { _ = response.Body.Close() }()
	return response.StatusCode == http.StatusOK
}

func TestConnectionsBeyondTheBoundWaitUntilOneEnds(t *testing.T) {
	t.Parallel()
	r := start(t, "-connections", "2")
	open := make([]net.Conn, 3)
	for i := range open {
		connection, err := (&net.Dialer{}).DialContext(t.Context(), "tcp", r.address)
		require.NoError(t, err)
		t.Cleanup(func() { _ = connection.Close() })
		_, err = io.WriteString(connection, "GET /healthz HTTP/1.1\r\nHost: x\r\n\r\n")
		require.NoError(t, err)
		open[i] = connection
		if i < 2 {
			require.True(t, answeredOn(t, connection, time.Minute))
		}
	}
	assert.False(t, answeredOn(t, open[2], 300*time.Millisecond), "the third waits")
	require.NoError(t, open[0].Close())
	assert.True(t, answeredOn(t, open[2], time.Minute), "and is answered when one has ended")
}

func TestALongHeaderIsRefused(t *testing.T) {
	t.Parallel()
	r := start(t)
	request, err := http.NewRequestWithContext(t.Context(), http.MethodGet, "http://"+r.address+"/healthz", nil)
	require.NoError(t, err)
	for length, want := range map[int]int{6 << 10: http.StatusOK, 16 << 10: http.StatusRequestHeaderFieldsTooLarge} {
		request.Header.Set("X-Long", strings.Repeat("a", length))
		response, err := (&http.Transport{DisableKeepAlives: true}).RoundTrip(request)
		require.NoError(t, err)
		_ = response.Body.Close()
		assert.Equal(t, want, response.StatusCode, "%d bytes", length)
	}
}
