package main

import (
	"bytes"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

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
