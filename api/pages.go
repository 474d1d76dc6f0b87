package api

import (
	"errors"
	"fmt"
	"net/http"
	"strings"
	"sync"

	"github.com/labstack/echo/v4"

	"tractcheck/api/sheet/docs"
	"tractcheck/api/sheet/form"
	"tractcheck/api/wire"
)

// pages registers the form, the documentation and what they are made of.
func (s *Server) pages() {
	s.get("/", s.asPage(s.showForm))
	s.echo.POST("/", s.asPage(s.submit))
	s.get("/docs", s.showDocs)
	s.get("/assets/:file", asset())
}

// makeForm makes the form when the first page is asked for. The error is for a form that the contract
// does not go with, which is a mistake of the build.
func (s *Server) makeForm() error {
	s.formMade.Do(func() { s.form, s.formError = form.New() })
	if s.formError != nil {
		return fmt.Errorf("making the form: %w", s.formError)
	}
	return nil
}

// asset serves what the pages are made of.
func asset() echo.HandlerFunc {
	files := sync.OnceValue(func() map[string]echo.HandlerFunc {
		files := map[string]echo.HandlerFunc{form.StylePath: fixed(mediaStyle, text(form.Style))}
		for _, a := range docs.Assets() {
			files[a.Path] = unpacked(a)
		}
		return files
	})
	return func(c echo.Context) error {
		file, ok := files()[c.Request().URL.Path]
		if !ok {
			return echo.ErrNotFound
		}
		return file(c)
	}
}

// asPage sets the policy of a page, and answers a failure with a page too: it is a person who reads
// it.
func (s *Server) asPage(next echo.HandlerFunc) echo.HandlerFunc {
	return func(c echo.Context) error {
		c.Response().Header().Set("Cache-Control", "no-store")
		if err := s.makeForm(); err != nil {
			return err
		}
		err := next(c)
		if err == nil || c.Response().Committed {
			return err
		}
		p := s.noted(c, err)
		page, failed := s.form.Trouble(p.Title, p.Detail)
		if failed != nil {
			return failed
		}
		return send(c, p.Status, mediaPage, page)
	}
}

// showForm is the form, with what it starts from.
func (s *Server) showForm(c echo.Context) error {
	start, units := "", ""
	for name, values := range c.Request().URL.Query() {
		switch {
		case name == "start" && len(values) == 1:
			start = values[0]
		case name == "units" && len(values) == 1 && (values[0] == "us" || values[0] == "si"):
			units = values[0]
		default:
			return unknownParameter.problem("This page knows start and units (us or si), each once. Open it without what stands behind the ?.")
		}
	}
	values, err := s.form.Begin(start, units)
	if err != nil {
		return notFound.problem("There is no such example or machine to start from. Open the page without what stands behind the ?.")
	}
	return s.sendForm(c, http.StatusOK, form.Page{Values: values, Start: start})
}

func (s *Server) sendForm(c echo.Context, status int, page form.Page) error {
	body, err := s.form.Render(page)
	if err != nil {
		return err
	}
	return send(c, status, mediaPage, body)
}

// submit does what a button of the form asks for. Nothing is stored and no caller is known, so a post
// from elsewhere could change nothing; it is answered like any other.
func (s *Server) submit(c echo.Context) error {
	values, err := s.readForm(c)
	if err != nil {
		return err
	}
	action := form.Check
	if asked := values[form.Do]; len(asked) > 0 && asked[0] != "" {
		action = form.Action(asked[0])
	}
	delete(values, form.Do)
	weather := strings.Join(values[form.HoursInput], "\n")
	delete(values, form.HoursInput)
	setUps := form.SplitSetUps(values)
	values, blanks := s.form.Tidy(values)
	list, adds := strings.CutPrefix(string(action), string(form.AddRow))
	switch {
	case adds:
		blanks[list] += 2
		return s.sendForm(c, http.StatusOK, form.Page{Values: values, More: map[string]int{list: blanks[list]}})
	case action == form.UnitsUS:
		return s.sendForm(c, http.StatusOK, form.Page{Values: s.form.In(values, "us")})
	case action == form.UnitsSI:
		return s.sendForm(c, http.StatusOK, form.Page{Values: s.form.In(values, "si")})
	case action == form.Edit:
		return s.sendForm(c, http.StatusOK, form.Page{Values: values})
	case action == form.AskHours, action == form.Hours:
		return s.judgeHours(c, values, weather, action == form.Hours)
	case action == form.AskSetUps, action == form.CompareAll:
		return s.compareSetUps(c, values, setUps, action == form.CompareAll)
	default:
		return s.check(c, values)
	}
}

// check answers the job that was typed, or shows what is wrong beside it.
func (s *Server) check(c echo.Context, values form.Values) error {
	request, faults := s.form.Request(values)
	for _, name := range s.form.Unknown(values) {
		faults = append(faults, wire.Fault{Code: wire.FaultUnknown, Message: fmt.Sprintf(
			"This form is older than the service: it sent %.60q, which is not known. Open the page anew.", name)})
	}
	reply, err := s.compute(c, assessments, request, []string{mediaPage})
	var p *Problem
	if errors.As(err, &p) && len(p.Faults) > 0 {
		faults = append(faults, form.Beside(faults, p.Faults)...)
	} else if err != nil {
		return err
	}
	if len(faults) > 0 {
		problem := faulty(faults)
		problem.Status = http.StatusUnprocessableEntity
		_ = s.noted(c, problem)
		return s.sendForm(c, problem.Status, form.Page{Values: values, Faults: faults})
	}
	s.metrics.answered(assessments.endpoint, reply.Answer)
	page, err := s.form.Answered(reply.Body, values, request)
	if err != nil {
		return err
	}
	return send(c, http.StatusOK, mediaPage, page)
}

// noted makes a problem of a failure and counts it, as fail does.
func (s *Server) noted(c echo.Context, err error) *Problem {
	p := problemOf(err)
	notes := notesOf(c)
	notes.problem, notes.cause, notes.faults = p.Type, p.cause, len(p.Faults)
	s.metrics.failed(p)
	for name, value := range p.header {
		c.Response().Header().Set(name, value)
	}
	return p
}

// showDocs is the documentation of the service, for programmers.
func (s *Server) showDocs(c echo.Context) error {
	page, err := docs.Page()
	if err != nil {
		return err
	}
	header := c.Response().Header()
	header.Set("Content-Security-Policy", docs.Policy)
	header.Set("Cache-Control", "no-cache")
	return c.HTMLBlob(http.StatusOK, page)
}

// unpacked serves a file of the documentation. It is stored packed; a caller that does not take it so
// gets it unpacked. The two have entity tags of their own.
func unpacked(a docs.Asset) echo.HandlerFunc {
	packed := fixed(a.MediaType, func() ([]byte, error) { return a.Packed, nil })
	return func(c echo.Context) error {
		header := c.Response().Header()
		header.Add("Vary", "Accept-Encoding")
		if takesGzip(c.Request()) {
			header.Set("Content-Encoding", "gzip")
			return packed(c)
		}
		plain, err := a.Plain()
		if err != nil {
			return err
		}
		return newDocument(a.MediaType, plain).get(c)
	}
}

// takesGzip reports whether a caller names gzip among the codings it takes, and does not refuse it.
func takesGzip(r *http.Request) bool {
	for _, value := range r.Header.Values("Accept-Encoding") {
		for entry := range strings.SplitSeq(value, ",") {
			coding, weight, _ := strings.Cut(strings.ReplaceAll(entry, " ", ""), ";")
			refused := weight != "" && strings.Trim(strings.TrimPrefix(weight, "q="), "0.") == ""
			if strings.EqualFold(coding, "gzip") && !refused {
				return true
			}
		}
	}
	return false
}
