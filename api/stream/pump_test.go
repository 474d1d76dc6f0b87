package stream

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"testing/iotest"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// echoing answers each line with its number and text, after a time that no one can foresee.
func echoing(workers int) *Pump[string] {
	return &Pump[string]{
		Workers: workers,
		Answer: func(line Line, out *bytes.Buffer, known *string) {
			time.Sleep(time.Duration(rand.IntN(1000)) * time.Microsecond)
			*known = string(line.Text)
			fmt.Fprintf(out, "%d %s\n", line.Number, line.Text)
		},
		Released: func(Line, *string) {},
	}
}

func TestAnswersKeepTheOrderOfTheLines(t *testing.T) {
	t.Parallel()
	const count = 2000
	for _, workers := range []int{1, 2, 7} {
		synctest.Test(t, func(t *testing.T) {
			var in, want, got bytes.Buffer
			for i := range count {
				fmt.Fprintf(&in, "text %d\n", i)
				fmt.Fprintf(&want, "%d text %d\n", i+1, i)
			}
			pump := echoing(workers)
			var released []string
			pump.Released = func(line Line, known *string) { released = append(released, *known) }
			require.NoError(t, pump.Run(t.Context(), NewLines(&in, 100), &got))
			assert.Equal(t, want.String(), got.String())
			assert.Len(t, released, count)
			assert.Equal(t, "text 1999", released[count-1])
		})
	}
}

func TestBlankLinesAreSkippedAndOthersAreLeft(t *testing.T) {
	t.Parallel()
	pump := echoing(2)
	var blank []int64
	pump.Skipped = func(line Line) { blank = append(blank, line.Number) }
	pump.Take = func(number int64) bool { return number != 4 }
	var got bytes.Buffer
	require.NoError(t, pump.Run(t.Context(), NewLines(strings.NewReader("a\n\n \t\r\nnot this\nb"), 100), &got))
	assert.Equal(t, "1 a\n5 b\n", got.String())
	assert.Equal(t, []int64{2, 3}, blank)
}

// counting counts the lines that were taken from it.
type countingReader struct {
	lines atomic.Int64
	line  string
}

func (r *countingReader) Read(p []byte) (int, error) {
	r.lines.Add(1)
	return copy(p, r.line), nil
}

// gate is an output that takes nothing until it is opened.
type gate struct {
	opened chan struct{}
	bytes.Buffer
}

func (g *gate) Write(p []byte) (int, error) {
	<-g.opened
	return g.Buffer.Write(p)
}

func TestASlowReaderOfAnswersStopsTheReadingOfLines(t *testing.T) {
	t.Parallel()
	const workers = 2
	for _, line := range []string{"x\n", strings.Repeat("x", 60_000) + "\n"} {
		synctest.Test(t, func(t *testing.T) {
			ctx, stop := context.WithCancel(t.Context())
			in, out := &countingReader{line: line}, &gate{opened: make(chan struct{})}
			ended := make(chan error, 1)
			go func() { ended <- echoing(workers).Run(ctx, NewLines(in, 1<<20), out) }()
			time.Sleep(time.Hour)
			synctest.Wait()
			held := in.lines.Load()
			room := keptBytes/(len(line)+2) + 1 // what the output buffer has taken over
			assert.LessOrEqual(t, held, int64(workers*linesPerWorker+room+2), "no more lines are read than can be held")
			stop()
			close(out.opened)
			require.ErrorIs(t, <-ended, context.Canceled)
			assert.Positive(t, out.Len(), "what was in hand is released")
		})
	}
}

func TestLargeLinesAreHeldInSmallNumber(t *testing.T) {
	t.Parallel()
	synctest.Test(t, func(t *testing.T) {
		const long = heldBytes / 3
		in := repeated(strings.Repeat("x", long-1) + "\n")
		var held, most atomic.Int64
		pump := &Pump[int]{
			Workers: 8,
			Answer: func(Line, *bytes.Buffer, *int) {
				most.Store(max(most.Load(), held.Add(1)))
				time.Sleep(time.Second)
				held.Add(-1)
			},
			Released: func(Line, *int) {},
		}
		ctx, stop := context.WithTimeout(t.Context(), 20*time.Second)
		defer stop()
		require.ErrorIs(t, pump.Run(ctx, NewLines(in, long), io.Discard), context.DeadlineExceeded)
		assert.Equal(t, int64(3), most.Load())
	})
}

func TestALineLargerThanTheAllowanceIsAnswered(t *testing.T) {
	t.Parallel()
	pump := echoing(2)
	text := strings.Repeat("x", 2*heldBytes)
	var got bytes.Buffer
	require.NoError(t, pump.Run(t.Context(), NewLines(strings.NewReader(text+"\n"+text), 2*heldBytes), &got))
	assert.Equal(t, "1 "+text+"\n2 "+text+"\n", got.String())
}

func TestAStopReleasesWhatIsInHandAndLeavesAWaitingRead(t *testing.T) {
	t.Parallel()
	synctest.Test(t, func(t *testing.T) {
		ctx, stop := context.WithCancel(t.Context())
		in, client := io.Pipe()
		var got bytes.Buffer
		ended := make(chan error, 1)
		go func() { ended <- echoing(2).Run(ctx, NewLines(in, 100), &got) }()
		_, _ = io.WriteString(client, "a\nb\nc")
		synctest.Wait()
		stop()
		require.ErrorIs(t, <-ended, context.Canceled)
		assert.Equal(t, "1 a\n2 b\n", got.String(), "the line that was cut is not answered")
		_ = client.Close() // the read that was left behind ends with its input
	})
}

func TestAStopInterruptsAWaitingReadWhereItCan(t *testing.T) {
	t.Parallel()
	synctest.Test(t, func(t *testing.T) {
		ctx, stop := context.WithCancel(t.Context())
		in, client := io.Pipe()
		pump := echoing(2)
		pump.Interrupt = func() { _ = client.CloseWithError(errors.New("interrupted")) }
		ended := make(chan error, 1)
		go func() { ended <- pump.Run(ctx, NewLines(in, 100), io.Discard) }()
		synctest.Wait()
		stop()
		require.ErrorContains(t, <-ended, "interrupted")
	}) // which fails where a goroutine is left
}

func TestAnOutputThatFailsEndsTheStream(t *testing.T) {
	t.Parallel()
	synctest.Test(t, func(t *testing.T) {
		in := &countingReader{line: "x\n"}
		err := echoing(2).Run(t.Context(), NewLines(in, 100), brokenPipe{})
		require.ErrorIs(t, err, ErrOutput)
		require.ErrorIs(t, err, io.ErrClosedPipe)
	})
}

type brokenPipe struct{}

func (brokenPipe) Write([]byte) (int, error) { return 0, io.ErrClosedPipe }

func TestAnInputThatFailsEndsTheStreamAfterWhatCame(t *testing.T) {
	t.Parallel()
	broken := errors.New("broken")
	var got bytes.Buffer
	in := io.MultiReader(strings.NewReader("a\nb"), iotest.ErrReader(broken))
	require.ErrorIs(t, echoing(2).Run(t.Context(), NewLines(in, 100), &got), broken)
	assert.Equal(t, "1 a\n", got.String())
}

// flushes is an output that notes what has gone out, and when.
type flushes struct {
	mu      sync.Mutex
	written bytes.Buffer
	out     []string
	at      []time.Duration
	start   time.Time
}

func (f *flushes) Write(p []byte) (int, error) { return f.written.Write(p) }

func (f *flushes) Flush() error {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.out, f.at = append(f.out, f.written.String()), append(f.at, time.Since(f.start))
	f.written.Reset()
	return nil
}

func TestAnAnswerGoesOutAtOnceWhereNothingElseIsInHand(t *testing.T) {
	t.Parallel()
	synctest.Test(t, func(t *testing.T) {
		in, client := io.Pipe()
		out := &flushes{start: time.Now()}
		pump := echoing(2)
		pump.Answer = func(line Line, out *bytes.Buffer, _ *string) { fmt.Fprintf(out, "%s\n", line.Text) }
		ended := make(chan error, 1)
		go func() { ended <- pump.Run(t.Context(), NewLines(in, 100), out) }()
		for _, text := range []string{"a", "b"} {
			_, _ = io.WriteString(client, text+"\n")
			synctest.Wait()
		}
		assert.Equal(t, []string{"a\n", "b\n"}, out.out)
		assert.Equal(t, []time.Duration{0, 0}, out.at)
		_ = client.Close()
		require.NoError(t, <-ended)
	})
}

func TestAnAnswerGoesOutSoonWhileOthersAreWorkedAt(t *testing.T) {
	t.Parallel()
	synctest.Test(t, func(t *testing.T) {
		out := &flushes{start: time.Now()}
		pump := echoing(1)
		pump.Answer = func(line Line, out *bytes.Buffer, _ *string) {
			if line.Number > 1 {
				time.Sleep(10 * time.Millisecond)
			}
			fmt.Fprintf(out, "%d ", line.Number)
		}
		require.NoError(t, pump.Run(t.Context(), NewLines(strings.NewReader(strings.Repeat("x\n", 16)), 100), out))
		assert.Equal(t, "1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 ", strings.Join(out.out, ""))
		assert.Equal(t, flushAfter, out.at[0])
		assert.LessOrEqual(t, len(out.at), 4, "answers go out together")
	})
}

func BenchmarkPump(b *testing.B) {
	pump := &Pump[int]{
		Workers: 2, Answer: func(line Line, out *bytes.Buffer, _ *int) { out.Write(line.Text) }, Released: func(Line, *int) {},
	}
	lines := NewLines(repeated(strings.Repeat("x", 4000)+"\n"), 1<<20)
	ctx, stop := context.WithCancel(b.Context())
	defer stop()
	answered := make(chan struct{})
	pump.Released = func(Line, *int) {
		select {
		case answered <- struct{}{}:
		case <-ctx.Done():
		}
	}
	go func() { _ = pump.Run(ctx, lines, io.Discard) }()
	b.ReportAllocs()
	for b.Loop() {
		<-answered
	}
}
