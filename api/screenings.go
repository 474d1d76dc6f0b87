package api

import (
	"context"
	"errors"
	"log/slog"
	"net/http"
	"runtime"
	"slices"
	"strings"

	"github.com/labstack/echo/v4"

	"tractcheck/api/stream"
	"tractcheck/api/wire"
	"tractcheck/feasibility"
)

// screeningsPath is where many missions are posted, one a line.
const screeningsPath = "/v1/screenings"

// screeningsLabel names the route in the metrics.
const screeningsLabel wire.Endpoint = "screenings"

// Media types of lines of JSON. The names differ, the form is one.
const (
	mediaNDJSON = "application/x-ndjson"
	mediaJSONL  = "application/jsonl"
)

var (
	lineForms = []string{mediaNDJSON, mediaJSONL}                                   // of answers
	lineTypes = append(slices.Clone(lineForms), "application/ndjson", "text/jsonl") // of requests
)

// screens bounds the screenings of a service, and ends them.
type screens struct {
	running chan struct{}   // as many as may run at a time
	working chan struct{}   // as many lines as all of them together work at
	halted  context.Context // ends when screenings must; it lives as long as the service
	halt    context.CancelFunc
	assess  func(feasibility.Mission) (feasibility.Answer, error)
}

func newScreens(most int) *screens {
	s := &screens{
		running: make(chan struct{}, most), working: make(chan struct{}, runtime.GOMAXPROCS(0)), assess: feasibility.Assess,
	}
	s.halted, s.halt = context.WithCancel(context.Background())
	return s
}

// errHalted says that the service is stopping.
var errHalted = errors.New("the service is stopping")

// screen answers a stream of missions while it is being sent. Once the first answer is on its way
// the status is 200 for good: what goes wrong later is said on the line, or in the last line.
func (s *Server) screen(c echo.Context) error {
	header := c.Response().Header()
	header.Set("Cache-Control", "no-store")
	header.Add("Vary", "Accept")
	forms, err := accepted(c.Request(), lineForms...)
	if err != nil {
		return err
	}
	for _, check := range []func(*http.Request) error{lineBody, plainCoding, noQuery} {
		if err := check(c.Request()); err != nil {
			return err
		}
	}
	leave, err := s.screens.enter()
	if err != nil {
		return err
	}
	defer leave()
	connection := newDuplex(c, s.config.Stall)
	if err := connection.open(); err != nil {
		return err
	}
	// A stream may stop with input unread; a connection that is not used again cannot take the rest
	// of it for the next request.
	header.Set("Connection", "close")
	header.Set("Content-Type", forms[0])
	return s.stream(c, connection)
}

// enter takes a place among the screenings that run.
func (s *screens) enter() (leave func(), err error) {
	if s.halted.Err() != nil {
		return nil, endOf(errHalted)
	}
	select {
	case s.running <- struct{}{}:
		return func() { <-s.running }, nil
	default:
		return nil, unavailable.problem("As many screenings run as may run at a time. Wait a little and send it again.")
	}
}

// stream answers the lines of a connection and writes the last line.
func (s *Server) stream(c echo.Context, connection *duplex) error {
	ctx, cancel := context.WithCancelCause(c.Request().Context())
	defer cancel(nil)
	defer context.AfterFunc(s.screens.halted, func() { cancel(errHalted) })()
	screening := s.desk.NewScreening(ScreeningOptions{
		MaxLine: int(s.config.MaxBody), before: s.paced(ctx, c, connection.expect), interrupt: connection.interrupt, slots: s.screens.working, assess: s.screens.assess,
		answered: s.lineAnswered, failed: s.lineFailed(notesOf(c).requestID),
	})
	err := screening.Run(ctx, screening.Lines(connection), connection)
	if err != nil && errors.Is(context.Cause(ctx), errHalted) && !errors.Is(err, stream.ErrOutput) {
		err = errHalted
	}
	counts := screening.Counts()
	s.metrics.screened("blank", counts.Blank)
	if err != nil {
		s.config.Logger.LogAttrs(ctx, slog.LevelInfo, "a screening ended early", slog.String("request_id", notesOf(c).requestID),
			slog.Int64("lines", counts.Lines), slog.String("error", err.Error()))
		if errors.Is(err, stream.ErrOutput) {
			return err // nobody is there to be told
		}
		if !c.Response().Committed {
			return endOf(err)
		}
	}
	if _, err := connection.Write(screening.Summary(err)); err != nil {
		return err
	}
	return connection.Flush()
}

// lineAnswered counts the answer to a line.
func (s *Server) lineAnswered(answer feasibility.Answer) {
	s.metrics.answered(screeningsLabel, answer)
	s.metrics.screened("answer", 1)
}

// lineFailed counts the problem of a line, and logs what caused one of the service's own.
func (s *Server) lineFailed(requestID string) func(int64, *Problem) {
	return func(line int64, p *Problem) {
		s.metrics.failed(p)
		s.metrics.screened("problem", 1)
		if p.cause != nil {
			s.config.Logger.Error("a line could not be answered", "request_id", requestID, "line", line, "error", p.cause.Error())
		}
	}
}

// endOf makes the problem of a screening that ended early.
func endOf(err error) *Problem {
	var p *Problem
	switch {
	case errors.As(err, &p):
		return p
	case errors.Is(err, errHalted):
		p = unavailable.problem("The service is stopping. Send the lines after the last one answered to another copy of it.")
	case errors.Is(err, context.Canceled):
		p = unavailable.problem("The screening was stopped. Send the lines after the last one answered again.")
	default:
		return brokenOff(err,
			"A line took too long to arrive. Send the lines after the last one answered again, without a pause.",
			"The input broke off before its end. Send the lines after the last one answered again.")
	}
	p.cause = err
	return p
}

// lineBody admits lines of JSON, under any of their names and in any letter case, in UTF-8.
func lineBody(r *http.Request) error {
	if sentAs(r, func(mediaType string) bool { return slices.Contains(lineTypes, mediaType) }) {
		return nil
	}
	p := wrongMediaType.problem("Send one mission a line, as JSON in UTF-8, with the header Content-Type: " + mediaNDJSON + ".")
	p.header = map[string]string{"Accept-Post": strings.Join(lineForms, ", ")}
	return p
}
