package api

import (
	"net/http"

	"github.com/labstack/echo/v4"
)

// healthz says that the process serves. It does no work and depends on nothing.
func (s *Server) healthz(c echo.Context) error { return probed(c) }

// readyz says whether new requests are welcome; not any more once the service is stopping.
func (s *Server) readyz(c echo.Context) error {
	if s.stopping.Load() {
		return unavailable.problem("The service is stopping. Send requests to another copy of it.")
	}
	return probed(c)
}

func probed(c echo.Context) error {
	c.Response().Header().Set("Cache-Control", "no-store")
	return send(c, http.StatusOK, mediaJSON, []byte(`{"status":"ok"}`))
}
