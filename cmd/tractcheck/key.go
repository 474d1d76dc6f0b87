package main

import (
	"io"

	"tractcheck/api"
)

// newKey makes an API key: the key goes to standard error, for its holder's eyes, and the line for
// the list of keys to standard output, so that it can be appended to the file.
func newKey(args []string, stdout, stderr io.Writer) int {
	if len(args) != 1 || args[0] == "-h" || args[0] == "-help" || args[0] == "--help" {
		say(stderr, "usage: tractcheck key NAME >> KEYS_FILE\n")
		if len(args) == 1 {
			return exitOK
		}
		return exitUsage
	}
	key, line, err := api.NewKey(args[0])
	if err != nil {
		complain(stderr, err)
		return exitUsage
	}
	say(stderr, "Key of "+args[0]+", shown this once: "+key+"\n")
	say(stdout, line+"\n")
	return exitOK
}
