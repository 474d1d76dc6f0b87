package api

import (
	"errors"
	"net/http"

	"github.com/labstack/echo/v4"

	"tractcheck/api/sheet/form"
	"tractcheck/api/wire"
)

// judgeHours shows the page that asks for the weather of the hours, or judges them.
func (s *Server) judgeHours(c echo.Context, values form.Values, weather string, asked bool) error {
	var faults []wire.Fault
	if asked {
		request, found := s.form.HoursRequest(values, weather)
		reply, found, err := s.decided(c, decision{wire.SprayHours, (*Desk).sprayHours}, request, found)
		if err != nil {
			return err
		}
		if len(found) == 0 {
			return sendPage(c, http.StatusOK)(s.form.HoursAnswered(reply.Body, values, weather, request))
		}
		faults = found
	}
	return sendPage(c, statusOf(faults))(s.form.Hours(values, weather, faults))
}

// compareSetUps shows the page that asks for other ways of doing the job, or compares them.
func (s *Server) compareSetUps(c echo.Context, values form.Values, setUps []form.Values, asked bool) error {
	var faults []wire.Fault
	if asked {
		request, found := s.form.SetUpsRequest(values, setUps)
		reply, found, err := s.decided(c, decision{wire.Comparisons, (*Desk).compare}, request, found)
		if err != nil {
			return err
		}
		if len(found) == 0 {
			return sendPage(c, http.StatusOK)(s.form.SetUpsAnswered(reply.Body, values, setUps, request))
		}
		faults = found
	}
	return sendPage(c, statusOf(faults))(s.form.SetUps(values, setUps, faults))
}

// decided answers a question about many hours or set-ups, unless the form has found faults already
// that leave no request to answer. The faults are all that are known.
func (s *Server) decided(c echo.Context, d decision, request []byte, known []wire.Fault) (Reply, []wire.Fault, error) {
	var reply Reply
	if request != nil {
		var err error
		var p *Problem
		reply, err = s.decideOn(c, d, request)
		if errors.As(err, &p) && len(p.Faults) > 0 {
			known = append(known, form.Beside(known, p.Faults)...)
		} else if err != nil {
			return Reply{}, nil, err
		}
	}
	if len(known) > 0 {
		_ = s.noted(c, faulty(known))
		return Reply{}, known, nil
	}
	s.metrics.answered(d.endpoint, reply.Answer)
	return reply, nil, nil
}

func statusOf(faults []wire.Fault) int {
	if len(faults) > 0 {
		return http.StatusUnprocessableEntity
	}
	return http.StatusOK
}

// sendPage sends a page that may have failed to be written.
func sendPage(c echo.Context, status int) func([]byte, error) error {
	return func(page []byte, err error) error {
		if err != nil {
			return err
		}
		return send(c, status, mediaPage, page)
	}
}
