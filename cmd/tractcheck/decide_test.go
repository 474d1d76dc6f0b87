package main

import (
	"bytes"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestHoursAndCompare(t *testing.T) {
	t.Parallel()
	folder := filepath.Join("..", "..", "testdata")
	for command, c := range map[string]struct{ file, holds string }{
		"hours":   {filepath.Join(folder, "spray-hours", "levee-two-days.json"), `"windows":[{"from"`},
		"compare": {filepath.Join(folder, "comparisons", "levee-three-set-ups.json"), `"ranked":[{"label"`},
	} {
		run := func(args ...string) (int, string, string) {
			var stdout, stderr bytes.Buffer
			status := run(t.Context(), append([]string{command}, args...), nil, strings.NewReader(`{}`), &stdout, &stderr)
			return status, stdout.String(), stderr.String()
		}
		status, stdout, stderr := run(c.file)
		assert.Equal(t, exitOK, status, stderr)
		assert.Contains(t, stdout, c.holds)
		assert.True(t, strings.HasSuffix(stdout, "}\n"))

		status, stdout, stderr = run("-")
		assert.Equal(t, exitBad, status)
		assert.Empty(t, stdout)
		assert.Contains(t, stderr, `"/mission"`)

		status, _, stderr = run()
		assert.Equal(t, exitBad, status)
		assert.Contains(t, stderr, command+" takes one file")
		status, stdout, _ = run("-h")
		assert.Equal(t, exitOK, status)
		assert.Contains(t, stdout, "tractcheck "+command)
		status, _, _ = run(filepath.Join(folder, "nothing.json"))
		assert.Equal(t, exitBad, status)
	}
}
