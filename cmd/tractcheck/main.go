// Command tractcheck answers whether a spray drone can do a tract: as an HTTP service, or from a
// file on the command line.
package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"runtime"
	"strings"

	"tractcheck/api/wire"
)

func main() {
	os.Exit(run(context.Background(), os.Args[1:], os.Environ(), os.Stdin, os.Stdout, os.Stderr))
}

// Exit statuses. assess has one for each answer, so that a script can branch on it.
const (
	exitYes   = 0
	exitNo    = 1
	exitBad   = 2
	exitYesIf = 3

	exitOK     = 0 // of the other commands
	exitFailed = 1
	exitUsage  = 2
)

const usage = `tractcheck answers: can a spray drone do this tract?

usage:
  tractcheck serve            answer over HTTP until told to stop
  tractcheck assess FILE|-    answer the mission in a file, or on standard input; indented on a
                              terminal, else the bytes the service would send; with
                              -format html before the file, an answer sheet to print
  tractcheck screen           answer many missions, one a line, from a file or a pipe
  tractcheck hours FILE|-     say which hours of a mission and its hourly weather are good to spray
  tractcheck compare FILE|-   rank the set-ups of a mission
  tractcheck probe            ask a running service whether it is ready
  tractcheck key NAME         make an API key: the key on standard error, the line for the keys
                              file on standard output
  tractcheck version          say which release this is
  tractcheck help             say this

exit status of assess: 0 yes, 3 yes if, 1 no, 2 bad input (the problem is on standard error)
exit status of screen: 0 every line has its answer, 1 stopped early or failed, 2 wrong use
exit status of hours and compare: 0 answered, 2 bad input
exit status of the others: 0 done, 1 failed, 2 wrong use or settings

tractcheck COMMAND -h lists the flags of a command. Each setting of serve can also come from the
environment; a flag overrides it:
`

// help is the usage and every setting, so that none is forgotten.
func help() string {
	var text strings.Builder
	text.WriteString(usage)
	for _, s := range serveSettings {
		standard := ""
		if s.standard != "" {
			standard = " (" + s.standard + ")"
		}
		fmt.Fprintf(&text, "  %-25s %s%s\n", s.variable, strings.ReplaceAll(s.help, "`", ""), standard)
	}
	return text.String()
}

// run is the whole program: it reads its arguments and environment, does what they say and reports
// the exit status.
func run(ctx context.Context, args, environ []string, stdin io.Reader, stdout, stderr io.Writer) int {
	if len(args) == 0 {
		say(stderr, help())
		return exitUsage
	}
	command, rest := args[0], args[1:]
	switch command {
	case "serve":
		return serve(ctx, rest, environ, stdout, stderr)
	case "assess":
		return assess(rest, stdin, stdout, stderr)
	case "screen":
		return screen(ctx, rest, environ, stdin, stdout, stderr)
	case "hours", "compare":
		return decide(command, rest, stdin, stdout, stderr)
	case "probe":
		return probe(ctx, rest, environ, stdout, stderr)
	case "key":
		return newKey(rest, stdout, stderr)
	case "version", "-version", "--version":
		say(stdout, fmt.Sprintf("tractcheck %s %s %s/%s\n", wire.Version(), runtime.Version(), runtime.GOOS, runtime.GOARCH))
		return exitOK
	case "help", "-h", "-help", "--help":
		say(stdout, help())
		return exitOK
	default:
		say(stderr, fmt.Sprintf("tractcheck: there is no command %q; tractcheck help lists them\n", command))
		return exitUsage
	}
}

// say writes a message for people. Where it cannot be written there is nobody left to tell.
func say(to io.Writer, text string) { _, _ = io.WriteString(to, text) }

// complain says on standard error what went wrong.
func complain(stderr io.Writer, about ...any) { say(stderr, "tractcheck: "+fmt.Sprintln(about...)) }
