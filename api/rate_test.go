package api

import (
	"bytes"
	"fmt"
	"log/slog"
	"net"
	"net/http/httptest"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A limit of one question in 100 s, so that none comes back during a test.
const oneQuestion = 0.01

func TestTheLimitIsSaidAndKept(t *testing.T) {
	t.Parallel()
	s, url := serve(t, Config{RateLimit: oneQuestion})
	now := time.Unix(0, 0)
	s.allowances.now = func() time.Time { return now }
	ask := func() reply { return call(t, request(t, "POST", url+"/v1/assessments", "{}")) }
	first := ask()
	assert.Equal(t, 422, first.StatusCode, "a question that is at fault counts, too")
	assert.Equal(t, `"default";q=1;w=100`, first.Header.Get("RateLimit-Policy"))
	assert.Equal(t, `"default";r=0;t=100`, first.Header.Get("RateLimit"))
	second := ask()
	require.Equal(t, 429, second.StatusCode)
	assert.Equal(t, "urn:tractcheck:problem:too-many-requests", second.problem.Type)
	assert.Equal(t, "100", second.Header.Get("Retry-After"))
	now = now.Add(60 * time.Second)
	assert.Equal(t, "40", ask().Header.Get("Retry-After"))
	now = now.Add(40 * time.Second)
	assert.Equal(t, 422, ask().StatusCode, "after the wait it is answered")
	for _, open := range []string{"/healthz", "/readyz", "/metrics", "/openapi.json"} {
		assert.Equal(t, 200, call(t, request(t, "GET", url+open, "")).StatusCode, "%s is not limited", open)
	}
}

func TestAForgedAddressPassesNoLimitAndReachesNoLog(t *testing.T) {
	t.Parallel()
	var log syncBuffer
	_, url := serve(t, Config{RateLimit: oneQuestion, Logger: slog.New(slog.NewJSONHandler(&log, nil))})
	forged := []string{"X-Forwarded-For", "X-Real-Ip", "Forwarded", "True-Client-Ip", "Cf-Connecting-Ip"}
	status := map[int]int{}
	for i, field := range forged {
		value := fmt.Sprintf("198.51.100.%d", i+1)
		if field == "Forwarded" {
			value = "for=" + value
		}
		status[call(t, request(t, "POST", url+"/v1/assessments", "{}", field, value)).StatusCode]++
	}
	assert.Equal(t, map[int]int{422: 1, 429: len(forged) - 1}, status)
	assert.NotContains(t, log.String(), "198.51.100")
	assert.Contains(t, log.String(), `"remote_ip":"127.0.0.1"`)
}

// Documentation addresses: RFC 3849 and RFC 5737.
func TestAHostPassesNoLimitWithAnotherAddressOfItsNetwork(t *testing.T) {
	t.Parallel()
	tests := []struct {
		name   string
		from   []string // addresses in turn
		status []int
	}{
		{"one IPv6 network", []string{"2001:db8:1:2::1", "2001:db8:1:2::2", "2001:db8:1:2:ffff:ffff:ffff:ffff"}, []int{422, 429, 429}},
		{"two IPv6 networks", []string{"2001:db8:1:2::1", "2001:db8:1:3::1", "2001:db8:1:2::9"}, []int{422, 422, 429}},
		{"two IPv4 addresses", []string{"192.0.2.1", "192.0.2.2", "192.0.2.1"}, []int{422, 422, 429}},
		{"IPv4 in IPv6", []string{"192.0.2.1", "::ffff:192.0.2.1", "::ffff:192.0.2.2"}, []int{422, 429, 422}},
		{"zones", []string{"fe80::1%eth0", "fe80::1%eth1", "fe80::2"}, []int{422, 429, 429}},
	}
	for _, tc := range tests {
		t.Run(tc.name, func(t *testing.T) {
			t.Parallel()
			s := newServer(t, Config{RateLimit: oneQuestion})
			var status []int
			for _, address := range tc.from {
				r := request(t, "POST", "/v1/assessments", "{}")
				r.RemoteAddr = net.JoinHostPort(address, "4000")
				w := httptest.NewRecorder()
				s.ServeHTTP(w, r)
				status = append(status, w.Code)
			}
			assert.Equal(t, tc.status, status)
		})
	}
}

// One IPv6 network cannot take the room of those who come later.
func TestOneNetworkDoesNotFillTheTableOfCallers(t *testing.T) {
	t.Parallel()
	a := newAllowances(oneQuestion, func() time.Time { return time.Unix(0, 0) })
	for i := range mostCallers + 1 {
		a.take(network(fmt.Sprintf("2001:db8:1:2:%x:%x::", i>>8, i&0xff)), 1)
	}
	assert.Len(t, a.of, 1)
	assert.True(t, a.take(network("2001:db8:1:3::1"), 1).granted)
	assert.Equal(t, "no address", network("no address"))
}

func TestEachHolderOfAKeyHasAnAllowanceAndGuessersHaveTheirs(t *testing.T) {
	t.Parallel()
	keys, key := newKeys(t, "a")
	_, line, err := NewKey("b")
	require.NoError(t, err)
	require.NoError(t, keys.add(line))
	_, url := serve(t, Config{RateLimit: oneQuestion, Keys: keys})
	ask := func(key string) int {
		return call(t, request(t, "POST", url+"/v1/assessments", "{}", "X-Api-Key", key)).StatusCode
	}
	assert.Equal(t, 401, ask("guess"))
	assert.Equal(t, 429, ask("another guess"), "guesses are limited by address")
	assert.Equal(t, 422, ask(key), "which takes nothing from the holder of a key")
	assert.Equal(t, 429, ask(key))
}

// The bucket is held to the arithmetic of a token bucket with a clock that stands still unless moved.
func TestAllowancesComeBackWithTime(t *testing.T) {
	t.Parallel()
	now := time.Unix(0, 0)
	a := newAllowances(2.5, func() time.Time { return now })
	for left := 2; left >= 0; left-- {
		got := a.take("x", 1)
		assert.True(t, got.granted)
		assert.Equal(t, left, got.left)
	}
	got := a.take("x", 1)
	assert.False(t, got.granted)
	assert.Equal(t, 400*time.Millisecond, got.wait, "1 / 2.5 s")
	assert.Equal(t, 1200*time.Millisecond, got.refill, "3 / 2.5 s")
	assert.True(t, a.take("y", 1).granted, "another caller has its own")
	now = now.Add(400 * time.Millisecond)
	assert.True(t, a.take("x", 1).granted)
	assert.False(t, a.take("x", 1).granted)
	now = now.Add(time.Hour)
	assert.True(t, a.take("x", 99).granted, "more than a whole allowance takes all of it")
	assert.False(t, a.take("x", 1).granted)
	assert.Nil(t, newAllowances(0, time.Now), "0 is no limit")
}

func TestMadeUpCallersDoNotFillTheMemory(t *testing.T) {
	t.Parallel()
	now := time.Unix(0, 0)
	a := newAllowances(1, func() time.Time { return now })
	for i := range 3 * mostCallers {
		a.take(strconv.Itoa(i), 1)
	}
	assert.LessOrEqual(t, len(a.of), mostCallers)
	assert.False(t, a.take("late", 1).granted, "those beyond share one allowance, which is gone")
	now = now.Add(time.Minute)
	assert.True(t, a.take("later", 1).granted)
	assert.LessOrEqual(t, len(a.of), 1, "whole allowances are forgotten")
}

// A line of a screening is a question: the lines come as fast as the limit lets them, and none is refused.
func TestTheLinesOfAScreeningKeepToTheLimit(t *testing.T) {
	t.Parallel()
	const lines, perSecond = 7, 10
	_, url := serve(t, Config{RateLimit: perSecond})
	body := strings.Repeat("{}\n", lines+perSecond)
	start := time.Now()
	got := call(t, request(t, "POST", url+screeningsPath, body, "Content-Type", mediaNDJSON))
	require.Equal(t, 200, got.StatusCode, "%s", got.body)
	assert.Equal(t, lines+perSecond+1, bytes.Count(got.body, []byte{'\n'}), "each line has its answer, and the last line counts them")
	assert.GreaterOrEqual(t, time.Since(start), (lines-1)*time.Second/perSecond, "those beyond the allowance waited")
}
