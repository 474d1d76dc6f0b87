package main

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/api"
)

// TestMain lets the test binary be the program, so that a test can kill it.
func TestMain(m *testing.M) {
	if os.Getenv("TRACTCHECK_TEST_AS_PROGRAM") == "1" {
		main()
	}
	os.Exit(m.Run())
}

// program is the command as a process of its own.
func program(t *testing.T, args ...string) *exec.Cmd {
	t.Helper()
	self, err := os.Executable()
	require.NoError(t, err)
	c := exec.CommandContext(t.Context(), self, args...)
	c.Env = append(os.Environ(), "TRACTCHECK_TEST_AS_PROGRAM=1")
	return c
}

// missionLines makes lines of sample missions with their own references, bad ones and blank ones
// among them. Most are bad, which is quick to find out.
func missionLines(t *testing.T, count int) string {
	t.Helper()
	files, err := filepath.Glob(missions + "*.json")
	require.NoError(t, err)
	var samples []map[string]any
	for _, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		var mission map[string]any
		require.NoError(t, json.Unmarshal(text, &mission))
		samples = append(samples, mission)
	}
	var lines strings.Builder
	for i := range count {
		switch {
		case i%10 == 0:
			mission := samples[i/10%len(samples)]
			mission["reference"] = "Invented example: order " + strconv.Itoa(i)
			text, err := json.Marshal(mission)
			require.NoError(t, err)
			lines.Write(text)
		case i%97 == 5:
		default:
			lines.WriteString(`{"reference":"` + strconv.Itoa(i) + `"}`)
		}
		lines.WriteByte('\n')
	}
	return lines.String()
}

// inFile writes a file for a test.
func inFile(t *testing.T, name, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	return path
}

func contentOf(t *testing.T, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(text)
}

func TestScreenAnswersAPipe(t *testing.T) {
	t.Parallel()
	input := missionLines(t, 60)
	piped := command(t, nil, input, "screen")
	require.Equal(t, exitOK, piped.status, piped.stderr)
	lines := strings.SplitAfter(strings.TrimSuffix(piped.stdout, "\n"), "\n")
	assert.Len(t, lines, 60, "an answer a line, but one blank line, and the summary")
	var summary struct {
		Lines, Answers, Problems, Blank int
		Complete                        bool
	}
	require.NoError(t, json.Unmarshal([]byte(lines[59]), &summary))
	assert.Equal(t, 60, summary.Lines)
	assert.Equal(t, 6, summary.Answers)
	assert.Equal(t, 53, summary.Problems)
	assert.Equal(t, 1, summary.Blank)
	assert.True(t, summary.Complete)
	assert.Contains(t, piped.stderr, "done: 60 lines in ")
	assert.Contains(t, piped.stderr, "53 problems, 1 blank")
	assert.Contains(t, piped.stderr, "stop:")
	assert.NotContains(t, piped.stderr, "\r", "no progress where nobody looks")

	out := filepath.Join(t.TempDir(), "out.ndjson")
	filed := command(t, nil, "", "screen", "-in", inFile(t, "in.ndjson", input), "-out", out, "-workers", "3")
	require.Equal(t, exitOK, filed.status, filed.stderr)
	assert.Empty(t, filed.stdout)
	assert.Equal(t, piped.stdout, contentOf(t, out), "files and pipes, and any number of workers, give the same bytes")
}

func TestScreenSettings(t *testing.T) {
	t.Parallel()
	full := inFile(t, "full.ndjson", "{}\n")
	for name, tc := range map[string]struct {
		args, environ []string
		status        int
		stderr        string
	}{
		"help":                   {[]string{"-h"}, nil, 0, "exit status:"},
		"arguments":              {[]string{"missions.ndjson"}, nil, 2, "name the file with -in"},
		"unknown flag":           {[]string{"-fast"}, nil, 2, "not defined"},
		"negative workers":       {[]string{"-workers", "-1"}, nil, 2, "-workers is -1"},
		"no line":                {[]string{"-max-line", "0"}, nil, 2, "-max-line is 0"},
		"resume of a pipe":       {[]string{"-resume"}, nil, 2, "-resume needs -out FILE"},
		"resume of a device":     {[]string{"-resume", "-out", os.DevNull}, nil, 2, "no file that can be read back"},
		"a missing input":        {[]string{"-in", "no-such.ndjson"}, nil, 2, "no-such.ndjson"},
		"a missing folder":       {[]string{"-out", "no-such/out.ndjson"}, nil, 2, "no-such/out.ndjson"},
		"an output that is full": {[]string{"-out", full}, nil, 2, "holds something already"},
		"a shard too high":       {[]string{"-shard", "8/8"}, nil, 2, `the shard is "8/8"`},
		"a shard that is none":   {[]string{"-shard", "1"}, nil, 2, `the shard is "1"`},
		"shards without a job":   {[]string{"-shards", "8"}, nil, 2, "needs JOB_COMPLETION_INDEX"},
		"a shard twice":          {[]string{"-shards", "8", "-shard", "0/8"}, nil, 2, "not both"},
		"too few shards":         {[]string{"-shards", "8"}, []string{"JOB_COMPLETION_INDEX=8"}, 2, `the shard is "8/8"`},
		"a device is written to": {[]string{"-out", os.DevNull}, nil, 0, "done: 0 lines"},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			got := command(t, tc.environ, "", append([]string{"screen"}, tc.args...)...)
			assert.Equal(t, tc.status, got.status, got.stderr)
			assert.Contains(t, got.stderr, tc.stderr)
			assert.Empty(t, strings.TrimPrefix(got.stdout, "{"), "standard output holds answers or nothing")
		})
	}
	assert.Equal(t, "{}\n", contentOf(t, full))
}

// The parts of several processes are the whole, and keep the numbers of the lines.
func TestShardsAreTheWhole(t *testing.T) {
	t.Parallel()
	input := inFile(t, "in.ndjson", missionLines(t, 100))
	whole := command(t, nil, "", "screen", "-in", input)
	folder := t.TempDir()
	var parts []string
	for k := range 3 {
		index := strconv.Itoa(k)
		args := []string{"screen", "-in", input, "-out", filepath.Join(folder, "out-{shard}.ndjson"), "-shards", "3"}
		got := command(t, []string{"JOB_COMPLETION_INDEX=" + index}, "", args...)
		require.Equal(t, exitOK, got.status, got.stderr)
		lines := strings.SplitAfter(contentOf(t, filepath.Join(folder, "out-"+index+".ndjson")), "\n")
		parts = append(parts, lines[:len(lines)-2]...) // without the summary
		assert.Equal(t, exitOK, command(t, nil, "", "screen", "-in", input, "-shard", index+"/3", "-resume",
			"-out", filepath.Join(folder, "out-"+index+".ndjson")).status)
	}
	number := func(line string) int {
		var l struct{ Line int }
		require.NoError(t, json.Unmarshal([]byte(line), &l))
		return l.Line
	}
	slices.SortFunc(parts, func(a, b string) int { return number(a) - number(b) })
	answers := strings.SplitAfter(whole.stdout, "\n")
	assert.Equal(t, strings.Join(answers[:len(answers)-2], ""), strings.Join(parts, ""))

	got := command(t, nil, "", "screen", "-in", input, "-shard", "1/3", "-resume", "-out", filepath.Join(folder, "out-0.ndjson"))
	assert.Equal(t, exitUsage, got.status)
	assert.Contains(t, got.stderr, "it is to line 1, not to line 2")
}

func TestScreenSaysWhenItCannotReadOrWrite(t *testing.T) {
	t.Parallel()
	var stdout, stderr bytes.Buffer
	status := run(context.Background(), []string{"screen"}, nil, strings.NewReader("{}\n"), brokenWriter{}, &stderr)
	assert.Equal(t, exitFailed, status)
	assert.Contains(t, stderr.String(), "cannot be written")

	stderr.Reset()
	status = run(context.Background(), []string{"screen"}, nil, io.MultiReader(strings.NewReader("{}\n{"), brokenReader{}), &stdout, &stderr)
	assert.Equal(t, exitFailed, status)
	assert.Contains(t, stderr.String(), "closed pipe")
	assert.Contains(t, stdout.String(), `"complete":false`)
	assert.Contains(t, stdout.String(), "unreadable-body")
}

type brokenReader struct{}

func (brokenReader) Read([]byte) (int, error) { return 0, io.ErrClosedPipe }

func TestProgressIsToldInALine(t *testing.T) {
	t.Parallel()
	for n, want := range map[int64]string{0: "0", 999: "999", 1000: "1,000", 1234567: "1,234,567"} {
		assert.Equal(t, want, grouped(n))
	}
	counts := api.ScreeningCounts{
		Lines: 3005, Answers: 3000, Problems: 4, Blank: 1, ByAnswer: api.ByAnswer{Yes: 1000, YesIf: 1500, No: 500},
		Binding: []api.Binding{
			{Code: "a", Severity: "stop", Lines: 500}, {Code: "b", Severity: "needed", Lines: 6}, {Code: "c", Severity: "needed", Lines: 5},
			{Code: "d", Severity: "needed", Lines: 4}, {Code: "e", Severity: "needed", Lines: 3}, {Code: "f", Severity: "needed", Lines: 2},
			{Code: "g", Severity: "needed", Lines: 1},
		},
	}
	assert.Equal(t, "done: 3,005 lines, 1,000 of them from before and 2,005 in 2s, 1,002 a second\n"+
		"  1,000 yes, 1,500 yes if, 500 no, 4 problems, 1 blank\n"+
		"  stop:   a 500\n  needed: b 6, c 5, d 4, e 3, f 2, and 1 more\n", told(counts, 1000, 2*time.Second, true))
	assert.Contains(t, told(api.ScreeningCounts{}, 0, 0, false), "not done: 0 lines in 0s, 0 a second\n")

	// A terminal is shown how far it has come; a device stands for one here.
	device, err := os.OpenFile(os.DevNull, os.O_WRONLY, 0)
	require.NoError(t, err)
	defer func() { _ = device.Close() }()
	desk, err := api.NewDesk("1.0.0")
	require.NoError(t, err)
	r := &screenRun{screening: desk.NewScreening(api.ScreeningOptions{}), input: &screenInput{size: 200}, output: &screenOutput{Writer: io.Discard}, stderr: device}
	r.input.read.Store(50)
	assert.Equal(t, "0 lines (25 %), 0 a second: 0 yes, 0 yes if, 0 no, 0 problems", r.soFar(time.Second))
	r.progress(time.Now())()
}
