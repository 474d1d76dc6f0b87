package main

import (
	"bufio"
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strconv"
	"strings"
	"syscall"
	"time"

	"tractcheck/api"
	"tractcheck/api/wire"
)

// screenSettings is how screen is set up.
type screenSettings struct {
	in, out string
	workers int
	maxLine int
	resume  bool
	shard   shard
}

const screenUsage = `usage: tractcheck screen [-in FILE] [-out FILE [-resume]] [-workers N] [-shard K/N | -shards N]

Answers one mission a line, in the order of the lines, with the lines that POST /v1/screenings would
send. The last line is a summary; answers without one were cut short.

exit status: 0 every line has its answer (that to a bad line is a problem), 1 stopped early or failed,
and what was written stands, 2 wrong use, or an output that cannot be gone on with

`

// screen answers the missions of a file or a pipe. Answers go to the output alone; how it goes on
// and what it came to are told on stderr.
func screen(ctx context.Context, args, environ []string, stdin io.Reader, stdout, stderr io.Writer) int {
	s, err := readScreenSettings(args, environ, stderr)
	if errors.Is(err, flag.ErrHelp) {
		return exitOK
	}
	if err != nil {
		complain(stderr, err)
		return exitUsage
	}
	desk, err := api.NewDesk(wire.Version())
	if err != nil {
		complain(stderr, err)
		return exitFailed
	}
	input, err := openInput(s.in, stdin)
	if err != nil {
		complain(stderr, err)
		return exitUsage
	}
	defer input.close()
	output, err := openOutput(s, stdout)
	if err != nil {
		complain(stderr, err)
		return exitUsage
	}
	screening := desk.NewScreening(api.ScreeningOptions{Workers: s.workers, MaxLine: s.maxLine, Take: s.shard.take()})
	run := &screenRun{screening: screening, lines: screening.Lines(input), input: input, output: output, stderr: stderr}
	if s.resume {
		if err := run.recall(s.shard.take()); err != nil {
			complain(stderr, errors.Join(err, output.close()))
			return exitUsage
		}
	}
	return run.answer(ctx)
}

func readScreenSettings(args, environ []string, stderr io.Writer) (screenSettings, error) {
	var s screenSettings
	var part string
	var parts int
	flags := flag.NewFlagSet("tractcheck screen", flag.ContinueOnError)
	flags.SetOutput(stderr)
	flags.Usage = func() {
		say(stderr, screenUsage)
		flags.PrintDefaults()
	}
	flags.StringVar(&s.in, "in", "-", "file of missions, one a line; - for standard input")
	flags.StringVar(&s.out, "out", "-", "file for the answers, which must not hold any yet; - for standard output; {shard} in its name stands for the number of the shard")
	flags.BoolVar(&s.resume, "resume", false, "go on after the answers that the output file holds, where it was cut short")
	flags.IntVar(&s.workers, "workers", 0, "lines answered at a time; 0 for one on each processor")
	flags.IntVar(&s.maxLine, "max-line", api.DefaultMaxBody, "the most bytes of a line; a longer one has a problem for its answer")
	flags.StringVar(&part, "shard", "", "K/N answers every Nth line only, K from 0 to N-1")
	flags.IntVar(&parts, "shards", 0, "N is -shard K/N with K from JOB_COMPLETION_INDEX, as an Indexed Job of Kubernetes sets it")
	if err := flags.Parse(args); err != nil {
		return s, err
	}
	var errs []error
	if flags.NArg() > 0 {
		errs = append(errs, fmt.Errorf("screen takes no arguments, but got %q; name the file with -in", flags.Args()))
	}
	const mostWorkers = 1024
	if s.workers < 0 || s.workers > mostWorkers {
		errs = append(errs, fmt.Errorf("-workers is %d; give a number from 0 to %d", s.workers, mostWorkers))
	}
	if s.maxLine < 1 {
		errs = append(errs, fmt.Errorf("-max-line is %d; give a whole number of bytes, at least 1", s.maxLine))
	}
	if s.resume && s.out == "-" {
		errs = append(errs, errors.New("-resume needs -out FILE: it reads what was written before"))
	}
	var err error
	if s.shard, err = readShard(part, parts, lookup(environ, "JOB_COMPLETION_INDEX")); err != nil {
		errs = append(errs, err)
	}
	s.out = strings.ReplaceAll(s.out, "{shard}", strconv.FormatInt(s.shard.index, 10))
	return s, errors.Join(errs...)
}

// screenRun is one run of screen.
type screenRun struct {
	screening *api.Screening
	lines     lineReader
	input     *screenInput
	output    *screenOutput
	stderr    io.Writer
	recalled  int64 // lines answered by an earlier run
}

// answer answers the lines that are left, writes the summary, and reports the exit status. A stop
// signal ends it after the lines in hand; a second one at once.
func (r *screenRun) answer(ctx context.Context) int {
	ctx, stop := signal.NotifyContext(ctx, syscall.SIGTERM, syscall.SIGINT)
	defer stop()
	defer context.AfterFunc(ctx, stop)()
	start := time.Now()
	endProgress := r.progress(start)
	err := r.screening.Run(ctx, r.lines, r.output)
	_, written := r.output.Write(r.screening.Summary(err))
	endProgress()
	wrong := errors.Join(err, written, r.output.close())
	say(r.stderr, told(r.screening.Counts(), r.recalled, time.Since(start), wrong == nil))
	if errors.Is(wrong, context.Canceled) {
		complain(r.stderr, "stopped before the end; with -out and -resume the same command goes on from here")
		return exitFailed
	}
	if wrong != nil {
		complain(r.stderr, wrong)
		return exitFailed
	}
	return exitOK
}

// screenInput is a file of missions or standard input.
type screenInput struct {
	io.Reader
	close func()
	size  int64 // 0 where it is not known
	read  counter
}

func openInput(name string, stdin io.Reader) (*screenInput, error) {
	if name == "-" {
		return &screenInput{Reader: stdin, close: func() {}}, nil
	}
	file, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	in := &screenInput{Reader: file, close: func() { _ = file.Close() }}
	if info, err := file.Stat(); err == nil && info.Mode().IsRegular() {
		in.size = info.Size()
	}
	return in, nil
}

// Read reads and counts, so that the progress can say how far it has come.
func (in *screenInput) Read(p []byte) (int, error) {
	n, err := in.Reader.Read(p)
	in.read.Add(int64(n))
	return n, err
}

// screenOutput is a file for answers or standard output.
type screenOutput struct {
	io.Writer
	file *os.File // nil for standard output
}

// openOutput opens the output. One that holds answers is left alone unless they are to be gone on
// with: they may be the work of hours.
func openOutput(s screenSettings, stdout io.Writer) (*screenOutput, error) {
	if s.out == "-" {
		return &screenOutput{Writer: stdout}, nil
	}
	file, err := os.OpenFile(s.out, os.O_RDWR|os.O_CREATE, 0o644)
	if err != nil {
		return nil, err
	}
	if err := admit(file, s.resume); err != nil {
		return nil, errors.Join(err, file.Close())
	}
	return &screenOutput{Writer: file, file: file}, nil
}

// admit reports why a file cannot be written to.
func admit(file *os.File, resume bool) error {
	info, err := file.Stat()
	if err != nil {
		return err
	}
	if !info.Mode().IsRegular() {
		if resume {
			return fmt.Errorf("%s is no file that can be read back; leave out -resume", file.Name())
		}
		return nil
	}
	if info.Size() > 0 && !resume {
		return fmt.Errorf("%s holds something already; go on with it by -resume, or remove it", file.Name())
	}
	if err := lock(file); err != nil {
		return fmt.Errorf("%s is being written by another process: %w", file.Name(), err)
	}
	return nil
}

// close makes sure that a file is written.
func (out *screenOutput) close() error {
	if out.file == nil {
		return nil
	}
	if info, err := out.file.Stat(); err == nil && info.Mode().IsRegular() {
		if err := out.file.Sync(); err != nil {
			return errors.Join(err, out.file.Close())
		}
	}
	return out.file.Close()
}

// reading is how much of an old output is read at once.
const reading = 64 << 10

// recall takes over the answers of the output file. Every one of them must belong to its line of
// the input, as it is now; a line that was torn off, and the summary, are dropped.
func (r *screenRun) recall(take func(int64) bool) error {
	old := bufio.NewReaderSize(r.output.file, reading)
	kept := int64(0)
	for {
		written, err := old.ReadBytes('\n')
		if errors.Is(err, io.EOF) {
			break // what stands after the last line feed was torn off
		}
		if err != nil {
			return err
		}
		if isSummary(written) {
			if _, err := old.ReadByte(); !errors.Is(err, io.EOF) {
				return r.cannotGoOn(errors.New("something stands after its summary"))
			}
			break
		}
		if err := r.recallLine(take, written); err != nil {
			return r.cannotGoOn(err)
		}
		kept += int64(len(written))
	}
	r.recalled = r.screening.Counts().Lines
	if err := r.output.file.Truncate(kept); err != nil {
		return err
	}
	_, err := r.output.file.Seek(kept, io.SeekStart)
	return err
}

func (r *screenRun) cannotGoOn(err error) error {
	return fmt.Errorf("cannot go on with %s: %w\nIt was left as it is. Give the input it was made from to the release that made it, or start anew with another output",
		r.output.file.Name(), err)
}
