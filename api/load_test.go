package api

import (
	"bytes"
	"context"
	"errors"
	"io"
	"strings"
	"testing"
	"testing/iotest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestNoMoreIsComputedAtOnceThanTheBound(t *testing.T) {
	t.Parallel()
	l := newLoad(2, time.Minute)
	require.NoError(t, l.begin(t.Context()))
	require.NoError(t, l.begin(t.Context()))
	began := make(chan error)
	go func() { began <- l.begin(context.Background()) }()
	require.Eventually(t, func() bool { return l.waiting.Load() == 1 }, time.Minute, time.Millisecond)
	l.end()
	require.NoError(t, <-began)
	l.end()
	assert.Zero(t, l.waiting.Load())
	assert.Len(t, l.computing, 1)
}

func TestAFullQueueShedsAtOnceAndALongWaitEnds(t *testing.T) {
	t.Parallel()
	const patience = 200 * time.Millisecond
	l := newLoad(1, 2*patience)
	require.NoError(t, l.begin(t.Context()))
	start := time.Now()
	err := l.begin(t.Context())
	var p *Problem
	require.ErrorAs(t, err, &p)
	assert.Equal(t, 503, p.Status)
	assert.Equal(t, "1", p.header["Retry-After"])
	assert.GreaterOrEqual(t, time.Since(start), patience)
	l.waiting.Store(mostWaiting)
	l.patience = time.Hour
	err = l.begin(t.Context())
	require.ErrorAs(t, err, &p, "one too many does not wait")
	assert.EqualValues(t, mostWaiting, l.waiting.Load())
	l.waiting.Store(0)
	gone, cancel := context.WithCancel(t.Context())
	cancel()
	err = l.begin(gone)
	assert.ErrorIs(t, err, context.Canceled)
}

func TestBodiesAreReadWholeAndAccountedFor(t *testing.T) {
	t.Parallel()
	for _, size := range []int{0, 1, 4095, 4096, 4097, 100_000} {
		text := strings.Repeat("x", size)
		for _, promised := range []int64{-1, 0, int64(size), 1 << 40} {
			l := newLoad(1, time.Minute)
			h := l.body("x")
			got, err := h.read(iotest.DataErrReader(strings.NewReader(text)), promised)
			require.NoError(t, err)
			assert.True(t, bytes.Equal([]byte(text), got))
			held := l.small.inHand() + l.bodies.inHand()
			assert.GreaterOrEqual(t, held, int64(size))
			assert.LessOrEqual(t, held, int64(4*size+8192), "no more than was sent, within a small factor")
			h.release()
			assert.Zero(t, l.small.inHand()+l.bodies.inHand())
		}
	}
}

func TestABodyBeyondTheBoundOfAllBodiesIsShed(t *testing.T) {
	t.Parallel()
	l := newLoad(1, time.Minute)
	require.True(t, l.bodies.take("y", mostBodyBytes/2))
	require.True(t, l.bodies.take("x", mostBodyBytes/4-10_000))
	h := l.body("x")
	_, err := h.read(io.LimitReader(zeros{}, 1<<20), -1)
	var p *Problem
	require.ErrorAs(t, err, &p)
	assert.Equal(t, 503, p.Status)
	h.release()
	assert.EqualValues(t, mostBodyBytes/4*3-10_000, l.bodies.inHand())
	broken := l.body("x")
	_, err = broken.read(iotest.ErrReader(io.ErrUnexpectedEOF), -1)
	assert.ErrorIs(t, err, io.ErrUnexpectedEOF)
}

// Large bodies that come slowly take no room from small ones, even those of the same caller.
func TestLargeBodiesLeaveRoomForSmallOnes(t *testing.T) {
	t.Parallel()
	l := newLoad(1, time.Minute)
	var stalled []hold
	for full := false; !full; {
		h := l.body("x")
		_, err := h.read(io.MultiReader(io.LimitReader(zeros{}, 1<<20), iotest.ErrReader(io.ErrUnexpectedEOF)), 2<<20)
		full = !errors.Is(err, io.ErrUnexpectedEOF)
		stalled = append(stalled, h)
		require.Less(t, len(stalled), 100)
	}
	assert.Greater(t, len(stalled), 5)
	h := l.body("x")
	_, err := h.read(io.LimitReader(zeros{}, 60<<10), 60<<10)
	assert.NoError(t, err)
	other := l.body("y")
	_, err = other.read(io.LimitReader(zeros{}, 1<<20), 1<<20)
	assert.NoError(t, err, "nor all from large ones of others")
	for i := range stalled {
		stalled[i].release()
	}
	h.release()
	other.release()
	assert.Zero(t, l.small.inHand()+l.bodies.inHand())
}

// zeros never ends.
type zeros struct{}

func (zeros) Read(p []byte) (int, error) { return len(p), nil }

// What a request held is given back when it has been answered, whatever the answer was.
func TestNothingIsHeldAfterTheAnswers(t *testing.T) {
	t.Parallel()
	s, url := serve(t, Config{Computations: 1})
	good := string(sample(t, levee))
	for _, body := range []string{good, "{", "{}", "[]"} {
		call(t, request(t, "POST", url+"/v1/assessments", body))
	}
	assert.Zero(t, s.load.small.inHand()+s.load.bodies.inHand())
	assert.Zero(t, s.load.answers.inHand())
	assert.Empty(t, s.load.computing)
}

// Whatever computes waits for its turn.
func TestAllThatIsComputedTakesATurn(t *testing.T) {
	t.Parallel()
	s, url := serve(t, Config{Computations: 1})
	s.load.patience = 50 * time.Millisecond
	values, err := formOf(t, s).Fill(sample(t, levee))
	require.NoError(t, err)
	typed, mediaType := posted(t, values)
	s.load.computing <- struct{}{}
	for path, body := range map[string]string{
		"/v1/assessments":     string(sample(t, levee)),
		"/v1/takeoff-weights": string(sample(t, levee)),
		"/v1/spray-hours":     `{"mission":` + string(sample(t, levee)) + `,"hours":[]}`,
		"/v1/comparisons":     `{"mission":` + string(sample(t, levee)) + `,"set_ups":[]}`,
	} {
		got := call(t, request(t, "POST", url+path, body))
		assert.Equal(t, 503, got.StatusCode, "%s: %s", path, got.body)
		assert.Equal(t, "1", got.Header.Get("Retry-After"), path)
	}
	shed := page(t, s, typed, mediaType)
	assert.Equal(t, 503, shed.Code, "%s", shed.Body)
	<-s.load.computing
	assert.Equal(t, 200, page(t, s, typed, mediaType).Code)
}

func TestACallerIsToldToLeaveAServiceThatStops(t *testing.T) {
	t.Parallel()
	s, url := serve(t, Config{})
	s.Drain()
	got := call(t, request(t, "POST", url+"/v1/assessments", string(sample(t, levee))))
	assert.Equal(t, 200, got.StatusCode, "requests are still answered")
	assert.True(t, got.Close)
}
