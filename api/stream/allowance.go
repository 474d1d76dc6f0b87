package stream

import (
	"context"
	"sync"
)

// allowance bounds the bytes that are held at a time. One taker waits; any number may give back.
type allowance struct {
	most  int
	given chan struct{} // says that something was given back

	mu   sync.Mutex
	held int
}

func newAllowance(most int) *allowance {
	return &allowance{most: most, given: make(chan struct{}, 1)}
}

// take waits until so many bytes more may be held, or until ctx ends. Where nothing is held, any
// number may be.
func (a *allowance) take(ctx context.Context, n int) error {
	for !a.tryTake(n) {
		select {
		case <-a.given:
		case <-ctx.Done():
			return ctx.Err()
		}
	}
	return nil
}

func (a *allowance) tryTake(n int) bool {
	a.mu.Lock()
	defer a.mu.Unlock()
	if a.held > 0 && a.held+n > a.most {
		return false
	}
	a.held += n
	return true
}

// give returns bytes that are no longer held.
func (a *allowance) give(n int) {
	a.mu.Lock()
	a.held -= n
	a.mu.Unlock()
	select {
	case a.given <- struct{}{}:
	default:
	}
}
