package api

import (
	"context"
	"fmt"
	"runtime"
	"runtime/debug"
	"time"
)

// idleWorker is how long a goroutine that computes waits for more to do before it ends. Own choice.
const idleWorker = 10 * time.Second

// task is something to compute, and where its end is told.
type task struct {
	job  func() error
	done chan error
}

// compute does a job when its turn has come, and waits for its end. The error is that of begin or the job's.
// The job runs on a goroutine that has done others before. An answer needs some ten times the stack that a
// connection does: grown on each of hundreds of connections, and anew after each collection of garbage,
// that takes more memory than all else, and time to copy it. Before it goes on, the caller lets those run
// that have waited longer: goroutines that wake each other in turns would else pass them by, and the slowest
// answers take three times as long.
func (l *load) compute(ctx context.Context, job func() error) error {
	end, err := l.begin(ctx)
	if err != nil {
		return err
	}
	defer end()
	runtime.Gosched()
	t := task{job: job, done: make(chan error, 1)}
	select {
	case l.tasks <- t:
	default:
		go l.work(t)
	}
	return <-t.done
}

// work does a task and those that follow while there are any. No more than compute at once are busy.
func (l *load) work(t task) {
	idle := time.NewTimer(idleWorker)
	defer idle.Stop()
	for {
		t.done <- t.attempt()
		idle.Reset(idleWorker)
		select {
		case t = <-l.tasks:
		case <-idle.C:
			return
		}
	}
}

// attempt does the job. A panic is an error like any other.
func (t task) attempt() (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("panic: %v\n%s", r, debug.Stack())
		}
	}()
	return t.job()
}
