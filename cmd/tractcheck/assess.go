package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"

	"tractcheck/api"
	"tractcheck/api/wire"
	"tractcheck/feasibility"
)

// assess answers the mission in a file with the bytes POST /v1/assessments would send, and a line
// feed; JSON is indented where a person reads it on a terminal, and a page carries its style inside.
// Standard output holds the answer or nothing; what is wrong with the input goes to stderr.
func assess(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("assess", flag.ContinueOnError)
	flags.SetOutput(io.Discard)
	format := flags.String("format", formatJSON, "json or html")
	switch err := flags.Parse(args); {
	case errors.Is(err, flag.ErrHelp):
		say(stdout, usage)
		return exitOK
	case err != nil:
		complain(stderr, err)
		return exitBad
	case flags.NArg() != 1:
		complain(stderr, "assess takes one file, or - for standard input")
		return exitBad
	case *format != formatJSON && *format != formatPage:
		complain(stderr, "the format is json or html")
		return exitBad
	}
	body, err := readInput(flags.Arg(0), stdin)
	if err != nil {
		complain(stderr, err)
		return exitBad
	}
	desk, err := api.NewDesk(wire.Version())
	if err != nil {
		complain(stderr, err)
		return exitBad
	}
	answer := desk.Assess
	if *format == formatPage {
		answer = desk.AssessPage
	}
	reply, err := answer(body)
	if err != nil {
		sayProblem(stderr, err)
		return exitBad
	}
	if err := sayAnswer(stdout, reply.Body, *format == formatJSON && onTerminal(stdout)); err != nil {
		complain(stderr, "the answer could not be written:", err)
		return exitBad
	}
	switch reply.Answer.Verdict {
	case feasibility.Yes:
		return exitYes
	case feasibility.YesIf:
		return exitYesIf
	default:
		return exitNo
	}
}

// The formats of an answer on the command line.
const (
	formatJSON = "json"
	formatPage = "html"
)

// readInput reads a whole file or standard input, up to the limit the service has for a body.
func readInput(name string, stdin io.Reader) ([]byte, error) {
	input := stdin
	if name != "-" {
		file, err := os.Open(name)
		if err != nil {
			return nil, err
		}
		defer func() { _ = file.Close() }()
		input = file
	}
	body, err := io.ReadAll(io.LimitReader(input, api.DefaultMaxBody+1))
	if err != nil {
		return nil, err
	}
	if len(body) > api.DefaultMaxBody {
		return nil, fmt.Errorf("the input is over %d bytes; simplify its geometry", api.DefaultMaxBody)
	}
	return body, nil
}

// sayAnswer writes an answer: its own bytes, or indented for a person to read.
func sayAnswer(stdout io.Writer, body []byte, indented bool) error {
	var out bytes.Buffer
	if indented {
		if err := json.Indent(&out, body, "", "  "); err != nil {
			return err
		}
	} else {
		out.Write(body)
	}
	out.WriteByte('\n')
	_, err := out.WriteTo(stdout)
	return err
}

// onTerminal reports whether a person reads what is written, not a program or a file.
func onTerminal(w io.Writer) bool {
	file, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := file.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// sayProblem writes the problem document the service would send.
func sayProblem(stderr io.Writer, err error) {
	var problem *api.Problem
	if !errors.As(err, &problem) {
		complain(stderr, err)
		return
	}
	encoder := json.NewEncoder(stderr)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	if err := encoder.Encode(problem); err != nil {
		complain(stderr, problem)
	}
}
