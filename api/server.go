package api

import (
	"net/http"
	"sync"
	"sync/atomic"
	"time"

	"github.com/labstack/echo/v4"

	"tractcheck/api/sheet"
	"tractcheck/api/sheet/form"
	"tractcheck/openapi"
)

// Server is the service as an http.Handler.
type Server struct {
	config   Config
	desk     *Desk
	metrics  *metrics
	load     *load
	echo     *echo.Echo
	routes   map[string]bool
	stopping atomic.Bool
	screens  *screens

	allowances *allowances // nil where there is no limit

	form      *form.Form // there once formMade is done
	formError error
	formMade  sync.Once
	warming   sync.Once
}

// New makes a service. The error names every setting that cannot work.
func New(config Config) (*Server, error) {
	if err := config.Validate(); err != nil {
		return nil, err
	}
	config = config.withDefaults()
	desk, err := NewDesk(config.Version)
	if err != nil {
		return nil, err
	}
	s := &Server{
		config:  config,
		desk:    desk,
		metrics: newMetrics(config.Registry, config.Version),
		echo:    echo.New(),
		routes:  map[string]bool{},
		load:    newLoad(config.Computations, config.Timeout),
		screens: newScreens(config.Screenings),

		allowances: newAllowances(config.RateLimit, time.Now),
	}
	s.metrics.loaded(s.load)
	s.echo.HTTPErrorHandler = s.fail
	s.echo.IPExtractor = echo.ExtractIPDirect() // the address of the connection, which no header can forge
	s.echo.Use(identify, s.measure, s.accessLog(), s.recovered(), s.secure, s.deadline(), s.gate)
	s.route()
	return s, nil
}

// route registers every address of the service.
func (s *Server) route() {
	for _, r := range resources() {
		s.echo.POST(r.path(), s.post(r))
	}
	s.echo.POST(screeningsPath, s.screen)
	s.decide()
	s.references()
	s.pages()
	s.get("/openapi.json", fixed(mediaJSON, text(openapi.JSON)))
	s.get("/openapi.yaml", fixed(mediaYAML, text(openapi.YAML)))
	s.get(sheet.StylePath, fixed(mediaStyle, text(sheet.Style)))
	s.get("/healthz", s.healthz)
	s.get("/readyz", s.readyz)
	s.get("/metrics", echo.WrapHandler(s.metrics.handler()))
	for _, r := range s.echo.Routes() {
		s.routes[r.Path] = true
	}
}

// get registers a handler for GET, and for HEAD beside it: a server must support both (RFC 9110,
// section 9.1).
func (s *Server) get(path string, handler echo.HandlerFunc) {
	s.echo.GET(path, handler)
	s.echo.HEAD(path, handler)
}

// ServeHTTP answers one request.
func (s *Server) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	s.echo.ServeHTTP(w, r)
	s.warming.Do(func() { time.AfterFunc(warmAfter, s.warm) })
}

// warmAfter is when, after its first answer, the service makes what nobody has asked for yet. Own choice:
// who waited for it to be ready has been answered by then.
const warmAfter = 200 * time.Millisecond

// warm makes what is made only where it is asked for, so that hardly a request waits for it, nor does the
// start of the service.
func (s *Server) warm() {
	s.desk.reader.Warm()
	_ = s.makeForm() // its failure is that of every page
}

// Drain makes the service say that it is not ready, so that balancers send new requests elsewhere.
// Requests are still answered.
func (s *Server) Drain() { s.stopping.Store(true) }

// Halt ends the screenings that run: they read no more, answer the lines in hand, and say in their
// last line that they are not complete. No new one begins.
func (s *Server) Halt() { s.screens.halt() }
