package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"net"
	"strconv"
	"strings"
	"time"

	"tractcheck/api"
)

// settings is how serve and probe are set up.
type settings struct {
	listen   string
	drain    time.Duration
	grace    time.Duration
	deadline time.Duration
	maxBody  int64
	tls      bool
	screens  int
}

// setting is one setting: its flag, its variable in the environment, and how it is read.
type setting struct {
	flag, variable, help string
	read                 func(s *settings, text string) error
}

// serveSettings are the settings of serve; the first is that of probe, too.
var serveSettings = []setting{
	{"listen", "TRACTCHECK_LISTEN", "address to serve on", func(s *settings, text string) error {
		if _, port, err := net.SplitHostPort(text); err != nil || port == "" {
			return errors.New("give host:port, such as 127.0.0.1:8080 or :8080")
		}
		s.listen = text
		return nil
	}},
	{"drain", "TRACTCHECK_DRAIN", "how long to go on serving after a stop signal", func(s *settings, text string) (err error) {
		s.drain, err = readTime(text, 0)
		return err
	}},
	{"grace", "TRACTCHECK_GRACE", "how long requests in hand may take to end after that", func(s *settings, text string) (err error) {
		s.grace, err = readTime(text, time.Millisecond)
		return err
	}},
	{"deadline", "TRACTCHECK_DEADLINE", "the most time one request may take", func(s *settings, text string) (err error) {
		s.deadline, err = readTime(text, time.Millisecond)
		return err
	}},
	{"max-body", "TRACTCHECK_MAX_BODY", "the most bytes of a request body", func(s *settings, text string) (err error) {
		s.maxBody, err = strconv.ParseInt(text, 10, 64)
		if err != nil || s.maxBody < 1 {
			return errors.New("give a whole number of bytes, at least 1")
		}
		return nil
	}},
	{"screenings", "TRACTCHECK_SCREENINGS", "how many screenings run at a time", func(s *settings, text string) (err error) {
		s.screens, err = strconv.Atoi(text)
		if err != nil || s.screens < 1 {
			return errors.New("give a whole number, at least 1")
		}
		return nil
	}},
	{"tls", "TRACTCHECK_TLS", "true where callers reach the service over TLS only", func(s *settings, text string) (err error) {
		if s.tls, err = strconv.ParseBool(text); err != nil {
			return errors.New("give true or false")
		}
		return nil
	}},
}

func readTime(text string, least time.Duration) (time.Duration, error) {
	d, err := time.ParseDuration(text)
	if err != nil || d < least || d > time.Hour {
		return 0, fmt.Errorf("give a time from %v to 1h, such as 5s", least)
	}
	return d, nil
}

func defaultSettings() settings {
	return settings{
		listen: "127.0.0.1:8080", grace: 20 * time.Second,
		deadline: api.DefaultDeadline, maxBody: api.DefaultMaxBody, screens: api.DefaultScreenings,
	}
}

// readSettings reads the environment, then the flags, which override it. The error lists every
// setting that is wrong, not the first. An empty variable counts as not set.
func readSettings(command string, known []setting, more func(*flag.FlagSet), args, environ []string, stderr io.Writer) (settings, error) {
	flags := flag.NewFlagSet("tractcheck "+command, flag.ContinueOnError)
	flags.SetOutput(stderr)
	for _, k := range known {
		flags.String(k.flag, "", fmt.Sprintf("%s (%s)", k.help, k.variable))
	}
	if more != nil {
		more(flags)
	}
	if err := flags.Parse(args); err != nil {
		return settings{}, err
	}
	var errs []error
	if flags.NArg() > 0 {
		errs = append(errs, fmt.Errorf("%s takes no arguments, but got %q", command, flags.Args()))
	}
	given := map[string]string{}
	flags.Visit(func(f *flag.Flag) { given[f.Name] = f.Value.String() })
	s := defaultSettings()
	for _, k := range known {
		text, name := lookup(environ, k.variable), k.variable
		if value, ok := given[k.flag]; ok {
			text, name = value, "-"+k.flag
		} else if text == "" {
			continue
		}
		if err := k.read(&s, text); err != nil {
			errs = append(errs, fmt.Errorf("%s is %q: %w", name, text, err))
		}
	}
	return s, errors.Join(errs...)
}

// lookup finds a variable in an environment; empty where it is not set.
func lookup(environ []string, name string) string {
	for _, entry := range environ {
		if value, ok := strings.CutPrefix(entry, name+"="); ok {
			return value
		}
	}
	return ""
}
