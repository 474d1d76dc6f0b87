package api

import (
	"bufio"
	"fmt"
	"io"
	"net"
	"net/http"
	"runtime"
	runtimemetrics "runtime/metrics"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// flood sends lines until the service takes no more, and reports how many bytes it took.
func flood(t testing.TB, connection net.Conn, line string) (sent int) {
	t.Helper()
	chunk := strings.Repeat(line, 16)
	chunk = fmt.Sprintf("%x\r\n%s\r\n", len(chunk), chunk)
	for {
		require.NoError(t, connection.SetWriteDeadline(time.Now().Add(300*time.Millisecond)))
		n, err := io.WriteString(connection, chunk)
		sent += n
		if err != nil {
			return sent
		}
		require.Less(t, sent, 256<<20, "the service reads although its answers are not taken")
	}
}

// This test stands alone, because it looks at the goroutines of the process.
func TestAReaderWhoDoesNotReadHoldsNothingUp(t *testing.T) {
	s, url := quickly(t, Config{Stall: 500 * time.Millisecond})
	before := runtime.NumGoroutine()
	line := padded

	connection := begin(t, url, line)
	sent := flood(t, connection, line)
	t.Logf("the service took %d lines of a caller who does not read", sent/len(line))
	assert.Greater(t, sent, 16*len(line), "something was taken")
	require.Eventually(t, func() bool { return len(s.screens.running) == 0 }, time.Minute, 10*time.Millisecond, "it is cut off")
	require.NoError(t, connection.Close())

	// One who hangs up in the middle.
	connection = begin(t, url, line, line, line[:50])
	require.Eventually(t, func() bool { return len(s.screens.running) == 1 }, time.Minute, time.Millisecond)
	require.NoError(t, connection.Close())
	require.Eventually(t, func() bool { return len(s.screens.running) == 0 }, time.Minute, time.Millisecond)

	require.Eventually(t, func() bool { return counted(t, s, "tractcheck_http_requests_in_flight") == 0 }, time.Minute, 10*time.Millisecond, "its request ends a little later")
	require.Eventually(t, func() bool { return runtime.NumGoroutine() <= before+1 }, time.Minute, 10*time.Millisecond, "no goroutine is left behind")
}

// This test stands alone, because it looks at the memory of the process.
func TestMemoryDoesNotGrowWithTheNumberOfLines(t *testing.T) {
	s, url := quickly(t, Config{})
	s.warm() // what is made once is no memory of the lines
	count := 20_000
	if testing.Short() || raceDetector {
		count = 2_000
	}
	var most atomic.Uint64
	lines := &watched{text: "{}\n", left: count, every: count / 20, look: func() {
		// What the collection found in use, whatever has been taken since.
		live := []runtimemetrics.Sample{{Name: "/gc/heap/live:bytes"}}
		runtime.GC()
		runtimemetrics.Read(live)
		most.Store(max(most.Load(), live[0].Value.Uint64()))
	}}
	lines.look()
	before := most.Load()
	response, err := http.DefaultTransport.RoundTrip(streamOf(t, url, lines))
	require.NoError(t, err)
	defer func() { _ = response.Body.Close() }()
	answers := bufio.NewReader(response.Body)
	last := ""
	for {
		text, err := answers.ReadString('\n')
		if err != nil {
			require.ErrorIs(t, err, io.EOF)
			break
		}
		last = text
	}
	assert.Equal(t, int64(count), readLine(t, last).Lines)
	grown := int64(most.Load()) - int64(before)
	t.Logf("%d lines held %d bytes more at most", count, grown)
	bound := int64(8 << 20)
	if raceDetector {
		bound *= 4 // the detector keeps memory of its own, which counts here
	}
	assert.Less(t, grown, bound)
}

// watched is a text over and over, with a look at something now and then.
type watched struct {
	text        string
	left, every int
	look        func()
}

func (w *watched) Read(p []byte) (int, error) {
	if w.left == 0 {
		return 0, io.EOF
	}
	if w.left--; w.left%w.every == 0 {
		w.look()
	}
	return copy(p, w.text), nil
}
