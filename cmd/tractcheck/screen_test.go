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
	"syscall"
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

// raceDetector is true where the race detector takes much memory for itself.
var raceDetector = false

// heldLittle asserts that a process has held less than 100 MB up to now, where the system tells.
func heldLittle(t *testing.T, process int) {
	t.Helper()
	text, err := os.ReadFile("/proc/" + strconv.Itoa(process) + "/status")
	_, most, told := strings.Cut(string(text), "\nVmHWM:")
	if err != nil || !told || raceDetector {
		return
	}
	kilobytes, err := strconv.Atoi(strings.Fields(most)[0])
	require.NoError(t, err)
	assert.Less(t, kilobytes, 100_000, "kB in memory at most")
}

// Killed in the middle, again and again, and gone on with: nothing is lost and nothing doubled.
func TestScreenGoesOnAfterItIsKilled(t *testing.T) {
	t.Parallel()
	count := 2000
	if testing.Short() {
		count = 400
	}
	input := inFile(t, "in.ndjson", missionLines(t, count))
	want := command(t, nil, "", "screen", "-in", input)
	require.Equal(t, exitOK, want.status)
	out := filepath.Join(t.TempDir(), "out.ndjson")
	size := func() int64 {
		info, err := os.Stat(out)
		if err != nil {
			return 0
		}
		return info.Size()
	}
	kills := 0
	for part := range int64(3) {
		run := program(t, "screen", "-in", input, "-out", out, "-resume")
		require.NoError(t, run.Start())
		ended := make(chan error, 1)
		go func() { ended <- run.Wait() }()
		for size() < int64(len(want.stdout))*(1+part)/5 {
			select {
			case err := <-ended:
				ended <- err
				require.NoError(t, err)
			default:
				time.Sleep(time.Millisecond)
				continue
			}
			break
		}
		heldLittle(t, run.Process.Pid)
		_ = run.Process.Kill()
		if <-ended != nil {
			kills++
			assert.True(t, strings.HasPrefix(want.stdout, contentOf(t, out)), "what was written stands")
			assert.NotContains(t, contentOf(t, out), `"complete"`)
		}
	}
	require.Positive(t, kills, "it was never killed in the middle")
	var stderr bytes.Buffer
	last := program(t, "screen", "-in", input, "-out", out, "-resume")
	last.Stderr = &stderr
	require.NoError(t, last.Run(), stderr.String())
	assert.Contains(t, stderr.String(), "of them from before")
	assert.Equal(t, want.stdout, contentOf(t, out))
}

func TestScreenStopsOnASignalAndGoesOn(t *testing.T) {
	t.Parallel()
	text := missionLines(t, 100)
	out := filepath.Join(t.TempDir(), "out.ndjson")
	run := program(t, "screen", "-out", out)
	stdin, err := run.StdinPipe()
	require.NoError(t, err)
	var stderr bytes.Buffer
	run.Stderr = &stderr
	require.NoError(t, run.Start())
	half := text[:len(text)/2] // and a part of a line
	_, err = io.WriteString(stdin, half)
	require.NoError(t, err)
	whole := int64(strings.Count(half, "\n"))
	require.Eventually(t, func() bool {
		written, err := os.ReadFile(out)
		return err == nil && bytes.Contains(written, []byte(`{"line":`+strconv.FormatInt(whole, 10)+","))
	}, time.Minute, 10*time.Millisecond, "it waits for the rest of a line, and has answered those before it")
	require.NoError(t, run.Process.Signal(syscall.SIGTERM))
	var exit *exec.ExitError
	require.ErrorAs(t, run.Wait(), &exit)
	assert.Equal(t, exitFailed, exit.ExitCode())
	assert.Contains(t, stderr.String(), "not done:")
	assert.Contains(t, stderr.String(), "-resume")
	assert.Contains(t, contentOf(t, out), `"complete":false`)

	got := command(t, nil, text, "screen", "-out", out, "-resume")
	require.Equal(t, exitOK, got.status, got.stderr)
	assert.Equal(t, command(t, nil, text, "screen").stdout, contentOf(t, out))
}

func TestScreenGoesOnOnlyWithItsOwnOutput(t *testing.T) {
	t.Parallel()
	text := missionLines(t, 30)
	done := command(t, nil, text, "screen").stdout
	lines := strings.SplitAfter(done, "\n")
	some := strings.Join(lines[:12], "")
	for name, tc := range map[string]struct {
		input, output string
		status        int
		stderr        string
	}{
		"nothing yet":               {text, "", 0, "done: 30 lines"},
		"some lines":                {text, some, 0, "of them from before"},
		"a torn line":               {text, some + lines[12][:20], 0, "done: 30 lines"},
		"a torn line of no bytes":   {text, some + "\x00\x00", 0, "done: 30 lines"},
		"all of it":                 {text, done, 0, "done: 30 lines"},
		"more input than before":    {text + "{}\n\n", done, 0, "done: 32 lines"},
		"a mission was changed":     {strings.Replace(text, `"value":`, `"value":0`, 1), some, 2, "cannot go on"},
		"a line was taken out":      {text[strings.Index(text, "\n")+1:], some, 2, "cannot go on"},
		"a line was mended":         {strings.Replace(text, `{"reference":"1"}`, strings.SplitN(text, "\n", 2)[0], 1), some, 2, "cannot go on"},
		"a line is doubled":         {text, some + lines[11], 2, "it is to line"},
		"a line is missing":         {text, some + lines[13], 2, "it is to line"},
		"something after the end":   {text, done + lines[3], 2, "after its summary"},
		"another file altogether":   {text, "name,area\nnorth,40\n", 2, "cannot go on"},
		"less input than was there": {strings.Join(strings.SplitAfter(text, "\n")[:5], ""), some, 2, "more lines than the input has"},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			out := inFile(t, "out.ndjson", tc.output)
			got := command(t, nil, tc.input, "screen", "-out", out, "-resume")
			assert.Equal(t, tc.status, got.status, got.stderr)
			assert.Contains(t, got.stderr, tc.stderr)
			if tc.status != exitOK {
				assert.Equal(t, tc.output, contentOf(t, out), "it is left as it was")
			} else if tc.input == text {
				assert.Equal(t, done, contentOf(t, out))
			}
		})
	}
}

func TestAnOutputIsWrittenByOneProcessAtATime(t *testing.T) {
	t.Parallel()
	out := inFile(t, "out.ndjson", "")
	file, err := os.OpenFile(out, os.O_RDWR, 0)
	require.NoError(t, err)
	require.NoError(t, lock(file))
	got := command(t, nil, "{}", "screen", "-out", out, "-resume")
	assert.Equal(t, exitUsage, got.status)
	assert.Contains(t, got.stderr, "another process")
	require.NoError(t, file.Close())
	assert.Equal(t, exitOK, command(t, nil, "{}", "screen", "-out", out, "-resume").status)
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
