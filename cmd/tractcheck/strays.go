package main

import (
	"log/slog"
	"math"
	"regexp"
	"slices"
	"strings"

	"tractcheck/api/wire"
)

// prefix begins the name of every variable of ours.
const prefix = "TRACTCHECK_"

// elsewhere are the names after the prefix that are read by something else than serve: the compose
// file, the tests, and the checks of .ci, which run the service with their own variables set.
var elsewhere = regexp.MustCompile(`^(VERSION|COMMIT|BROWSER|AXE|SHOTS|CI_[A-Z_]+)$`)

// serviceLink is the form of the names after the prefix that Kubernetes gives every container where a
// service is called tractcheck (Kubernetes documentation, Service, "Environment variables"). A service
// called tractcheck-NAME has its own word between, and always a host beside.
var serviceLink = regexp.MustCompile(`^([A-Z0-9_]+?_)??(SERVICE_HOST|SERVICE_PORT(_[A-Z0-9_]+)?|PORT(_[0-9]+_(TCP|UDP|SCTP)(_(PROTO|PORT|ADDR))?)?)$`)

// warnOfStrays writes a warning for each variable that looks like a setting and is none: a misspelled
// key or limit would else leave the service open without a word. It refuses nothing, as whoever runs
// the service may have such names for another purpose. Values are never written: they may be secrets.
func warnOfStrays(environ []string, logger *slog.Logger) {
	for _, name := range strays(environ) {
		attributes := []any{"variable", name}
		if meant := nearestSetting(name); meant != "" {
			attributes = append(attributes, "nearest", meant)
		}
		logger.Warn("this environment variable is no setting and does nothing", attributes...)
	}
}

// strays are the names of the variables that begin like settings, in any letter case, and are none.
func strays(environ []string) []string {
	var found []string
	for _, entry := range environ {
		name, _, _ := strings.Cut(entry, "=")
		upper := strings.ToUpper(name)
		rest, ours := strings.CutPrefix(upper, prefix)
		known := upper == name && (isSetting(name) || elsewhere.MatchString(rest) || isServiceLink(rest, environ))
		if ours && !known {
			found = append(found, name)
		}
	}
	slices.Sort(found)
	return slices.Compact(found)
}

func isSetting(name string) bool {
	return slices.ContainsFunc(serveSettings, func(s setting) bool { return s.variable == name })
}

// isServiceLink reports whether Kubernetes made a variable. That of another service is taken for one
// only where its host is there, too: TRACTCHECK_LISTEN_PORT alone is a slip.
func isServiceLink(rest string, environ []string) bool {
	parts := serviceLink.FindStringSubmatch(rest)
	return parts != nil && (parts[1] == "" || lookup(environ, prefix+parts[1]+"SERVICE_HOST") != "")
}

// nearestSetting is the setting that a name was probably meant to be: the one that differs by the fewest
// words left out or added, else one a slip or two away. Empty where none is near.
func nearestSetting(name string) string {
	sent := strings.TrimPrefix(strings.ToUpper(name), prefix)
	var known []string
	for _, s := range serveSettings {
		known = append(known, strings.TrimPrefix(s.variable, prefix))
	}
	best, fewest := "", math.MaxInt
	for _, k := range known {
		if words, near := wordsApart(sent, k); near && words < fewest {
			best, fewest = k, words
		}
	}
	if best == "" {
		best = wire.Nearest(sent, known)
	}
	if best == "" {
		return ""
	}
	return prefix + best
}

// wordsApart counts the words that one name has more than another; near where it has all of the other's,
// or their beginnings: KEY is near API_KEYS.
func wordsApart(a, b string) (words int, near bool) {
	few, many := strings.Split(a, "_"), strings.Split(b, "_")
	if len(few) > len(many) {
		few, many = many, few
	}
	for _, word := range few {
		if !slices.ContainsFunc(many, func(other string) bool { return sameBeginning(word, other) }) {
			return 0, false
		}
	}
	return len(many) - len(few), true
}

// sameBeginning reports whether one of two words begins with the other. A word of fewer than three
// letters says too little.
func sameBeginning(a, b string) bool {
	return min(len(a), len(b)) >= 3 && (strings.HasPrefix(a, b) || strings.HasPrefix(b, a))
}
