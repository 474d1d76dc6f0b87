package api

import (
	"context"
	"errors"
	"fmt"
	"runtime"
	"runtime/debug"
	"time"
)

// idleWorker is how long a goroutine that computes waits for more to do before it ends. Own choice.
const idleWorker = 10 * time.Second

// task is something to compute, and where its outcome is told.
type task struct {
	job  func() (Reply, error)
	done chan outcome
}

// outcome is what became of a task.
type outcome struct {
	reply Reply
	err   error
}

// compute does a job when its turn has come, and waits for its end or that of ctx. The error is a *Problem
// where there is no turn, or no room for one answer more beside those that their callers have not taken yet;
// that of ctx; or the job's. What the answer takes is added to a hold.
//
// The job runs on a goroutine that has done others before. An answer needs some ten times the stack that a
// connection does: grown on each of hundreds of connections, and anew after each collection of garbage,
// that takes more memory than all else, and time to copy it. Before it goes on, the caller lets those run
// that have waited longer: goroutines that wake each other in turns would else pass them by, and the slowest
// answers take three times as long.
func (l *load) compute(ctx context.Context, answer *hold, job func() (Reply, error)) (Reply, error) {
	if err := l.begin(ctx); err != nil {
		return Reply{}, err
	}
	runtime.Gosched()
	err := ctx.Err()
	if err == nil {
		err = answer.grow(usualAnswer)
	}
	if err != nil {
		l.end()
		return Reply{}, err
	}
	t := task{job: job, done: make(chan outcome, 1)}
	select {
	case l.tasks <- t:
	default:
		go l.work(t)
	}
	select {
	case o := <-t.done:
		return o.held(answer)
	case <-ctx.Done():
		return Reply{}, ctx.Err() // the task keeps its turn until it ends
	}
}

// held accounts for an answer that is larger than is usual.
func (o outcome) held(answer *hold) (Reply, error) {
	if more := int64(len(o.reply.Body)) - usualAnswer; o.err == nil && more > 0 {
		if err := answer.grow(more); err != nil {
			o.reply.release()
			return Reply{}, err
		}
	}
	return o.reply, o.err
}

// work does a task and those that follow while there are any. No more than compute at once are busy.
func (l *load) work(t task) {
	idle := time.NewTimer(idleWorker)
	defer idle.Stop()
	for {
		l.do(t)
		idle.Reset(idleWorker)
		select {
		case t = <-l.tasks:
		case <-idle.C:
			return
		}
	}
}

// do does a task, gives its turn back and tells its outcome. A panic is an error like any other, and so is
// the end of the goroutine.
func (l *load) do(t task) {
	o := outcome{err: errors.New("the computation ended without an outcome")}
	defer func() {
		if r := recover(); r != nil {
			o = outcome{err: fmt.Errorf("panic: %v\n%s", r, debug.Stack())}
		}
		l.end()
		t.done <- o
	}()
	o.reply, o.err = t.job()
}
