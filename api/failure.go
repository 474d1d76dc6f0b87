package api

import (
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"github.com/labstack/echo/v4"

	"tractcheck/api/sheet"
)

// fail is the last resort for every error of every layer. The framework may call it twice for one
// request; once an answer has begun there is nothing left to say.
func (s *Server) fail(err error, c echo.Context) {
	if c.Response().Committed {
		return
	}
	p := problemOf(err)
	p.Instance = instance(c)
	notes := notesOf(c)
	notes.problem, notes.cause, notes.faults = p.Type, p.cause, len(p.Faults)
	s.metrics.failed(p)
	header := c.Response().Header()
	for name, value := range p.header {
		header.Set(name, value)
	}
	header.Set("Cache-Control", "no-store")
	body, err := encode(p)
	if err != nil {
		// Only a fault's value could fail to encode; the problem is worth more than its faults.
		p.Faults = nil
		body, _ = encode(p)
	}
	if err := send(c, p.Status, mediaProblem, body); err != nil {
		s.config.Logger.Warn("the answer could not be sent", "request_id", notes.requestID, "error", err)
	}
}

// instance names this one failure: the path of the request and its id.
func instance(c echo.Context) string {
	const longest = 200
	path := "/" + strings.TrimLeft(c.Request().URL.Path, "/")
	if len(path) > longest {
		path = path[:longest]
	}
	reference := url.URL{Path: path, Fragment: notesOf(c).requestID}
	return reference.String()
}

// send writes a whole answer. A page gets the policy of pages. HEAD gets the header of what GET would have sent.
func send(c echo.Context, status int, mediaType string, body []byte) error {
	header := c.Response().Header()
	if mediaType == mediaPage {
		header.Set("Content-Security-Policy", sheet.Policy)
	}
	if strings.HasPrefix(mediaType, "text/") {
		mediaType += "; charset=utf-8"
	}
	header.Set("Content-Type", mediaType)
	header.Set("Content-Length", strconv.Itoa(len(body)))
	c.Response().WriteHeader(status)
	if c.Request().Method == http.MethodHead {
		return nil
	}
	_, err := c.Response().Write(body)
	return err
}
