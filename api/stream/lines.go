package stream

import (
	"bufio"
	"bytes"
	"errors"
	"io"
)

// Line is one line of a stream.
type Line struct {
	Number int64  // counted from 1; blank lines count, too
	Text   []byte // without its end; empty where the line is too long
	Long   bool   // it is longer than the limit, and was skipped
}

// Blank reports whether there is nothing on the line but white space.
func (l Line) Blank() bool { return !l.Long && len(bytes.TrimLeft(l.Text, " \t\r")) == 0 }

// Lines reads lines of a bounded length. A line that is longer is reported without its text, and
// reading goes on after it.
type Lines struct {
	in     *bufio.Reader
	most   int
	number int64
}

// readAhead is how much is read at once. Own choice: some lines of usual missions.
const readAhead = 64 << 10

// byteOrderMark is the UTF-8 form of U+FEFF.
var byteOrderMark = []byte{0xEF, 0xBB, 0xBF}

// NewLines makes a reader of lines of at most so many bytes each, their ends not counted.
func NewLines(in io.Reader, most int) *Lines {
	return &Lines{in: bufio.NewReaderSize(in, readAhead), most: most}
}

// Read reads the next line into the place of an old one, whose text it overwrites. The error is
// io.EOF after the last line; any other is of the input, and the line it broke off is not reported.
func (l *Lines) Read(line *Line) error {
	line.Text, line.Long = line.Text[:0], false
	begun := false
	for {
		part, err := l.in.ReadSlice('\n')
		begun = begun || len(part) > 0
		l.keep(line, part)
		switch {
		case errors.Is(err, bufio.ErrBufferFull):
			continue
		case errors.Is(err, io.EOF) && begun, err == nil:
			l.finish(line)
			return nil
		default:
			return err
		}
	}
}

// keep adds a part to a line, as long as the line may still be within the limit with its end.
func (l *Lines) keep(line *Line, part []byte) {
	const longestEnd = 2 // a carriage return and a line feed
	line.Long = line.Long || len(line.Text)+len(part) > l.most+longestEnd+len(byteOrderMark)
	if !line.Long {
		line.Text = append(line.Text, part...)
	}
}

// finish numbers a line and takes off what is not of its text.
func (l *Lines) finish(line *Line) {
	l.number++
	line.Number = l.number
	if line.Number == 1 {
		// In place, so that the room before it is not lost.
		line.Text = append(line.Text[:0], bytes.TrimPrefix(line.Text, byteOrderMark)...)
	}
	line.Text = bytes.TrimSuffix(line.Text, []byte{'\n'})
	line.Text = bytes.TrimSuffix(line.Text, []byte{'\r'})
	if line.Long = line.Long || len(line.Text) > l.most; line.Long {
		line.Text = line.Text[:0]
	}
}
