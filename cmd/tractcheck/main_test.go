package main

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/api"
)

const missions = "../../testdata/missions/"

// outcome is what a command left behind.
type outcome struct {
	status         int
	stdout, stderr string
}

func command(t *testing.T, environ []string, stdin string, args ...string) outcome {
	t.Helper()
	var stdout, stderr bytes.Buffer
	status := run(t.Context(), args, environ, strings.NewReader(stdin), &stdout, &stderr)
	return outcome{status, stdout.String(), stderr.String()}
}

// A sheet on the command line is a file of its own: it asks for nothing but itself.
func TestAssessWritesASheet(t *testing.T) {
	t.Parallel()
	got := command(t, nil, "", "assess", "-format", "html", missions+"levee-strip-small.json")
	assert.Equal(t, exitYesIf, got.status)
	assert.Empty(t, got.stderr)
	assert.True(t, strings.HasPrefix(got.stdout, "<!doctype html>"))
	assert.Contains(t, got.stdout, "<style>")
	assert.NotContains(t, got.stdout, "<link")
	assert.NotContains(t, got.stdout, "<script")
}

func TestCommands(t *testing.T) {
	t.Parallel()
	tests := []struct {
		name           string
		args           []string
		environ        []string
		stdin          string
		status         int
		stdout, stderr string // a part of each; empty means nothing at all
	}{
		{"no command", nil, nil, "", 2, "", "usage:"},
		{"unknown command", []string{"fly"}, nil, "", 2, "", `there is no command "fly"`},
		{"help", []string{"help"}, nil, "", 0, "TRACTCHECK_LISTEN", ""},
		{"version", []string{"version"}, nil, "", 0, "tractcheck ", ""},
		{"version flag", []string{"--version"}, nil, "", 0, "tractcheck ", ""},
		{"assess without a file", []string{"assess"}, nil, "", 2, "", "takes one file"},
		{"assess with two files", []string{"assess", "a", "b"}, nil, "", 2, "", "takes one file"},
		{"assess help", []string{"assess", "-h"}, nil, "", 0, "usage:", ""},
		{"assess in an unknown format", []string{"assess", "-format", "pdf", "-"}, nil, "", 2, "", "json or html"},
		{"assess with an unknown flag", []string{"assess", "-pretty", "-"}, nil, "", 2, "", "not defined"},
		{"assess broken input as a page", []string{"assess", "-format", "html", "-"}, nil, `{`, 2, "", `"faults"`},
		{"assess a missing file", []string{"assess", "no-such.json"}, nil, "", 2, "", "no-such.json"},
		{"assess broken input", []string{"assess", "-"}, nil, `{"a":1,"a":2}`, 2, "", `"code": "duplicate_member"`},
		{"assess nothing", []string{"assess", "-"}, nil, "", 2, "", `"code": "empty_body"`},
		{"assess a body too large", []string{"assess", "-"}, nil, strings.Repeat(" ", api.DefaultMaxBody+1), 2, "", "over 1048576 bytes"},
		{"serve help", []string{"serve", "-h"}, nil, "", 0, "TRACTCHECK_DRAIN", ""},
		{"serve with arguments", []string{"serve", "now"}, nil, "", 2, "", "takes no arguments"},
		{"serve with an unknown flag", []string{"serve", "-port", "1"}, nil, "", 2, "", "not defined"},
		{"serve with a larger body than it can hold", []string{"serve"}, []string{"TRACTCHECK_MAX_BODY=8388609"}, "", 2, "", "from 1 to 8388608"},
		{"serve help on the largest body", []string{"serve", "-h"}, nil, "", 0, "8388608 at most", ""},
		{"serve on no address", []string{"serve", "-listen", "here"}, nil, "", 2, "", `-listen is "here": give host:port`},
		{"probe help", []string{"probe", "-h"}, nil, "", 0, "-url", ""},
		{"probe with a bad address", []string{"probe"}, []string{"TRACTCHECK_LISTEN=here"}, "", 2, "", "TRACTCHECK_LISTEN"},
		{"probe nobody", []string{"probe", "-url", "http://127.0.0.1:1/readyz"}, nil, "", 1, "", "not ready"},
		{"probe nonsense", []string{"probe", "-url", "::"}, nil, "", 1, "", "not ready"},
	}
	for _, tc := range tests {
		t.Run(tc.name, func(t *testing.T) {
			t.Parallel()
			got := command(t, tc.environ, tc.stdin, tc.args...)
			assert.Equal(t, tc.status, got.status)
			for want, had := range map[string]string{tc.stdout: got.stdout, tc.stderr: got.stderr} {
				if want != "" {
					assert.Contains(t, had, want)
				}
			}
			if tc.stdout == "" {
				assert.Empty(t, got.stdout, "standard output holds an answer or nothing")
			}
			if tc.stderr == "" {
				assert.Empty(t, got.stderr)
			}
		})
	}
}

func TestBadSettingsAreListedAllAtOnce(t *testing.T) {
	t.Parallel()
	got := command(t, []string{
		"TRACTCHECK_LISTEN=nowhere", "TRACTCHECK_DRAIN=-1s", "TRACTCHECK_GRACE=0s", "TRACTCHECK_TIMEOUT=soon",
		"TRACTCHECK_MAX_BODY=0", "TRACTCHECK_TLS=perhaps", "TRACTCHECK_RATE_LIMIT=-1", "TRACTCHECK_LOG_LEVEL=loud",
		"TRACTCHECK_COMPUTATIONS=half", "TRACTCHECK_API_KEYS_FILE=/nowhere/keys", "TRACTCHECK_API_KEYS=a-secret-that-is-no-digest",
		"TRACTCHECK_SCREENINGS=none", "TRACTCHECK_CONNECTIONS=0",
	}, "", "serve", "-max-body", "many")
	assert.Equal(t, exitUsage, got.status)
	for _, name := range []string{
		"TRACTCHECK_LISTEN", "TRACTCHECK_DRAIN", "TRACTCHECK_GRACE", "TRACTCHECK_TIMEOUT", "-max-body", "TRACTCHECK_TLS",
		"TRACTCHECK_RATE_LIMIT", "TRACTCHECK_LOG_LEVEL", "TRACTCHECK_COMPUTATIONS", "TRACTCHECK_API_KEYS_FILE", "TRACTCHECK_API_KEYS",
		"TRACTCHECK_SCREENINGS", "TRACTCHECK_CONNECTIONS",
	} {
		assert.Contains(t, got.stderr, name+" is ")
	}
	assert.NotContains(t, got.stderr, "a-secret", "a key written there by mistake is not repeated")
}

func TestFlagsOverrideTheEnvironment(t *testing.T) {
	t.Parallel()
	environ := []string{"OTHER=1", "TRACTCHECK_LISTEN=:1", "TRACTCHECK_GRACE=3s", "TRACTCHECK_TLS=true", "TRACTCHECK_DRAIN="}
	s, err := readSettings("serve", serveSettings, nil, []string{"-listen", ":2", "-max-body", "10"}, environ, io.Discard)
	require.NoError(t, err)
	want := standardSettings(t)
	assert.Equal(t, "127.0.0.1:8080", want.listen)
	want.listen, want.grace, want.tls, want.maxBody = ":2", 3e9, true, 10
	assert.Equal(t, want, s)
}

func TestEverySettingIsInTheUsage(t *testing.T) {
	t.Parallel()
	for _, s := range serveSettings {
		assert.Contains(t, help(), s.variable)
	}
}

// assess gives the bytes of the service, and a status for each answer.
func TestAssessGivesTheBytesOfTheService(t *testing.T) {
	t.Parallel()
	service, err := api.New(api.Config{})
	require.NoError(t, err)
	files, err := filepath.Glob(missions + "*.json")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	statuses := map[string]int{"yes": exitYes, "yes_if": exitYesIf, "no": exitNo}
	seen := map[int]bool{}
	for _, file := range files {
		body, err := os.ReadFile(file)
		require.NoError(t, err)
		r := httptest.NewRequestWithContext(t.Context(), http.MethodPost, "/v1/assessments", bytes.NewReader(body))
		r.Header.Set("Content-Type", "application/json")
		w := httptest.NewRecorder()
		service.ServeHTTP(w, r)

		fromFile := command(t, nil, "", "assess", file)
		fromStdin := command(t, nil, string(body), "assess", "-")
		assert.Equal(t, fromFile, fromStdin)
		seen[fromFile.status] = true
		if w.Code != http.StatusOK {
			assert.Equal(t, exitBad, fromFile.status, file)
			assert.Empty(t, fromFile.stdout)
			assert.Contains(t, fromFile.stderr, `"faults"`)
			continue
		}
		assert.Equal(t, w.Body.String()+"\n", fromFile.stdout)
		assert.Empty(t, fromFile.stderr)
		var answer struct{ Answer string }
		require.NoError(t, json.Unmarshal(w.Body.Bytes(), &answer))
		want, known := statuses[answer.Answer]
		require.True(t, known, answer.Answer)
		assert.Equal(t, want, fromFile.status, file)
	}
	assert.True(t, seen[exitNo] && seen[exitYesIf], "the samples must hold a no and a yes if")
}

// brokenWriter is a pipe whose reader has gone.
type brokenWriter struct{}

func (brokenWriter) Write([]byte) (int, error) { return 0, io.ErrClosedPipe }

func TestAssessSaysWhenTheAnswerCannotBeWritten(t *testing.T) {
	t.Parallel()
	var stderr bytes.Buffer
	status := run(context.Background(), []string{"assess", missions + "levee-strip-small.json"}, nil, strings.NewReader(""), brokenWriter{}, &stderr)
	assert.Equal(t, exitBad, status)
	assert.Contains(t, stderr.String(), "could not be written")
}

func TestAnswersAreIndentedForPeopleOnly(t *testing.T) {
	t.Parallel()
	const body = `{"a":[1.50,1e-3],"b":"<&>"}`
	var plain, indented bytes.Buffer
	require.NoError(t, sayAnswer(&plain, []byte(body), false))
	require.NoError(t, sayAnswer(&indented, []byte(body), true))
	assert.Equal(t, body+"\n", plain.String())
	assert.Equal(t, "{\n  \"a\": [\n    1.50,\n    1e-3\n  ],\n  \"b\": \"<&>\"\n}\n", indented.String(), "figures stay as they are written")
	require.Error(t, sayAnswer(io.Discard, []byte("{"), true))
}

func TestOnlyACharacterDeviceIsATerminal(t *testing.T) {
	t.Parallel()
	file, err := os.Create(filepath.Join(t.TempDir(), "answer.json"))
	require.NoError(t, err)
	assert.False(t, onTerminal(file), "a file")
	require.NoError(t, file.Close())
	assert.False(t, onTerminal(file), "a closed file")
	reader, writer, err := os.Pipe()
	require.NoError(t, err)
	defer func() { _, _ = reader.Close(), writer.Close() }()
	assert.False(t, onTerminal(writer), "a pipe")
	assert.False(t, onTerminal(&bytes.Buffer{}), "no file at all")
	device, err := os.OpenFile(os.DevNull, os.O_WRONLY, 0)
	require.NoError(t, err)
	defer func() { _ = device.Close() }()
	assert.True(t, onTerminal(device), "the only character device every machine has")
}

// standardSettings are the settings of a service that is told nothing.
func standardSettings(t *testing.T) settings {
	t.Helper()
	s, err := readSettings("serve", serveSettings, nil, nil, nil, io.Discard)
	require.NoError(t, err, "every standard value can be read")
	return s
}

func TestHelpListsEverySetting(t *testing.T) {
	t.Parallel()
	for _, flag := range []string{"-h", "-help", "--help"} {
		got := command(t, nil, "", "serve", flag)
		assert.Equal(t, exitOK, got.status)
		for _, s := range serveSettings {
			assert.Contains(t, got.stdout, s.variable)
			assert.Contains(t, got.stdout, "-"+s.flag+" ")
		}
	}
}
