package main

import (
	"errors"
	"fmt"
	"os"
	"runtime"
	"strconv"
	"strings"

	"tractcheck/api"
)

// readRateLimit reads the questions a second that one caller may ask.
func readRateLimit(s *settings, text string) (err error) {
	s.rateLimit, err = strconv.ParseFloat(text, 64)
	if inRange := s.rateLimit >= 0 && s.rateLimit <= 1e6; err != nil || !inRange {
		return errors.New("give questions a second, such as 10 or 0.5, or 0 for no limit")
	}
	return nil
}

// readMaxBody reads the most bytes of a body.
func readMaxBody(s *settings, text string) (err error) {
	s.maxBody, err = strconv.ParseInt(text, 10, 64)
	if err != nil || s.maxBody < 1 || s.maxBody > api.LargestMaxBody {
		return fmt.Errorf("give a whole number of bytes, from 1 to %d", api.LargestMaxBody)
	}
	return nil
}

// readComputations reads how many answers are computed at once.
func readComputations(s *settings, text string) (err error) {
	s.computations, err = strconv.Atoi(text)
	if err != nil || s.computations < 0 {
		return errors.New("give a whole number, or 0 for one for each processor")
	}
	if s.computations == 0 {
		s.computations = runtime.GOMAXPROCS(0)
	}
	return nil
}

// standardConnections is how many connections are held open where nothing else is said: with the longest
// headers they take some 100 MB, and 2,000 idle ones leave room. Own choice.
const standardConnections = 3000

// readConnections reads how many connections are held open.
func readConnections(s *settings, text string) (err error) {
	s.connections, err = strconv.Atoi(text)
	if err != nil || s.connections < 1 {
		return errors.New("give a whole number, at least 1")
	}
	return nil
}

// readLogLevel reads the least grave log lines to write.
func readLogLevel(s *settings, text string) error {
	if s.logLevel.UnmarshalText([]byte(text)) != nil {
		return errors.New("give debug, info, warn or error")
	}
	return nil
}

// readKeysFile reads the keys from a file.
func readKeysFile(s *settings, path string) error {
	if path == "" {
		return nil
	}
	file, err := os.Open(path)
	if err != nil {
		return err
	}
	defer func() { _ = file.Close() }()
	return s.addKeys(api.ReadKeys(file))
}

// readKeysText reads the keys from the environment itself. The text is never repeated in an error.
func readKeysText(s *settings, text string) error {
	if text == "" {
		return nil
	}
	return s.addKeys(api.ReadKeys(strings.NewReader(strings.ReplaceAll(text, ",", "\n"))))
}

func (s *settings) addKeys(keys *api.Keys, err error) error {
	if err != nil {
		return err
	}
	if s.keys != nil {
		return errors.New("keys come from a file or from the environment, not both")
	}
	s.keys = keys
	return nil
}

// shown is how a setting's text may be repeated: a list of keys never is.
func (k setting) shown(text string) string {
	if k.variable == "TRACTCHECK_API_KEYS" {
		return "not usable"
	}
	return fmt.Sprintf("%q", text)
}
