package api

import (
	"errors"
	"io"
	"mime"
	"mime/multipart"
	"net/http"
	"net/url"
	"strings"
	"unicode/utf8"

	"github.com/labstack/echo/v4"

	"tractcheck/api/sheet/form"
)

// Bounds of a posted form beside the size of the body. Own choice: the form has some 200 inputs, and
// 11 more for each row.
const (
	mostInputs   = 4000
	longestInput = 200 // of a name
)

// readForm reads a posted form. It is held in memory, within the size of a body, and nothing of it is
// ever written to a disk.
func (s *Server) readForm(c echo.Context) (form.Values, error) {
	request := c.Request()
	for _, check := range []func(*http.Request) error{plainCoding, noQuery} {
		if err := check(request); err != nil {
			return nil, err
		}
	}
	mediaType, parameters, err := mime.ParseMediaType(request.Header.Get("Content-Type"))
	if err != nil {
		return nil, notForm()
	}
	body, err := s.wholeBody(c)
	if err != nil {
		return nil, err
	}
	switch mediaType {
	case "application/x-www-form-urlencoded":
		return inputs(body)
	case "multipart/form-data":
		return parts(string(body), parameters["boundary"])
	default:
		return nil, notForm()
	}
}

func notForm() *Problem {
	return wrongMediaType.problem("This address takes the form of the page. Send JSON to /v1/assessments.")
}

func brokenForm() *Problem {
	return refused.problem("The form did not arrive as a browser sends it. Open the page anew and send it again.")
}

func tooManyInputs() *Problem {
	return refused.problem("The form has too many fields. For a job with that many rows, send JSON to /v1/assessments.")
}

// inputs reads a form in the plain coding.
func inputs(body []byte) (form.Values, error) {
	if strings.Count(string(body), "&") >= mostInputs {
		return nil, tooManyInputs()
	}
	query, err := url.ParseQuery(string(body))
	if err != nil {
		return nil, brokenForm()
	}
	values := form.Values{}
	for name, texts := range query {
		for _, text := range texts {
			if err := put(values, name, text); err != nil {
				return nil, err
			}
		}
	}
	return values, nil
}

// parts reads a form of parts, one by one. A file counts as if its text had been typed.
func parts(body, boundary string) (form.Values, error) {
	if !strings.HasSuffix(strings.TrimRight(body, "\r\n"), "--"+boundary+"--") {
		return nil, brokenForm() // cut short: what is missing must not be read as left blank
	}
	values, reader := form.Values{}, multipart.NewReader(strings.NewReader(body), boundary)
	for count := 0; ; count++ {
		part, err := reader.NextRawPart()
		if errors.Is(err, io.EOF) {
			return values, nil
		}
		if err != nil {
			return nil, brokenForm()
		}
		if count >= mostInputs {
			return nil, tooManyInputs()
		}
		text, err := io.ReadAll(part)
		if err != nil {
			return nil, brokenForm()
		}
		name, isFile := strings.CutSuffix(part.FormName(), form.File)
		if isFile && len(strings.TrimSpace(string(text))) == 0 {
			continue // no file was chosen
		}
		if isFile {
			delete(values, name) // a file goes before what is typed above it
		}
		if err := put(values, name, strings.TrimPrefix(string(text), "\ufeff")); err != nil {
			return nil, err
		}
	}
}

// put adds one input. Line ends are made alike, as JSON and people have them.
func put(values form.Values, name, text string) error {
	if name == "" || len(name) > longestInput || !utf8.ValidString(name) || !utf8.ValidString(text) {
		return brokenForm()
	}
	values[name] = append(values[name], strings.ReplaceAll(text, "\r\n", "\n"))
	return nil
}
