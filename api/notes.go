package api

import (
	"crypto/rand"
	"encoding/hex"
	"regexp"
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
	body      hold   // the bytes of the body in hand
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

// goodRequestID is what is taken over from a caller: short, and safe in logs and headers.
var goodRequestID = regexp.MustCompile(`^[A-Za-z0-9._-]{1,64}$`)

// identify gives every request an id, the caller's own where it is good, and sends it back; and a
// trace id for the log.
func identify(next echo.HandlerFunc) echo.HandlerFunc {
	return func(c echo.Context) error {
		n := notesOf(c)
		if id := c.Request().Header.Get(echo.HeaderXRequestID); goodRequestID.MatchString(id) {
			n.requestID = id
		}
		if id, ok := traceID(c.Request().Header.Values("Traceparent")); ok {
			n.traceID = id
		}
		c.Response().Header().Set(echo.HeaderXRequestID, n.requestID)
		return next(c)
	}
}

// traceparent is the header of W3C Trace Context, version 1, section 3.2. Versions after 00 may
// append fields.
var traceparent = regexp.MustCompile(`^([0-9a-f]{2})-([0-9a-f]{32})-([0-9a-f]{16})-[0-9a-f]{2}(-.*)?$`)

// traceID reads the trace id of a traceparent header. One that is malformed counts as absent.
func traceID(values []string) (string, bool) {
	if len(values) != 1 {
		return "", false
	}
	m := traceparent.FindStringSubmatch(values[0])
	if m == nil {
		return "", false
	}
	version, trace, span, more := m[1], m[2], m[3], m[4]
	zeros := strings.Trim(trace, "0") == "" || strings.Trim(span, "0") == ""
	if version == "ff" || zeros || (version == "00" && more != "") {
		return "", false
	}
	return trace, true
}

// randomName makes a random name of n bytes, in hexadecimal digits.
func randomName(n int) string {
	bytes := make([]byte, n)
	_, _ = rand.Read(bytes) // never fails
	return hex.EncodeToString(bytes)
}
