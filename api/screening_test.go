package api

import (
	"bytes"
	"errors"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/api/stream"
	"tractcheck/feasibility"
)

// lastLine reads lines to the last one.
func lastLine(lines *stream.Lines) (line stream.Line, err error) {
	for {
		var next stream.Line
		if err := lines.Read(&next); errors.Is(err, io.EOF) {
			return line, nil
		} else if err != nil {
			return line, err
		}
		line = next
	}
}

func TestAnAnswerIsRecalledOnlyToItsOwnLine(t *testing.T) {
	t.Parallel()
	desk, err := NewDesk("1.0.0")
	require.NoError(t, err)
	good, bad := compact(t, levee), "{}"
	first := desk.NewScreening(ScreeningOptions{assess: quick})
	var out bytes.Buffer
	input := good + "\n" + bad + "\n" + good + "\n"
	require.NoError(t, first.Run(t.Context(), first.Lines(strings.NewReader(input)), &out))
	written := strings.SplitAfter(out.String(), "\n")

	other, err := NewDesk("1.0.1")
	require.NoError(t, err)
	for _, tc := range []struct {
		name    string
		desk    *Desk
		number  int64
		line    string
		written string
		sound   bool
	}{
		{"an answer", desk, 1, good, written[0], true},
		{"an answer to the same mission in other words", desk, 1, strings.Replace(good, `"value":10.5`, `"value":1.05e1`, 1), written[0], true},
		{"a problem", desk, 2, bad, written[1], true},
		{"another number", desk, 2, good, written[0], false},
		{"another mission", desk, 1, strings.Replace(good, `"value":2.6`, `"value":2.5`, 1), written[0], false},
		{"another release", other, 1, good, written[0], false},
		{"a problem that was mended", desk, 2, good, written[1], false},
		{"a problem that is another now", desk, 2, `{"a":1}`, written[1], false},
		{"no answer", desk, 1, good, "{}\n", false},
		{"no JSON", desk, 1, good, "{\n", false},
		{"counts that cannot be", desk, 1, good, strings.Replace(written[0], `"stops":0`, `"stops":99`, 1), false},
	} {
		t.Run(tc.name, func(t *testing.T) {
			t.Parallel()
			require.Equal(t, strings.Contains(tc.name, "mission"), tc.line != good && tc.line != bad && tc.line != `{"a":1}`, "the sample has changed")
			screening := tc.desk.NewScreening(ScreeningOptions{assess: quick})
			lines := screening.Lines(strings.NewReader(strings.Repeat("\n", int(tc.number-1)) + tc.line))
			line, err := lastLine(lines)
			require.NoError(t, err)
			err = screening.Recall(line, []byte(tc.written))
			if tc.sound {
				require.NoError(t, err)
				assert.Equal(t, int64(1), screening.Counts().Lines)
				return
			}
			require.ErrorIs(t, err, ErrOtherStream)
			assert.Zero(t, screening.Counts().Lines)
		})
	}
}

// BenchmarkScreening is the cost of a line: of the whole, and without the physics.
func BenchmarkScreening(b *testing.B) {
	desk, err := NewDesk("bench")
	require.NoError(b, err)
	line := compact(b, levee) + "\n"
	for name, assess := range map[string]func(feasibility.Mission) (feasibility.Answer, error){"whole": feasibility.Assess, "stream": quick} {
		b.Run(name, func(b *testing.B) {
			screening := desk.NewScreening(ScreeningOptions{assess: assess})
			b.SetBytes(int64(len(line)))
			b.ReportAllocs()
			input := strings.NewReader(strings.Repeat(line, b.N))
			b.ResetTimer()
			require.NoError(b, screening.Run(b.Context(), screening.Lines(input), io.Discard))
		})
	}
}
