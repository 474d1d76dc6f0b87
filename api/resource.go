package api

import (
	"net/http"

	"github.com/labstack/echo/v4"

	"tractcheck/api/wire"
	"tractcheck/feasibility"
)

// resource is one kind of question: its request shape and the part of feasibility that answers it.
type resource struct {
	endpoint wire.Endpoint
	assess   func(feasibility.Mission) (feasibility.Answer, error)
	forms    []string // beside JSON, the forms the answer comes in
}

// media are the forms the answer comes in, JSON first.
func (r resource) media() []string { return append([]string{mediaJSON}, r.forms...) }

// resources are all questions of the service, in the order of the contract.
func resources() []resource {
	return []resource{
		assessments, takeoffWeights, ratePressures, driftRisks, sortiePlans, authorizationChecklists,
	}
}

// path is where the questions are posted.
func (r resource) path() string { return "/v1/" + string(r.endpoint) }

// post answers one question.
func (s *Server) post(r resource) echo.HandlerFunc {
	return func(c echo.Context) error {
		c.Response().Header().Set("Cache-Control", "no-store")
		c.Response().Header().Add("Vary", "Accept")
		forms, err := accepted(c.Request(), r.media()...)
		if err != nil {
			return err
		}
		body, err := s.readBody(c)
		if err != nil {
			return err
		}
		reply, err := s.compute(c, r, body, forms)
		notesOf(c).body.release()
		if err != nil {
			return err
		}
		defer reply.release()
		s.metrics.answered(r.endpoint, reply.Answer)
		return send(c, http.StatusOK, reply.Form, reply.Body)
	}
}

// compute answers when a turn to compute has come.
func (s *Server) compute(c echo.Context, r resource, body []byte, forms []string) (Reply, error) {
	return s.inTurn(c, func() (Reply, error) { return s.desk.answer(r, body, forms...) })
}

// inTurn does a job of a request when its turn has come.
func (s *Server) inTurn(c echo.Context, job func() (Reply, error)) (Reply, error) {
	n := notesOf(c)
	n.answer = s.load.answer(callerOf(c))
	return s.load.compute(c.Request().Context(), &n.answer, job)
}
