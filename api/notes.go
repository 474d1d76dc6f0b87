package api

import (
	"crypto/rand"
	"encoding/hex"
	"strings"

	"github.com/labstack/echo/v4"
)

// notes is what is known of one request beside the request itself.
type notes struct {
	requestID string
	traceID   string
	problem   string // the type of the problem, where there was one
	cause     error  // what caused it, for the log
	faults    int
	caller    string // the holder of the key that was shown
	body      hold   // of the memory for bodies
	answer    hold   // of that for answers
}

// release gives back what the request held of the memory.
func (n *notes) release() {
	n.body.release()
	n.answer.release()
}

const notesKey = "tractcheck.notes"

// notesOf finds the notes of a request; new ones where the middleware did not run.
func notesOf(c echo.Context) *notes {
	if n, ok := c.Get(notesKey).(*notes); ok {
		return n
	}
	n := &notes{requestID: randomName(16), traceID: randomName(16)}
	c.Set(notesKey, n)
	return n
}

// isName reports whether a text is what names may look like, those of keys and those that callers give
// their requests: short, and safe in logs and headers.
func isName(text string) bool {
	const longest = 64
	for i := range len(text) {
		switch c := text[i]; {
		case 'a' <= c && c <= 'z', 'A' <= c && c <= 'Z', '0' <= c && c <= '9', c == '.', c == '_', c == '-':
		default:
			return false
		}
	}
	return text != "" && len(text) <= longest
}

// identify gives every request an id, the caller's own where it is good, and sends it back; and a
// trace id for the log.
func identify(next echo.HandlerFunc) echo.HandlerFunc {
	return func(c echo.Context) error {
		n := notesOf(c)
		if id := c.Request().Header.Get(echo.HeaderXRequestID); isName(id) {
			n.requestID = id
		}
		if id, ok := traceID(c.Request().Header.Values("Traceparent")); ok {
			n.traceID = id
		}
		c.Response().Header().Set(echo.HeaderXRequestID, n.requestID)
		return next(c)
	}
}

// traceID reads the trace id of a traceparent header (W3C Trace Context, version 1, section 3.2). One that
// is malformed counts as absent. Versions after 00 may append fields.
func traceID(values []string) (string, bool) {
	if len(values) != 1 {
		return "", false
	}
	fields := strings.SplitN(values[0], "-", 5)
	if len(fields) < 4 {
		return "", false
	}
	version, trace, span, flags := fields[0], fields[1], fields[2], fields[3]
	sound := isHex(version, 2) && isHex(trace, 32) && isHex(span, 16) && isHex(flags, 2)
	zeros := strings.Trim(trace, "0") == "" || strings.Trim(span, "0") == ""
	if !sound || zeros || version == "ff" || (version == "00" && len(fields) > 4) {
		return "", false
	}
	return trace, true
}

// isHex reports whether a text is so many hexadecimal digits in lower case.
func isHex(text string, digits int) bool {
	return len(text) == digits && strings.Trim(text, "0123456789abcdef") == ""
}

// randomName makes a random name of n bytes, in hexadecimal digits.
func randomName(n int) string {
	bytes := make([]byte, n)
	_, _ = rand.Read(bytes) // never fails
	return hex.EncodeToString(bytes)
}
