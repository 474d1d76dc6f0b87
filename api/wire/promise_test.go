package wire

import (
	"encoding/json"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility"
)

// posted reads a body as the service does and answers it.
func posted(t testing.TB, reader *Reader, body []byte) *Answer {
	t.Helper()
	request, mission, digest, faults := reader.Read(Assessments, body)
	require.Empty(t, faults, "%s", body)
	answer, err := feasibility.Assess(mission)
	require.NoError(t, err)
	return NewAnswer(Assessments, Identity{Digest: digest, Engine: "test"}, request, answer)
}

// remedied makes the changes of a remedy in a body, by their pointers and from the answer's own JSON.
func remedied(t testing.TB, body []byte, changes []Change) []byte {
	t.Helper()
	var tree map[string]any
	require.NoError(t, json.Unmarshal(body, &tree))
	text, err := json.Marshal(changes)
	require.NoError(t, err)
	var read []struct {
		Pointer string
		To      any
		Remove  bool
	}
	require.NoError(t, json.Unmarshal(text, &read))
	for _, c := range read {
		require.NotEqual(t, c.Remove, c.To != nil, "%s: either removed or changed to something", c.Pointer)
		if c.Remove {
			drop(tree, c.Pointer)
		} else {
			put(tree, c.Pointer, c.To)
		}
	}
	text, err = json.Marshal(tree)
	require.NoError(t, err)
	return text
}

// open lists the codes of the findings of a severity.
func open(a *Answer, severities ...string) []string {
	codes := map[string]bool{}
	for _, f := range a.Findings {
		if slices.Contains(severities, f.Severity) {
			codes[f.Code] = true
		}
	}
	return slices.Sorted(maps.Keys(codes))
}

// promised holds every remedy of an answer to the answer that the changed request gets, and reports how
// many there were.
func promised(t testing.TB, reader *Reader, body []byte, a *Answer) int {
	t.Helper()
	for _, r := range a.Remedies {
		then := posted(t, reader, remedied(t, body, r.Changes))
		text, err := json.Marshal(r)
		require.NoError(t, err)
		assert.Equal(t, r.AnswerThen, then.Answer, "%s\n%s", text, then.Headline)
		require.NotEmpty(t, r.Lifts, "%s", text)
		stops, needs := open(then, "stop"), open(then, "stop", "needed")
		for _, code := range r.Lifts {
			assert.Contains(t, open(a, "stop", "needed"), code, "%s", text)
			assert.NotContains(t, needs, code, "%s", text)
		}
		for _, code := range stops {
			assert.Contains(t, open(a, "stop"), code, "a new stop: %s", text)
		}
		assert.NotEmpty(t, r.Costs)
	}
	hasWay := slices.ContainsFunc(a.Remedies, func(r Remedy) bool { return r.AnswerThen != "no" })
	switch stopped := len(open(a, "stop")) > 0; {
	case a.Answer == "no":
		assert.True(t, stopped, a.Headline)
		assert.False(t, hasWay, a.Headline)
		assert.NotEmpty(t, a.RemediesNote, "said plainly that nothing lifts it: %s", a.Headline)
	case stopped:
		assert.True(t, hasWay, a.Headline)
		assert.Empty(t, a.RemediesNote)
	default:
		assert.Empty(t, a.RemediesNote)
	}
	return len(a.Remedies)
}

func TestRemediesOfEveryMissionKeepTheirPromise(t *testing.T) {
	t.Parallel()
	reader, err := NewReader("test")
	require.NoError(t, err)
	files, err := filepath.Glob(filepath.Join("..", "..", "testdata", "missions", "*.json"))
	require.NoError(t, err)
	remedies := 0
	for _, file := range files {
		body, err := os.ReadFile(file)
		require.NoError(t, err)
		a := posted(t, reader, body)
		n := promised(t, reader, body, a)
		remedies += n
		t.Logf("%-28s %-7s %d remedies: %s", filepath.Base(file), a.Answer, n, a.Headline)
		for _, r := range a.Remedies {
			said := ""
			for _, c := range r.Changes {
				to, _ := json.Marshal(c.To)
				said += " " + c.Pointer + "=" + string(to)
			}
			t.Logf("      %s lifts %v -> %s (%s)", said, r.Lifts, r.AnswerThen, r.Costs)
		}
	}
	assert.Positive(t, remedies)
}
