package api

import (
	"context"
	"fmt"
	"net/http"

	"github.com/labstack/echo/v4"

	"tractcheck/api/wire"
	"tractcheck/feasibility"
)

// decision is a question about more than one mission: many hours, or many set-ups.
type decision struct {
	endpoint wire.Endpoint
	answer   func(*Desk, context.Context, []byte) (Reply, error)
}

// decisions are all such questions, in the order of the contract.
func decisions() []decision {
	return []decision{
		{wire.SprayHours, (*Desk).sprayHours},
		{wire.Comparisons, (*Desk).compare},
	}
}

// decide registers them.
func (s *Server) decide() {
	for _, d := range decisions() {
		s.echo.POST("/v1/"+string(d.endpoint), s.postDecision(d))
	}
}

// postDecision answers one question. The answer is JSON alone.
func (s *Server) postDecision(d decision) echo.HandlerFunc {
	return func(c echo.Context) error {
		c.Response().Header().Set("Cache-Control", "no-store")
		c.Response().Header().Add("Vary", "Accept")
		if _, err := accepted(c.Request(), mediaJSON); err != nil {
			return err
		}
		body, err := s.readBody(c)
		if err != nil {
			return err
		}
		reply, err := s.decideOn(c, d, body)
		notesOf(c).body.release()
		if err != nil {
			return err
		}
		defer reply.release()
		s.metrics.answered(d.endpoint, reply.Answer)
		return send(c, http.StatusOK, reply.Form, reply.Body)
	}
}

// selfWriter is an answer that writes itself as JSON.
type selfWriter interface {
	AppendJSON(to []byte) ([]byte, error)
}

// decideOn answers when a turn to compute has come.
func (s *Server) decideOn(c echo.Context, d decision, body []byte) (Reply, error) {
	ctx := c.Request().Context()
	return s.inTurn(c, func() (Reply, error) { return d.answer(s.desk, ctx, body) })
}

// written encodes the answer to a decision. Of the answer the metrics count the verdict and the findings.
func written(endpoint wire.Endpoint, answer selfWriter, counted feasibility.Answer) (Reply, error) {
	page := pages.Get().(*[]byte)
	encoded, err := answer.AppendJSON((*page)[:0])
	if err != nil {
		return Reply{}, fmt.Errorf("encoding the answer for %s: %w", endpoint, err)
	}
	*page = encoded
	return Reply{Body: encoded, Form: mediaJSON, Answer: counted, page: page}, nil
}
