package api

import (
	"context"
	"errors"
	"sync"
	"sync/atomic"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestAJobIsDoneAndItsErrorHandedOn(t *testing.T) {
	t.Parallel()
	l, odd := newLoad(1, time.Minute), errors.New("odd")
	var done bool
	require.NoError(t, l.compute(t.Context(), func() error { done = true; return nil }))
	assert.True(t, done)
	assert.ErrorIs(t, l.compute(t.Context(), func() error { return odd }), odd)
	gone, cancel := context.WithCancel(t.Context())
	cancel()
	l.computing <- struct{}{} // the turn of somebody else
	err := l.compute(gone, func() error { t.Error("done for a caller who has gone"); return nil })
	assert.ErrorIs(t, err, context.Canceled)
}

func TestAPanicIsAnErrorAndGivesTheTurnBack(t *testing.T) {
	t.Parallel()
	l := newLoad(1, time.Minute)
	for range 3 {
		err := l.compute(t.Context(), func() error { panic("it broke") })
		require.ErrorContains(t, err, "panic: it broke")
		assert.ErrorContains(t, err, "compute_test.go", "and says where")
	}
	assert.NoError(t, l.compute(t.Context(), func() error { return nil }))
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
		for range callers {
			group.Go(func() {
				assert.NoError(t, l.compute(t.Context(), func() error {
					defer now.Add(-1)
					for n := now.Add(1); n > peak.Load(); {
						peak.Store(n)
					}
					time.Sleep(time.Second)
					done.Add(1)
					return nil
				}))
			})
		}
		group.Wait()
		assert.EqualValues(t, callers, done.Load())
		assert.EqualValues(t, most, peak.Load())
		time.Sleep(2 * idleWorker)
	})
}
