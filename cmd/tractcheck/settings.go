package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"log/slog"
	"net"
	"strconv"
	"strings"
	"time"

	"tractcheck/api"
)

// settings is how serve and probe are set up.
type settings struct {
	listen       string
	drain        time.Duration
	grace        time.Duration
	timeout      time.Duration
	maxBody      int64
	rateLimit    float64
	keys         *api.Keys
	computations int
	connections  int
	logLevel     slog.Level
	screens      int
	tls          bool
}

// setting is one setting: its flag, its variable in the environment, what it is where neither is
// given, and how it is read.
type setting struct {
	flag, variable, standard, help string
	read                           func(s *settings, text string) error
}

// serveSettings are the settings of serve; the first is that of probe, too.
var serveSettings = []setting{
	{"listen", "TRACTCHECK_LISTEN", "127.0.0.1:8080", "`address` to serve on", func(s *settings, text string) error {
		if _, port, err := net.SplitHostPort(text); err != nil || port == "" {
			return errors.New("give host:port, such as 127.0.0.1:8080 or :8080")
		}
		s.listen = text
		return nil
	}},
	{"rate-limit", "TRACTCHECK_RATE_LIMIT", "0", "`questions` a second that one key, or one address where there are no keys (behind a proxy: all callers together), may ask; 0 for no limit", readRateLimit},
	{"api-keys-file", "TRACTCHECK_API_KEYS_FILE", "", "`file` of the keys of which every question must show one, as tractcheck key NAME prints them; none is asked for where empty", readKeysFile},
	{"api-keys", "TRACTCHECK_API_KEYS", "", "the same as `text` instead of a file, entries parted by commas", readKeysText},
	{"max-body", "TRACTCHECK_MAX_BODY", strconv.Itoa(api.DefaultMaxBody), fmt.Sprintf("the most `bytes` of a request body, and of a line of a screening; %d at most", api.LargestMaxBody), readMaxBody},
	{"timeout", "TRACTCHECK_TIMEOUT", api.DefaultTimeout.String(), "the most `time` one request may take", func(s *settings, text string) (err error) {
		s.timeout, err = readTime(text, time.Millisecond)
		return err
	}},
	{"computations", "TRACTCHECK_COMPUTATIONS", "0", "`answers` computed at once; 0 for one for each processor", readComputations},
	{"connections", "TRACTCHECK_CONNECTIONS", strconv.Itoa(standardConnections), "`connections` held open at once; more wait until one ends", readConnections},
	{"screenings", "TRACTCHECK_SCREENINGS", strconv.Itoa(api.DefaultScreenings), "how many `screenings` run at a time", func(s *settings, text string) (err error) {
		s.screens, err = strconv.Atoi(text)
		if err != nil || s.screens < 1 {
			return errors.New("give a whole number, at least 1")
		}
		return nil
	}},
	{"log-level", "TRACTCHECK_LOG_LEVEL", "info", "the least grave `level` of log lines to write: debug, info, warn or error", readLogLevel},
	{"drain", "TRACTCHECK_DRAIN", "1s", "how much `time` to go on serving after a stop signal, while balancers learn of it", func(s *settings, text string) (err error) {
		s.drain, err = readTime(text, 0)
		return err
	}},
	{"grace", "TRACTCHECK_GRACE", "20s", "how much `time` requests in hand may take to end after that", func(s *settings, text string) (err error) {
		s.grace, err = readTime(text, time.Millisecond)
		return err
	}},
	{"tls", "TRACTCHECK_TLS", "false", "`true` where callers reach the service over TLS only", func(s *settings, text string) (err error) {
		if s.tls, err = strconv.ParseBool(text); err != nil {
			return errors.New("give true or false")
		}
		return nil
	}},
}

// forLog is what the first line of the log says of the settings: whether keys are asked for, and the
// bounds. No key and no path of a file is in it.
func (s settings) forLog() []any {
	return []any{
		"keys", s.keys.Count(), "rate_limit", s.rateLimit, "max_body", s.maxBody, "computations", s.computations,
		"connections", s.connections,
	}
}

func readTime(text string, least time.Duration) (time.Duration, error) {
	d, err := time.ParseDuration(text)
	if err != nil || d < least || d > time.Hour {
		return 0, fmt.Errorf("give a time from %v to 1h, such as 5s", least)
	}
	return d, nil
}

// readSettings reads the environment, then the flags, which override it. The error lists every
// setting that is wrong, not the first. An empty variable counts as not set.
func readSettings(command string, known []setting, more func(*flag.FlagSet), args, environ []string, stderr io.Writer) (settings, error) {
	flags := flag.NewFlagSet("tractcheck "+command, flag.ContinueOnError)
	flags.SetOutput(stderr)
	for _, k := range known {
		flags.String(k.flag, k.standard, fmt.Sprintf("%s (environment: %s)", k.help, k.variable))
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
	var s settings
	for _, k := range known {
		text, name := lookup(environ, k.variable), k.variable
		if value, ok := given[k.flag]; ok {
			text, name = value, "-"+k.flag
		} else if text == "" {
			text, name = k.standard, "the standard "+k.flag
		}
		if err := k.read(&s, text); err != nil {
			errs = append(errs, fmt.Errorf("%s is %s: %w", name, k.shown(text), err))
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
