package api

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"mime"
	"net/http"
	"net/url"
	"os"
	"slices"
	"strings"

	"github.com/labstack/echo/v4"
)

// Media types of bodies.
const (
	mediaJSON    = "application/json"
	mediaMap     = "application/geo+json"
	mediaYAML    = "application/yaml"
	mediaProblem = "application/problem+json"
	mediaPage    = "text/html"
	mediaStyle   = "text/css"

	// mediaPageFile asks for a page that is a file of its own. It is asked for by programs of the
	// house alone, and is no media type.
	mediaPageFile = "text/html as a file"
)

// readBody checks the envelope of a request and reads its body whole, so that everything that
// follows sees the same bytes. The limit is exact, and holds for chunked bodies too.
func (s *Server) readBody(c echo.Context) ([]byte, error) {
	request := c.Request()
	for _, check := range []func(*http.Request) error{jsonBody, plainCoding, noQuery} {
		if err := check(request); err != nil {
			return nil, err
		}
	}
	return s.wholeBody(c)
}

// wholeBody reads a body to its end, within its size and its time.
func (s *Server) wholeBody(c echo.Context) ([]byte, error) {
	request := c.Request()
	if request.ContentLength > s.config.MaxBody {
		return nil, tooLarge(s.config.MaxBody)
	}
	if err := request.Context().Err(); err != nil {
		return nil, err // no time is left to read it in
	}
	if end, ok := request.Context().Deadline(); ok {
		// A connection that cannot do it, as in some tests, is bounded by its server alone.
		_ = http.NewResponseController(c.Response()).SetReadDeadline(end)
	}
	n := notesOf(c)
	n.body = s.load.body(callerOf(c))
	body, err := n.body.read(http.MaxBytesReader(c.Response().Writer, request.Body, s.config.MaxBody), request.ContentLength)
	if err != nil {
		return nil, unread(err)
	}
	return body, nil
}

// unread makes the problem of a body that could not be read to its end.
func unread(err error) error {
	var tooMany *http.MaxBytesError
	var p *Problem
	if errors.As(err, &tooMany) || errors.As(err, &p) {
		return err
	}
	return brokenOff(err,
		"Send the body without a pause. Over a slow line, simplify its geometry: that is mostly what is large.",
		"The connection broke or the body was cut short. Send the request again.")
}

// brokenOff makes the problem of a body that did not arrive whole, because its time was over or for
// another reason; each has words of its own.
func brokenOff(err error, late, cut string) *Problem {
	p := unreadableBody.problem(cut)
	if errors.Is(err, os.ErrDeadlineExceeded) || errors.Is(err, context.DeadlineExceeded) {
		p = bodyTimeout.problem(late)
	}
	p.cause = err
	return p
}

// jsonBody admits application/json and application/*+json in any letter case, in UTF-8.
func jsonBody(r *http.Request) error {
	if sentAs(r, isJSON) {
		return nil
	}
	p := wrongMediaType.problem("Send the body as JSON in UTF-8, with the header Content-Type: application/json.")
	p.header = map[string]string{"Accept-Post": mediaJSON}
	return p
}

// sentAs reports whether a body is said to be of a media type that is admitted, in UTF-8.
func sentAs(r *http.Request, admitted func(mediaType string) bool) bool {
	sent := r.Header.Values("Content-Type")
	if len(sent) != 1 {
		return false
	}
	mediaType, parameters, err := mime.ParseMediaType(sent[0])
	charset, named := parameters["charset"]
	return err == nil && admitted(mediaType) && (!named || strings.EqualFold(charset, "utf-8"))
}

func isJSON(mediaType string) bool {
	subtype, ok := strings.CutPrefix(mediaType, "application/")
	return ok && (subtype == "json" || (strings.HasSuffix(subtype, "+json") && len(subtype) > len("+json")))
}

// plainCoding refuses compressed bodies: a small one could unpack to any size.
func plainCoding(r *http.Request) error {
	for _, value := range r.Header.Values("Content-Encoding") {
		for coding := range strings.SplitSeq(value, ",") {
			if coding = strings.TrimSpace(coding); coding != "" && !strings.EqualFold(coding, "identity") {
				p := wrongContentCoding.problem("Send the body as it is, not compressed, without a Content-Encoding header.")
				p.header = map[string]string{"Accept-Encoding": "identity"}
				return p
			}
		}
	}
	return nil
}

// noQuery refuses every query parameter: a question is in the body alone, and one that is misspelled
// in the address must not be read as if it were not there.
func noQuery(r *http.Request) error {
	if r.URL.RawQuery == "" {
		return nil
	}
	query, err := url.ParseQuery(r.URL.RawQuery)
	if err != nil {
		return unknownParameter.problem("The query of the address cannot be read. Leave out everything from the ? on.")
	}
	names := slices.Sorted(maps.Keys(query))
	const named = 5
	if len(names) > named {
		names = append(names[:named], "...")
	}
	for i, name := range names {
		names[i] = fmt.Sprintf("%.40q", name)
	}
	return unknownParameter.problem("This address has no query parameters, but got " + strings.Join(names, ", ") +
		". Leave out everything from the ? on; the question is in the body.")
}
