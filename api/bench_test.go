package api

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"runtime/debug"
	"slices"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"github.com/go-playground/validator/v10"
	"github.com/labstack/echo/v4"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/api/wire"
)

// This file holds the whole service to a bare handler that does the least a JSON service can do with
// bodies of the same sizes: decode, validate, encode. Both stand behind the same kind of server and
// answer the same number of connections in turns, so the ratio holds on a busy machine as well.

// connections is how many callers ask at once.
const connections = 16

// usualGrowth is what a Go program lets its memory grow by, percent, where it says nothing. Each side runs
// as it would by itself.
const usualGrowth = 100

// bareHandler answers every request of the shape of an assessment with one fixed answer.
func bareHandler(t testing.TB, answer []byte) http.Handler {
	t.Helper()
	var fixed wire.Answer
	require.NoError(t, json.Unmarshal(answer, &fixed))
	rules := validator.New(validator.WithRequiredStructEnabled())
	e := echo.New()
	e.POST("/v1/assessments", func(c echo.Context) error {
		var request wire.Request
		if err := c.Bind(&request); err != nil {
			return err
		}
		if err := rules.Struct(&request); err != nil {
			return err
		}
		return c.JSON(http.StatusOK, &fixed)
	})
	return e
}

// side is one of the two services under load.
type side struct {
	t        testing.TB
	url      string
	client   *http.Client
	growth   int // of memory between collections of garbage, percent
	requests int
	busy     time.Duration
	computed time.Duration // on processors, the callers' share included
	times    []time.Duration
}

func newSide(t testing.TB, handler http.Handler, growth int) *side {
	t.Helper()
	server := httptest.NewServer(handler)
	t.Cleanup(server.Close)
	transport := &http.Transport{MaxIdleConnsPerHost: connections, MaxConnsPerHost: connections}
	t.Cleanup(transport.CloseIdleConnections)
	return &side{t: t, url: server.URL + "/v1/assessments", client: &http.Client{Transport: transport}, growth: growth}
}

// ask posts a body and reports the length of the answer.
func (s *side) ask(body []byte) (int, error) {
	response, err := s.client.Post(s.url, mediaJSON, bytes.NewReader(body))
	if err != nil {
		return 0, err
	}
	defer func() { _ = response.Body.Close() }()
	length, err := io.Copy(io.Discard, response.Body)
	if err == nil && response.StatusCode != http.StatusOK {
		err = fmt.Errorf("status %d", response.StatusCode)
	}
	return int(length), err
}

// round asks a number of times over all connections.
func (s *side) round(body []byte, requests int) error {
	defer debug.SetGCPercent(debug.SetGCPercent(s.growth))
	var group sync.WaitGroup
	var left atomic.Int64
	left.Store(int64(requests))
	times, failed := make([][]time.Duration, connections), make([]error, connections)
	start, before := time.Now(), computed(s.t)
	for caller := range connections {
		group.Go(func() {
			for left.Add(-1) >= 0 {
				asked := time.Now()
				if _, err := s.ask(body); err != nil {
					failed[caller] = err
					return
				}
				times[caller] = append(times[caller], time.Since(asked))
			}
		})
	}
	group.Wait()
	s.busy += time.Since(start)
	s.computed += computed(s.t) - before
	s.requests += requests
	s.times = append(s.times, slices.Concat(times...)...)
	for _, err := range failed {
		if err != nil {
			return err
		}
	}
	return nil
}

// rate is the requests answered in a second.
func (s *side) rate() float64 { return float64(s.requests) / s.busy.Seconds() }

// cost is the processor time of a request. Others who use the machine move it less than the rate.
func (s *side) cost() float64 {
	return float64(s.computed) / float64(s.requests) / float64(time.Millisecond)
}

// computed is the processor time that this process has had.
func computed(t testing.TB) time.Duration {
	t.Helper()
	var used syscall.Rusage
	require.NoError(t, syscall.Getrusage(syscall.RUSAGE_SELF, &used))
	return time.Duration(used.Utime.Nano() + used.Stime.Nano())
}

// p99 is the time within which 99 of 100 requests are answered, in milliseconds.
func (s *side) p99() float64 {
	slices.Sort(s.times)
	return float64(s.times[len(s.times)*99/100]) / float64(time.Millisecond)
}

// sides starts both services and has each answer once.
func sides(t testing.TB, body []byte) (whole, bare *side) {
	t.Helper()
	whole = newSide(t, newServer(t, Config{}), MemoryGrowth)
	desk, err := NewDesk("bench")
	require.NoError(t, err)
	reply, err := desk.Assess(body)
	require.NoError(t, err)
	bare = newSide(t, bareHandler(t, reply.Body), usualGrowth)
	for _, s := range []*side{whole, bare} {
		length, err := s.ask(body)
		require.NoError(t, err)
		assert.InDelta(t, len(reply.Body), length, 200, "both send answers of one size")
	}
	return whole, bare
}

// BenchmarkServiceBesideABareHandler reports what the service answers beside what a bare handler does.
func BenchmarkServiceBesideABareHandler(b *testing.B) {
	body := sample(b, levee)
	whole, bare := sides(b, body)
	for b.Loop() {
		for _, s := range []*side{whole, bare} {
			require.NoError(b, s.round(body, 10*connections))
		}
	}
	b.ReportMetric(whole.rate(), "req/s")
	b.ReportMetric(bare.rate(), "bare-req/s")
	b.ReportMetric(whole.rate()/bare.rate(), "ratio")
	b.ReportMetric(whole.cost(), "cpu-ms")
	b.ReportMetric(bare.cost(), "bare-cpu-ms")
	b.ReportMetric(bare.cost()/whole.cost(), "cpu-ratio")
	b.ReportMetric(whole.p99(), "p99-ms")
	b.ReportMetric(bare.p99(), "bare-p99-ms")
	b.ReportMetric(whole.p99()/bare.p99(), "p99-ratio")
}

// A loose guard, by processor time, which others on the machine move little: the benchmark above says what
// the ratio of the rates is.
func TestServiceKeepsUpWithABareHandler(t *testing.T) {
	if testing.Short() || raceDetector {
		t.Skip("a measurement")
	}
	body := sample(t, levee)
	whole, bare := sides(t, body)
	for range 5 {
		require.NoError(t, whole.round(body, 6*connections))
		require.NoError(t, bare.round(body, 6*connections))
	}
	t.Logf("%.0f of %.0f requests a second, p99 %.1f of %.1f ms, processor time %.2f of %.2f ms",
		whole.rate(), bare.rate(), whole.p99(), bare.p99(), whole.cost(), bare.cost())
	assert.GreaterOrEqual(t, bare.cost()/whole.cost(), 0.25)
}
