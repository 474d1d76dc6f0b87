package api

import (
	"crypto/sha256"
	"encoding/hex"
	"net/http"
	"strings"
	"sync"

	"github.com/labstack/echo/v4"
)

// document is a fixed document and its entity tag.
type document struct {
	mediaType string
	body      []byte
	etag      string
}

func newDocument(mediaType string, body []byte) document {
	sum := sha256.Sum256(body)
	return document{mediaType: mediaType, body: body, etag: `"` + hex.EncodeToString(sum[:16]) + `"`}
}

// fixed serves a document that stays as it is for the life of the program. It is made when it is first
// asked for, so that the start of the service does not wait for it.
func fixed(mediaType string, body func() ([]byte, error)) echo.HandlerFunc {
	made := sync.OnceValues(func() (document, error) {
		text, err := body()
		return newDocument(mediaType, text), err
	})
	return func(c echo.Context) error {
		d, err := made()
		if err != nil {
			return err
		}
		return d.get(c)
	}
}

// text is the body of a document that is at hand.
func text(body string) func() ([]byte, error) {
	return func() ([]byte, error) { return []byte(body), nil }
}

// get serves the document, or says that the caller's copy is still good (RFC 9110, section 13.1.2).
func (d document) get(c echo.Context) error {
	header := c.Response().Header()
	header.Set("ETag", d.etag)
	header.Set("Cache-Control", "public, max-age=3600, must-revalidate")
	if matches(c.Request().Header.Values("If-None-Match"), d.etag) {
		return c.NoContent(http.StatusNotModified)
	}
	return send(c, http.StatusOK, d.mediaType, d.body)
}

// matches compares entity tags weakly, as If-None-Match asks for.
func matches(values []string, etag string) bool {
	for _, value := range values {
		for tag := range strings.SplitSeq(value, ",") {
			tag = strings.TrimSpace(tag)
			if tag == "*" || strings.TrimPrefix(tag, "W/") == etag {
				return true
			}
		}
	}
	return false
}
