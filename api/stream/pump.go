package stream

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"sync"
	"time"
)

// Pump answers the lines of a stream with several workers. T is what the caller wants to know of
// an answer beside its text, such as a verdict to count.
type Pump[T any] struct {
	// Workers is how many lines are answered at a time; at least 1.
	Workers int
	// Answer answers one line: what it writes to out is released as it is, and known is for
	// Released. Several lines are answered at once. The text of the line is gone when it returns.
	Answer func(line Line, out *bytes.Buffer, known *T)
	// Released is told of every answer when it is written, in the order of the lines, by one
	// goroutine at a time.
	Released func(line Line, known *T)
	// Skipped is told of every blank line, from the goroutine that reads; may be nil.
	Skipped func(line Line)
	// Take says whether a line is to be answered; every line where nil.
	Take func(number int64) bool
	// BeforeRead is called before each line is read; may be nil.
	BeforeRead func()
	// Interrupt makes a read that waits for input return, and those after it, with an error that is
	// then the error of Run. Where it is nil, a read that still waits when the stream is stopped is
	// left behind, and the input must not be used again.
	Interrupt func()
}

// Flusher is an output that holds back what is written until it is told to let it go.
type Flusher interface{ Flush() error }

// ErrOutput is the error of a stream whose answers cannot be written.
var ErrOutput = errors.New("the answers cannot be written")

// Bounds of what a pump holds. Own choices: some lines for each worker, so that a slow line holds
// up the others late; a few of the longest lines; and a delay that nobody notices.
const (
	linesPerWorker = 8
	heldBytes      = 4 << 20
	keptBytes      = 64 << 10
	flushAfter     = 50 * time.Millisecond
)

// job is a line on its way to its answer. A pump has a fixed number of them.
type job[T any] struct {
	line  Line
	out   bytes.Buffer
	known T
	done  chan struct{}
}

// pumping is one run of a pump.
type pumping[T any] struct {
	*Pump[T]
	free, work, order chan *job[T]
	held              *allowance
	over              chan struct{} // closed when no more answers are wanted
}

// Run answers lines until the input ends, ctx ends, or something cannot be read or written. When
// ctx ends it reads no more and releases what it has in hand. The error is ErrOutput where an
// answer could not be written, else that of the input, else that of ctx; nil says that every line
// has its answer written.
func (p *Pump[T]) Run(ctx context.Context, lines *Lines, out io.Writer) error {
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	window := p.Workers * linesPerWorker
	r := &pumping[T]{
		Pump: p, held: newAllowance(max(heldBytes, lines.most)), over: make(chan struct{}),
		free: make(chan *job[T], window), work: make(chan *job[T], window), order: make(chan *job[T], window),
	}
	for range window {
		r.free <- &job[T]{done: make(chan struct{}, 1)}
	}
	var workers sync.WaitGroup
	for range p.Workers {
		workers.Go(r.answer)
	}
	read := make(chan error, 1)
	go func() {
		err := r.feed(ctx, lines)
		read <- err // before the order is closed, so that who sees it closed finds the error
		close(r.order)
	}()
	err := r.release(ctx, out)
	if err != nil {
		err = fmt.Errorf("%w: %w", ErrOutput, err)
	}
	stop()
	close(r.over)
	workers.Wait()
	readErr := r.ended(ctx, read)
	if err != nil {
		return err
	}
	return readErr
}

// ended waits for the reading to end, where it can be made to, and reports its error.
func (r *pumping[T]) ended(ctx context.Context, read <-chan error) error {
	if r.Interrupt == nil {
		select {
		case err := <-read:
			return err
		default: // it waits for input that may never come
			return ctx.Err()
		}
	}
	select {
	case err := <-read:
		return err
	default:
		r.Interrupt()
		return <-read
	}
}

// feed reads lines and hands them on. It stops at the end of the input and when ctx ends.
func (r *pumping[T]) feed(ctx context.Context, lines *Lines) error {
	for {
		var j *job[T]
		select {
		case j = <-r.free:
		case <-ctx.Done():
			return ctx.Err()
		}
		err := r.read(ctx, lines, &j.line)
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
		if err := r.held.take(ctx, len(j.line.Text)); err != nil {
			return err
		}
		r.order <- j
		r.work <- j
	}
}

// read reads the next line that is to be answered.
func (r *pumping[T]) read(ctx context.Context, lines *Lines, line *Line) error {
	for {
		if r.BeforeRead != nil {
			r.BeforeRead()
		}
		err := lines.Read(line)
		switch {
		case err != nil:
			return err // before that of ctx, which a server ends when a read fails
		case ctx.Err() != nil:
			return ctx.Err()
		case r.Take != nil && !r.Take(line.Number):
			continue
		case !line.Blank():
			return nil
		case r.Skipped != nil:
			r.Skipped(*line)
		}
	}
}

// answer is one worker.
func (r *pumping[T]) answer() {
	for {
		select {
		case j := <-r.work:
			r.Answer(j.line, &j.out, &j.known)
			j.done <- struct{}{}
		case <-r.over:
			return
		}
	}
}

// release writes the answers in the order of their lines. What was written goes out when there is
// nothing more in hand, and soon in any case.
func (r *pumping[T]) release(ctx context.Context, out io.Writer) error {
	w := newFlushing(out)
	for {
		j, err := r.next(ctx, w)
		if err != nil {
			return err
		}
		if j == nil {
			return w.flush()
		}
		if err := w.wait(j.done); err != nil {
			return err
		}
		if err := w.write(j.out.Bytes()); err != nil {
			return err
		}
		r.Released(j.line, &j.known)
		r.recycle(j)
	}
}

// next is the next line in order; nil where no more will come.
func (r *pumping[T]) next(ctx context.Context, w *flushing) (*job[T], error) {
	select {
	case j := <-r.order:
		return j, nil
	default:
	}
	if err := w.flush(); err != nil {
		return nil, err
	}
	select {
	case j := <-r.order:
		return j, nil
	case <-ctx.Done():
	}
	select { // reading has stopped; only what is in hand is released
	case j := <-r.order:
		return j, nil
	default:
		return nil, nil
	}
}

// recycle makes a job ready for another line. A large buffer is not kept for a small line.
func (r *pumping[T]) recycle(j *job[T]) {
	r.held.give(len(j.line.Text))
	if cap(j.line.Text) > keptBytes {
		j.line.Text = nil
	}
	if j.out.Reset(); j.out.Cap() > keptBytes {
		j.out = bytes.Buffer{}
	}
	r.free <- j
}

// flushing is an output that is flushed when there is time for it, and soon in any case.
type flushing struct {
	out   *bufio.Writer
	under io.Writer
	timer *time.Timer // runs while something written has not gone out
	dirty bool
}

func newFlushing(out io.Writer) *flushing {
	timer := time.NewTimer(flushAfter)
	timer.Stop()
	return &flushing{out: bufio.NewWriterSize(out, keptBytes), under: out, timer: timer}
}

// wait waits until an answer is ready; what was written before goes out meanwhile.
func (f *flushing) wait(ready <-chan struct{}) error {
	select {
	case <-ready:
		return nil
	case <-f.timer.C:
	}
	if err := f.flush(); err != nil {
		return err
	}
	<-ready
	return nil
}

func (f *flushing) write(text []byte) error {
	if _, err := f.out.Write(text); err != nil {
		return err
	}
	select {
	case <-f.timer.C:
		return f.flush()
	default:
	}
	if !f.dirty {
		f.dirty = true
		f.timer.Reset(flushAfter)
	}
	return nil
}

func (f *flushing) flush() error {
	if !f.dirty {
		return nil
	}
	f.dirty = false
	f.timer.Stop()
	if err := f.out.Flush(); err != nil {
		return err
	}
	if further, ok := f.under.(Flusher); ok {
		return further.Flush()
	}
	return nil
}
