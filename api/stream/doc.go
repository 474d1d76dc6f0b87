// Package stream answers a stream of lines: lines in, lines out, in order and in bounded memory.
//
// Lines reads lines of a bounded length. Pump answers them with several workers and releases the
// answers in the order of the lines. It holds a fixed number of lines and of bytes at a time: where
// the reader of the answers is slow, the reading of lines waits for it, so memory does not grow
// with the length of the stream. What a line means is the caller's.
//
// The framing is that of NDJSON 1.0.0: a line feed ends a line, a carriage return before it is
// taken with it, and the last line needs none. A byte order mark before the first line is skipped
// (RFC 8259, section 8.1, allows it).
package stream
