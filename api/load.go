package api

import (
	"context"
	"io"
	"runtime"
	"sync/atomic"
	"time"
)

// Bounds of the load. Own choices: computing takes the processors and no more; as many questions wait
// as some tens of megabytes hold; bodies in hand, and answers that have not been taken yet, each have a
// bounded part of the memory, however many callers there are. Bodies up to smallBody, as nearly all are,
// have a part of their own, so that large ones that come slowly are not in their way.
const (
	mostWaiting     = 1024
	smallBody       = 64 << 10
	mostSmallBytes  = 8 << 20
	mostBodyBytes   = 32 << 20
	mostAnswerBytes = 32 << 20
)

// load is the work in hand. It sheds what is too much before the memory grows.
type load struct {
	computing chan struct{}
	tasks     chan task     // taken by the goroutines that compute and have nothing to do
	patience  time.Duration // the longest wait for a turn to compute
	waiting   atomic.Int64
	small     *share // for bodies up to smallBody
	bodies    *share // for larger ones
	answers   *share
}

// body is the hold of a body that is about to be read.
func (l *load) body(caller string) hold { return hold{share: l.small, large: l.bodies, caller: caller} }

// answer is the hold of an answer that is about to be computed.
func (l *load) answer(caller string) hold { return hold{share: l.answers, caller: caller} }

// newLoad makes an idle load that computes so many answers at once; one for each processor where 0, as
// computing waits for nothing. A question waits for half the time of a request at most, so that one
// that gets its turn has time left to be answered in: a caller who asks again and again over many
// connections is served late rather than sent away, and what comes faster than it can be answered is shed.
func newLoad(computations int, timeout time.Duration) *load {
	if computations <= 0 {
		computations = runtime.GOMAXPROCS(0)
	}
	return &load{
		computing: make(chan struct{}, computations), tasks: make(chan task), patience: timeout / 2,
		small: newShare(mostSmallBytes), bodies: newShare(mostBodyBytes), answers: newShare(mostAnswerBytes),
	}
}

// begin waits for a turn to compute, which end gives back. The error is a *Problem where the
// queue is full or the wait was long, and the context's where the caller has gone.
func (l *load) begin(ctx context.Context) error {
	select {
	case l.computing <- struct{}{}:
		return nil
	default:
	}
	if l.waiting.Add(1) > mostWaiting {
		l.waiting.Add(-1)
		return overloaded()
	}
	defer l.waiting.Add(-1)
	patience := time.NewTimer(l.patience)
	defer patience.Stop()
	select {
	case l.computing <- struct{}{}:
		return nil
	case <-patience.C:
		return overloaded()
	case <-ctx.Done():
		return ctx.Err()
	}
}

func (l *load) end() { <-l.computing }

// overloaded is the problem of a service that has more to do than it can.
func overloaded() *Problem {
	return unavailable.problem("The service has more questions in hand than it can answer soon. Wait as long as the Retry-After header says, then send the request again.")
}

// read reads a body to its end. Memory is taken as bytes arrive, never for what a header promises,
// so a slow caller holds no more than it has sent.
func (h *hold) read(body io.Reader, promised int64) ([]byte, error) {
	const first = 4 << 10
	size := int64(first)
	if promised >= 0 && promised < first {
		size = promised + 1 // one more, so that the end is seen without growing
	}
	if err := h.grow(size); err != nil {
		return nil, err
	}
	buffer := make([]byte, 0, size)
	for {
		n, err := body.Read(buffer[len(buffer):cap(buffer)])
		buffer = buffer[:len(buffer)+n]
		if err == io.EOF {
			return buffer, nil
		}
		if err != nil {
			return nil, err
		}
		if len(buffer) == cap(buffer) {
			if err := h.grow(int64(cap(buffer))); err != nil {
				return nil, err
			}
			larger := make([]byte, len(buffer), 2*cap(buffer))
			copy(larger, buffer)
			buffer = larger
		}
	}
}
