package api

import (
	"context"
	"errors"
	"log/slog"
	"net/http"
	"time"

	"github.com/labstack/echo/v4"
	"github.com/labstack/echo/v4/middleware"
)

// accessLog writes one line for each request: the route, never the address, and never a body. It
// hands errors to fail first, so that the status in the log is the one that was sent.
func (s *Server) accessLog() echo.MiddlewareFunc {
	return middleware.RequestLoggerWithConfig(middleware.RequestLoggerConfig{
		Skipper:         func(c echo.Context) bool { return isProbe(c.Path()) },
		HandleError:     true,
		LogMethod:       true,
		LogLatency:      true,
		LogStatus:       true,
		LogRemoteIP:     true,
		LogResponseSize: true,
		LogValuesFunc: func(c echo.Context, v middleware.RequestLoggerValues) error {
			n := notesOf(c)
			attributes := []slog.Attr{
				slog.String("request_id", n.requestID),
				slog.String("trace_id", n.traceID),
				slog.String("method", methodLabel(v.Method)),
				slog.String("route", s.routeLabel(c.Path())),
				slog.Int("status", v.Status),
				slog.Float64("duration_ms", float64(v.Latency)/float64(time.Millisecond)),
				slog.Int64("bytes_in", max(c.Request().ContentLength, 0)),
				slog.Int64("bytes_out", v.ResponseSize),
				slog.String("remote_ip", v.RemoteIP),
			}
			if n.caller != "" {
				attributes = append(attributes, slog.String("caller", n.caller))
			}
			if n.problem != "" {
				attributes = append(attributes, slog.String("problem", n.problem), slog.Int("faults", n.faults))
			}
			level := n.level(v.Status)
			if level == slog.LevelError && n.cause != nil {
				attributes = append(attributes, slog.String("error", n.cause.Error()))
			}
			s.config.Logger.LogAttrs(c.Request().Context(), level, "request", attributes...)
			return nil
		},
	})
}

// level is how grave a request's end is. Where the caller hung up, nothing is wrong. A question that was
// sent away because too many are in hand is no mistake: under a flood it would hide those that are.
func (n *notes) level(status int) slog.Level {
	switch {
	case status < 500, errors.Is(n.cause, context.Canceled):
		return slog.LevelInfo
	case status == http.StatusServiceUnavailable && n.cause == nil:
		return slog.LevelWarn
	default:
		return slog.LevelError
	}
}

func isProbe(path string) bool {
	return path == "/healthz" || path == "/readyz" || path == "/metrics"
}

// recovered turns a panic into an error for fail, and logs where it came from.
func (s *Server) recovered() echo.MiddlewareFunc {
	return middleware.RecoverWithConfig(middleware.RecoverConfig{
		DisableStackAll:     true,
		DisableErrorHandler: true,
		LogErrorFunc: func(c echo.Context, err error, stack []byte) error {
			s.config.Logger.Error("panic", "request_id", notesOf(c).requestID,
				"route", s.routeLabel(c.Path()), "error", err.Error(), "stack", string(stack))
			return err
		},
	})
}

// secure sets the header fields that every answer carries, failures included. The policy lets a
// browser do nothing with an answer but show it.
func (s *Server) secure(next echo.HandlerFunc) echo.HandlerFunc {
	return func(c echo.Context) error {
		header := c.Response().Header()
		header.Set("X-Content-Type-Options", "nosniff")
		header.Set("Content-Security-Policy", "default-src 'none'; frame-ancestors 'none'")
		header.Set("Referrer-Policy", "no-referrer")
		header.Set("Link", `</openapi.json>; rel="service-desc"; type="application/json"`)
		if s.stopping.Load() {
			// The caller's next request must come on a new connection, which a balancer sends elsewhere.
			header.Set("Connection", "close")
		}
		if s.config.TLSInFront {
			header.Set("Strict-Transport-Security", "max-age=31536000")
		}
		return next(c)
	}
}

// deadline gives every request a context that ends, but a screening, which bounds each of its lines
// instead. The error it leads to becomes a problem in fail.
func (s *Server) deadline() echo.MiddlewareFunc {
	return middleware.ContextTimeoutWithConfig(middleware.ContextTimeoutConfig{
		Skipper:      func(c echo.Context) bool { return c.Path() == screeningsPath },
		Timeout:      s.config.Timeout,
		ErrorHandler: func(err error, _ echo.Context) error { return err },
	})
}
