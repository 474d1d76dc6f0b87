package main

import (
	"fmt"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"tractcheck/api"
	"tractcheck/feasibility/finding"
)

// counter counts what several goroutines look at.
type counter = atomic.Int64

// progressEvery is how often the progress is told.
const progressEvery = 500 * time.Millisecond

// progress tells a person at a terminal how far a screening has come, until the returned function
// is called. It tells nothing where the answers themselves go to a terminal.
func (r *screenRun) progress(start time.Time) (end func()) {
	if !onTerminal(r.stderr) || onTerminal(r.output.Writer) {
		return func() {}
	}
	const wipe = "\r\x1b[K" // to the begin of the line, and erase it
	over := make(chan struct{})
	var told sync.WaitGroup
	told.Go(func() {
		ticks := time.NewTicker(progressEvery)
		defer ticks.Stop()
		for {
			select {
			case <-ticks.C:
				say(r.stderr, wipe+r.soFar(time.Since(start)))
			case <-over:
				say(r.stderr, wipe)
				return
			}
		}
	})
	return func() {
		close(over)
		told.Wait()
	}
}

// soFar is the progress in a line.
func (r *screenRun) soFar(since time.Duration) string {
	c := r.screening.Counts()
	text := grouped(c.Lines) + " lines"
	if r.input.size > 0 {
		text += fmt.Sprintf(" (%d %%)", min(100, 100*r.input.read.Load()/r.input.size))
	}
	return text + ", " + rate(c.Lines-r.recalled, since) + ": " + byAnswer(c)
}

// told is what a screening came to, for a person.
func told(c api.ScreeningCounts, recalled int64, took time.Duration, complete bool) string {
	var text strings.Builder
	if complete {
		text.WriteString("done: ")
	} else {
		text.WriteString("not done: ")
	}
	fmt.Fprintf(&text, "%s lines", grouped(c.Lines))
	if recalled > 0 {
		fmt.Fprintf(&text, ", %s of them from before and %s", grouped(recalled), grouped(c.Lines-recalled))
	}
	fmt.Fprintf(&text, " in %s, %s", took.Round(time.Millisecond), rate(c.Lines-recalled, took))
	text.WriteString("\n  " + byAnswer(c) + "\n")
	for _, severity := range []finding.Severity{finding.Stop, finding.Needed} {
		if most := mostFrequent(c.Binding, severity); most != "" {
			fmt.Fprintf(&text, "  %-7s %s\n", string(severity)+":", most)
		}
	}
	return text.String()
}

func byAnswer(c api.ScreeningCounts) string {
	text := fmt.Sprintf("%s yes, %s yes if, %s no, %s problems",
		grouped(c.ByAnswer.Yes), grouped(c.ByAnswer.YesIf), grouped(c.ByAnswer.No), grouped(c.Problems))
	if c.Blank > 0 {
		text += ", " + grouped(c.Blank) + " blank"
	}
	return text
}

// mostFrequent lists the findings of a severity that bind most lines; the counts come in that order.
func mostFrequent(all []api.Binding, severity finding.Severity) string {
	const shown = 5
	var list []string
	more := 0
	for _, b := range all {
		switch {
		case b.Severity != severity:
		case len(list) == shown:
			more++
		default:
			list = append(list, string(b.Code)+" "+grouped(b.Lines))
		}
	}
	if more > 0 {
		list = append(list, fmt.Sprintf("and %d more", more))
	}
	return strings.Join(list, ", ")
}

func rate(lines int64, took time.Duration) string {
	if took <= 0 {
		return "0 a second"
	}
	return grouped(int64(float64(lines)/took.Seconds())) + " a second"
}

// grouped writes a count with a comma between each three digits.
func grouped(n int64) string {
	text := fmt.Sprint(n)
	for at := len(text) - 3; at > 0; at -= 3 {
		text = text[:at] + "," + text[at:]
	}
	return text
}
