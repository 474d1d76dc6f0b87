package api

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"runtime"
	"runtime/debug"
	"slices"

	"tractcheck/api/stream"
	"tractcheck/api/wire"
	"tractcheck/feasibility"
	"tractcheck/feasibility/finding"
)

// Screening answers many missions, one a line, for HTTP and for the command line alike: both give
// the same lines. It is used for one stream.
type Screening struct {
	options ScreeningOptions
	desk    *Desk
	tally   tally
}

// ScreeningOptions is how a stream of missions is answered. The zero value uses the defaults named
// at each field.
type ScreeningOptions struct {
	// Workers is how many lines are answered at a time; one for each processor where 0.
	Workers int
	// MaxLine is the most bytes of a line; DefaultMaxBody where 0.
	MaxLine int
	// Take says whether a line is to be answered; every line where nil.
	Take func(number int64) bool

	before    func() // what stream.Pump calls BeforeRead
	interrupt func()
	slots     chan struct{} // bounds how many lines all screenings together work at
	assess    func(feasibility.Mission) (feasibility.Answer, error)
	answered  func(feasibility.Answer)
	failed    func(line int64, p *Problem)
}

// screened is what is known of a line's answer beside its text.
type screened struct {
	verdict feasibility.Verdict // empty where there is a problem
	codes   []finding.Code      // of the findings, each once, the gravest first
	stops   int                 // how many of the codes are of a stop
	needed  int                 // how many of the next are of something needed
}

// NewScreening makes a screening.
func (d *Desk) NewScreening(o ScreeningOptions) *Screening {
	if o.Workers == 0 {
		o.Workers = runtime.GOMAXPROCS(0)
	}
	if o.MaxLine == 0 {
		o.MaxLine = DefaultMaxBody
	}
	if o.assess == nil {
		o.assess = feasibility.Assess
	}
	return &Screening{options: o, desk: d}
}

// Lines reads lines of the length that the screening admits.
func (s *Screening) Lines(in io.Reader) *stream.Lines { return stream.NewLines(in, s.options.MaxLine) }

// Run answers lines until they end, in their order. When ctx ends it reads no more and answers what
// it has in hand. The errors are those of stream.Pump; none comes from a line: a bad one has a
// problem for its answer.
func (s *Screening) Run(ctx context.Context, lines *stream.Lines, out io.Writer) error {
	pump := stream.Pump[screened]{
		Workers: s.options.Workers, Answer: s.answer,
		Released:   func(_ stream.Line, known *screened) { s.tally.add(known) },
		Skipped:    func(stream.Line) { s.tally.skip() },
		Take:       s.options.Take,
		BeforeRead: s.options.before, Interrupt: s.options.interrupt,
	}
	return pump.Run(ctx, lines, out)
}

// Counts reports what was answered up to now. It may be called while the screening runs.
func (s *Screening) Counts() ScreeningCounts { return s.tally.counts() }

// lineAnswer is the answer to one line.
type lineAnswer struct {
	Line      int64               `json:"line"`
	Reference *string             `json:"reference,omitzero"`
	Answer    feasibility.Verdict `json:"answer"`
	Headline  string              `json:"headline"`
	Findings  []finding.Code      `json:"findings"`
	Stops     int                 `json:"stops"`
	Needed    int                 `json:"needed"`
	Digest    string              `json:"digest"`
}

// lineProblem says what is wrong with one line.
type lineProblem struct {
	Line    int64    `json:"line"`
	Problem *Problem `json:"problem"`
}

// answer answers one line; its problem is the answer to a bad one.
func (s *Screening) answer(line stream.Line, out *bytes.Buffer, known *screened) {
	if s.options.slots != nil {
		s.options.slots <- struct{}{}
		defer func() { <-s.options.slots }()
	}
	if known.codes == nil {
		known.codes = []finding.Code{} // lists are never null
	}
	*known = screened{codes: known.codes[:0]}
	err := s.tryAnswer(line, out, known)
	if err == nil {
		return
	}
	*known = screened{codes: known.codes[:0]}
	p := lineProblemOf(err)
	if s.options.failed != nil {
		s.options.failed(line.Number, p)
	}
	out.Reset()
	if encodeLine(out, lineProblem{line.Number, p}) != nil {
		// Only a fault's value could fail to encode; the problem is worth more than its faults.
		p.Faults = nil
		out.Reset()
		_ = encodeLine(out, lineProblem{line.Number, p})
	}
}

// tryAnswer answers a sound line. A panic is an error like any other: it ends one line, not all.
func (s *Screening) tryAnswer(line stream.Line, out *bytes.Buffer, known *screened) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("panic: %v\n%s", r, debug.Stack())
		}
	}()
	if line.Long {
		return lineTooLong(s.options.MaxLine)
	}
	request, mission, digest, faults := s.desk.reader.Read(wire.Assessments, line.Text)
	if len(faults) > 0 {
		return faultyLine(faults)
	}
	answer, err := s.options.assess(mission)
	if err != nil {
		return fmt.Errorf("assessing: %w", err)
	}
	if s.options.answered != nil {
		s.options.answered(answer)
	}
	known.learn(answer)
	return encodeLine(out, lineAnswer{
		Line: line.Number, Reference: request.Reference, Answer: answer.Verdict, Headline: answer.Headline,
		Findings: known.codes, Stops: known.stops, Needed: known.needed, Digest: digest,
	})
}

// learn keeps the verdict and the codes of an answer, whose findings come gravest first.
func (k *screened) learn(answer feasibility.Answer) {
	k.verdict = answer.Verdict
	for _, f := range answer.Findings {
		if slices.Contains(k.codes, f.Code) {
			continue
		}
		k.codes = append(k.codes, f.Code)
		switch f.Severity {
		case finding.Stop:
			k.stops++
		case finding.Needed:
			k.needed++
		}
	}
}

// encodeLine writes a value as JSON, with a line feed.
func encodeLine(out *bytes.Buffer, value any) error {
	encoder := json.NewEncoder(out)
	encoder.SetEscapeHTML(false)
	return encoder.Encode(value)
}

// faultyLine makes the problem of a line with faults.
func faultyLine(faults []wire.Fault) *Problem {
	p := faulty(faults)
	p.Detail = "What faults lists is wrong with this line. Mend it, each at its pointer, and send the line again."
	return p
}

// lineTooLong makes the problem of a line over the limit.
func lineTooLong(most int) *Problem {
	p := tooLarge(int64(most))
	p.Detail = "Send a line of " + p.Faults[0].Allowed + ". Geometry is mostly what is large: simplify it."
	p.Faults[0].Message = "The line is too long. Send " + p.Faults[0].Allowed + "."
	return p
}

// lineProblemOf makes a problem of any error of a line.
func lineProblemOf(err error) *Problem {
	var p *Problem
	if errors.As(err, &p) {
		return p
	}
	p = internalError.problem("This is a mistake of the program, not of the line. Report it with the line; the others are not touched by it.")
	p.cause = err
	return p
}

// ErrOtherStream says that an answer does not belong to a line of the input as it is now.
var ErrOtherStream = errors.New("the answer is not that of this line")

// Recall counts an answer that an earlier screening wrote, so that this one can go on after it. It
// makes sure that the answer is to this line, from this release: by its digest, or, where it is a
// problem, by answering anew.
func (s *Screening) Recall(line stream.Line, written []byte) error {
	var old struct {
		lineAnswer
		Problem json.RawMessage `json:"problem"`
	}
	if err := json.Unmarshal(written, &old); err != nil {
		return fmt.Errorf("%w: %w", ErrOtherStream, err)
	}
	if old.Line != line.Number {
		return fmt.Errorf("%w: it is to line %d, not to line %d", ErrOtherStream, old.Line, line.Number)
	}
	known := screened{verdict: old.Answer, codes: old.Findings, stops: old.Stops, needed: old.Needed}
	var same bool
	if old.Problem == nil {
		same = old.Digest != "" && old.Digest == wire.Digest(wire.Assessments, s.desk.engine, line.Text)
		same = same && known.sound()
	} else {
		var again bytes.Buffer
		s.answer(line, &again, &known)
		same = bytes.Equal(bytes.TrimSpace(again.Bytes()), bytes.TrimSpace(written))
	}
	if !same {
		return fmt.Errorf("%w: line %d, the engine or the rules have changed since", ErrOtherStream, line.Number)
	}
	s.tally.add(&known)
	return nil
}

// sound reports whether what was read back can be counted.
func (k *screened) sound() bool {
	known := k.verdict == feasibility.Yes || k.verdict == feasibility.YesIf || k.verdict == feasibility.No
	return known && k.stops >= 0 && k.needed >= 0 && k.stops+k.needed <= len(k.codes)
}

// RecallBlank counts a line that has no answer because it is blank.
func (s *Screening) RecallBlank() { s.tally.skip() }
