package api

import (
	"context"
	"errors"
	"runtime"
	"strconv"
	"sync"
	"sync/atomic"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// none is the hold of a request that has taken nothing.
func none(l *load) *hold { return new(l.answer("x")) }

func nothing() (Reply, error) { return Reply{}, nil }

func TestAJobIsDoneAndItsErrorHandedOn(t *testing.T) {
	t.Parallel()
	l, odd := newLoad(1, time.Minute), errors.New("odd")
	reply, err := l.compute(t.Context(), none(l), func() (Reply, error) { return Reply{Form: "done"}, nil })
	require.NoError(t, err)
	assert.Equal(t, "done", reply.Form)
	_, err = l.compute(t.Context(), none(l), func() (Reply, error) { return Reply{}, odd })
	assert.ErrorIs(t, err, odd)
	gone, cancel := context.WithCancel(t.Context())
	cancel()
	l.computing <- struct{}{} // the turn of somebody else
	_, err = l.compute(gone, none(l), func() (Reply, error) { t.Error("done for a caller who has gone"); return nothing() })
	assert.ErrorIs(t, err, context.Canceled)
	<-l.computing
	_, err = l.compute(gone, none(l), func() (Reply, error) { t.Error("done for a caller who has gone"); return nothing() })
	assert.ErrorIs(t, err, context.Canceled)
	assert.Empty(t, l.computing)
}

func TestAPanicIsAnErrorAndGivesTheTurnBack(t *testing.T) {
	t.Parallel()
	l := newLoad(1, time.Minute)
	for range 3 {
		_, err := l.compute(t.Context(), none(l), func() (Reply, error) { panic("it broke") })
		require.ErrorContains(t, err, "panic: it broke")
		assert.ErrorContains(t, err, "compute_test.go", "and says where")
		_, err = l.compute(t.Context(), none(l), func() (Reply, error) { runtime.Goexit(); return nothing() })
		require.Error(t, err)
	}
	_, err := l.compute(t.Context(), none(l), nothing)
	assert.NoError(t, err)
	assert.Empty(t, l.computing)
}

// A caller whose time is over hears so at once. The computation keeps its turn, so that no more run than may.
func TestACallerIsNotKeptBeyondItsTime(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		l := newLoad(1, time.Minute)
		ctx, cancel := context.WithTimeout(t.Context(), time.Second)
		defer cancel()
		start := time.Now()
		_, err := l.compute(ctx, none(l), func() (Reply, error) { time.Sleep(time.Hour); return nothing() })
		require.ErrorIs(t, err, context.DeadlineExceeded)
		assert.Equal(t, time.Second, time.Since(start))
		assert.Len(t, l.computing, 1)
		time.Sleep(2 * time.Hour)
		assert.Empty(t, l.computing)
	})
}

// Answers that their callers do not take are held in memory: a caller with too many gets none beside them,
// others do.
func TestAnswersThatAreNotTakenAreBounded(t *testing.T) {
	t.Parallel()
	l := newLoad(1, time.Minute)
	large := func() (Reply, error) { return Reply{Body: make([]byte, 1<<20)}, nil }
	var p *Problem
	for n := 1; ; n++ {
		_, err := l.compute(t.Context(), none(l), large)
		if errors.As(err, &p) {
			assert.Equal(t, 503, p.Status)
			assert.InDelta(t, mostAnswerBytes/2/(1<<20), n, 1)
			break
		}
		require.NoError(t, err)
		require.LessOrEqual(t, n, mostAnswerBytes>>20, "more than there is memory for")
	}
	other := l.answer("y")
	_, err := l.compute(t.Context(), &other, large)
	require.NoError(t, err)
	assert.EqualValues(t, 1<<20, other.held)
	other.release()
	assert.Empty(t, l.computing)
}

// However many ask, no more are computed at once than may be. A goroutine that computes and never ends
// would fail the bubble.
func TestNoMoreAreComputedAtOnceThanMayBeAndTheGoroutinesEnd(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		const most, callers = 2, 100
		l := newLoad(most, time.Hour)
		var now, peak, done atomic.Int64
		var group sync.WaitGroup
		for caller := range callers {
			group.Go(func() {
				_, err := l.compute(t.Context(), new(l.answer(strconv.Itoa(caller))), func() (Reply, error) {
					defer now.Add(-1)
					for n := now.Add(1); n > peak.Load(); {
						peak.Store(n)
					}
					time.Sleep(time.Second)
					done.Add(1)
					return nothing()
				})
				assert.NoError(t, err)
			})
		}
		group.Wait()
		assert.EqualValues(t, callers, done.Load())
		assert.EqualValues(t, most, peak.Load())
		time.Sleep(2 * idleWorker)
	})
}
