package main

import (
	"io"

	"tractcheck/api"
	"tractcheck/api/wire"
)

// decide answers the request in a file about many hours or many set-ups, as POST /v1/spray-hours and
// POST /v1/comparisons do.
func decide(command string, args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	if len(args) == 1 && (args[0] == "-h" || args[0] == "-help" || args[0] == "--help") {
		say(stdout, usage)
		return exitOK
	}
	if len(args) != 1 {
		complain(stderr, command+" takes one file, or - for standard input")
		return exitBad
	}
	body, err := readInput(args[0], stdin)
	if err != nil {
		complain(stderr, err)
		return exitBad
	}
	desk, err := api.NewDesk(wire.Version())
	if err != nil {
		complain(stderr, err)
		return exitBad
	}
	answer := desk.SprayHours
	if command == "compare" {
		answer = desk.Compare
	}
	reply, err := answer(body)
	if err != nil {
		sayProblem(stderr, err)
		return exitBad
	}
	if err := sayAnswer(stdout, reply.Body, onTerminal(stdout)); err != nil {
		complain(stderr, "the answer could not be written:", err)
		return exitBad
	}
	return exitOK
}
