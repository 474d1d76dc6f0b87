package main

import (
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "rewrite testdata/answers from the engine")

// answered runs the command on a mission and reads its answer. The engine and the digest name the
// build, so they are left out.
func answered(t *testing.T, mission string) (map[string]any, int) {
	t.Helper()
	var stdout, stderr bytes.Buffer
	status := run(context.Background(), []string{"assess", mission}, nil, strings.NewReader(""), &stdout, &stderr)
	require.Empty(t, stderr.String())
	var answer map[string]any
	require.NoError(t, json.Unmarshal(stdout.Bytes(), &answer))
	delete(answer, "engine")
	delete(answer, "digest")
	return answer, status
}

// TestAnswersAreCurrent holds the sample answers to what the engine says today. They are samples
// of the shape and a record of what a change moves; the numbers are proved in their rooms.
func TestAnswersAreCurrent(t *testing.T) {
	missions, err := filepath.Glob("../../testdata/missions/*.json")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(missions), 8)
	verdicts := map[any]int{}
	for _, mission := range missions {
		t.Run(filepath.Base(mission), func(t *testing.T) {
			answer, status := answered(t, mission)
			assert.Equal(t, map[any]int{"yes": exitYes, "no": exitNo, "yes_if": exitYesIf}[answer["answer"]], status)
			verdicts[answer["answer"]]++
			assert.Contains(t, answer["reference"], "Invented example", "samples are marked as invented")
			path := filepath.Join("../../testdata/answers", filepath.Base(mission))
			if *update {
				text, err := json.MarshalIndent(answer, "", " ")
				require.NoError(t, err)
				require.NoError(t, os.WriteFile(path, append(text, '\n'), 0o644))
				return
			}
			text, err := os.ReadFile(path)
			require.NoError(t, err, "go test ./cmd/tractcheck -run Answers -update writes it")
			var want map[string]any
			require.NoError(t, json.Unmarshal(text, &want))
			assert.Equal(t, want, answer)
		})
	}
	for _, verdict := range []string{"yes", "yes_if", "no"} {
		assert.Positive(t, verdicts[verdict], "no sample mission is answered %s", verdict)
	}
}

// TestReadmeTellsTheTruth holds the excerpt of the README to the engine's answer.
func TestReadmeTellsTheTruth(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	excerpt := regexp.MustCompile("(?s)<!-- answer excerpt: (\\S+) -->\n```json\n(.*?)```").FindSubmatch(text)
	require.NotNil(t, excerpt, "the README marks its excerpt")
	var shown map[string]any
	require.NoError(t, json.Unmarshal(excerpt[2], &shown))
	answer, _ := answered(t, filepath.Join("../..", string(excerpt[1])))
	within(t, "", shown, answer)
}

// TestReadmeTellsTheTruthOfScreenings holds the other excerpt to what screen says.
func TestReadmeTellsTheTruthOfScreenings(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	excerpt := regexp.MustCompile("(?s)<!-- screening excerpt: (\\S+) -->\n```json\n(.*?)```").FindSubmatch(text)
	require.NotNil(t, excerpt, "the README marks its excerpt")
	var stdout, stderr bytes.Buffer
	status := run(context.Background(), []string{"screen", "-in", filepath.Join("../..", string(excerpt[1]))}, nil, strings.NewReader(""), &stdout, &stderr)
	require.Equal(t, exitOK, status, stderr.String())
	answers := strings.Split(strings.TrimSpace(stdout.String()), "\n")
	shown := strings.Split(strings.TrimSpace(string(excerpt[2])), "\n")
	require.Len(t, shown, len(answers))
	for i := range shown {
		var part, whole map[string]any
		require.NoError(t, json.Unmarshal([]byte(shown[i]), &part))
		require.NoError(t, json.Unmarshal([]byte(answers[i]), &whole))
		within(t, fmt.Sprintf("line %d", i+1), part, whole)
	}
}

// within asserts that everything shown stands in the whole, at the same place.
func within(t *testing.T, at string, shown, whole any) {
	t.Helper()
	switch s := shown.(type) {
	case map[string]any:
		w, is := whole.(map[string]any)
		require.True(t, is, at)
		for name, value := range s {
			require.Contains(t, w, name, at)
			within(t, at+"/"+name, value, w[name])
		}
	case []any:
		w, is := whole.([]any)
		require.True(t, is, at)
		require.LessOrEqual(t, len(s), len(w), at)
		for i := range s {
			within(t, fmt.Sprintf("%s/%d", at, i), s[i], w[i])
		}
	default:
		assert.Equal(t, whole, shown, at)
	}
}
