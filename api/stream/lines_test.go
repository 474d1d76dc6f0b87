package stream

import (
	"bytes"
	"errors"
	"io"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// all reads lines to their end; a line too long is told as "LONG".
func all(lines *Lines) (texts []string, err error) {
	var line Line
	for {
		if err := lines.Read(&line); err != nil {
			return texts, err
		}
		text := string(line.Text)
		if line.Long {
			text += "LONG"
		}
		texts = append(texts, text)
	}
}

func TestLines(t *testing.T) {
	t.Parallel()
	const most = 10
	tests := []struct {
		name, input string
		want        []string
	}{
		{"nothing", "", nil},
		{"one", "a\n", []string{"a"}},
		{"no end of the last line", "a\nb", []string{"a", "b"}},
		{"carriage returns", "a\r\nb\r\n", []string{"a", "b"}},
		{"a carriage return inside", "a\rb\n", []string{"a\rb"}},
		{"blank lines", "\n\r\n \na\n\n", []string{"", "", " ", "a", ""}},
		{"byte order mark", "\xEF\xBB\xBFa\nb\n", []string{"a", "b"}},
		{"byte order mark before the longest line", "\xEF\xBB\xBF0123456789\r\n", []string{"0123456789"}},
		{"byte order mark later", "a\n\xEF\xBB\xBFb\n", []string{"a", "\xEF\xBB\xBFb"}},
		{"byte order mark alone", "\xEF\xBB\xBF", []string{""}},
		{"the longest line", "0123456789\n0123456789\r\n0123456789", []string{"0123456789", "0123456789", "0123456789"}},
		{"one byte too long", "01234567890\nb\n", []string{"LONG", "b"}},
		{"too long by a carriage return inside", "0123456789\r\r\nb\n", []string{"LONG", "b"}},
		{"too long without an end", "a\n" + strings.Repeat("x", 1000), []string{"a", "LONG"}},
		{"longer than what is read at once", strings.Repeat("x", 3*readAhead) + "\nb\n", []string{"LONG", "b"}},
	}
	for _, tc := range tests {
		t.Run(tc.name, func(t *testing.T) {
			t.Parallel()
			for _, in := range []io.Reader{
				strings.NewReader(tc.input), iotest.OneByteReader(strings.NewReader(tc.input)), iotest.DataErrReader(strings.NewReader(tc.input)),
			} {
				got, err := all(NewLines(in, most))
				require.ErrorIs(t, err, io.EOF)
				assert.Equal(t, tc.want, got)
			}
		})
	}
}

func TestLinesAreNumberedAndALineThatBreaksOffIsNone(t *testing.T) {
	t.Parallel()
	broken := errors.New("broken")
	lines := NewLines(io.MultiReader(strings.NewReader("a\n\nb"), iotest.ErrReader(broken)), 10)
	var line Line
	for number := range int64(2) {
		require.NoError(t, lines.Read(&line))
		assert.Equal(t, number+1, line.Number)
		assert.Equal(t, number == 1, line.Blank())
	}
	require.ErrorIs(t, lines.Read(&line), broken)
}

// Whatever the bytes are, the lines are those between line feeds.
func TestLinesAreThoseBetweenLineFeeds(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		input := rapid.SliceOf(rapid.SampledFrom([]byte("ab\n\r\xEF\xBB\xBF"))).Draw(t, "input")
		most := rapid.IntRange(1, 8).Draw(t, "most")
		var want []string
		for i, text := range bytes.SplitAfter(input, []byte("\n")) {
			if len(text) == 0 {
				continue
			}
			if i == 0 {
				text = bytes.TrimPrefix(text, byteOrderMark)
			}
			text = bytes.TrimSuffix(bytes.TrimSuffix(text, []byte("\n")), []byte("\r"))
			if len(text) > most {
				text = []byte("LONG")
			}
			want = append(want, string(text))
		}
		got, err := all(NewLines(bytes.NewReader(input), most))
		require.ErrorIs(t, err, io.EOF)
		require.Equal(t, want, got)
	})
}

func TestALongLineTakesNoRoom(t *testing.T) {
	t.Parallel()
	lines := NewLines(io.MultiReader(io.LimitReader(endless{}, 64<<20), strings.NewReader("\nb\n")), 1000)
	var line Line
	require.NoError(t, lines.Read(&line))
	assert.True(t, line.Long)
	assert.Less(t, cap(line.Text), 4*readAhead)
	require.NoError(t, lines.Read(&line))
	assert.Equal(t, "b", string(line.Text))
}

// endless is a line without an end.
type endless struct{}

func (endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = 'x'
	}
	return len(p), nil
}

func BenchmarkLines(b *testing.B) {
	line := strings.Repeat("x", 4000) + "\n"
	lines := NewLines(repeated(line), 1<<20)
	var read Line
	b.SetBytes(int64(len(line)))
	b.ReportAllocs()
	for b.Loop() {
		if err := lines.Read(&read); err != nil {
			b.Fatal(err)
		}
	}
}

// repeated is a text over and over.
type repeatedReader struct {
	text string
	at   int
}

func repeated(text string) *repeatedReader { return &repeatedReader{text: text} }

func (r *repeatedReader) Read(p []byte) (int, error) {
	n := copy(p, r.text[r.at:])
	r.at = (r.at + n) % len(r.text)
	return n, nil
}
