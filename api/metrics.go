package api

import (
	"net/http"
	"slices"
	"strconv"
	"time"

	"github.com/labstack/echo/v4"
	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/collectors"
	"github.com/prometheus/client_golang/prometheus/promauto"
	"github.com/prometheus/client_golang/prometheus/promhttp"

	"tractcheck/api/wire"
	"tractcheck/feasibility"
)

// durationBuckets are the classic buckets of request durations, in seconds. Own choice: a part
// answers in well under a millisecond, a whole assessment in some.
var durationBuckets = []float64{0.00025, 0.0005, 0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.5, 1, 5}

// methods are the methods that have a label of their own; any other is _OTHER, so that callers
// cannot make series.
var methods = []string{
	http.MethodGet, http.MethodHead, http.MethodPost, http.MethodPut, http.MethodPatch,
	http.MethodDelete, http.MethodOptions, http.MethodTrace, http.MethodConnect,
}

// metrics is what the service counts. Every label has a closed set of values: none comes from a
// caller.
type metrics struct {
	registry *prometheus.Registry
	duration *prometheus.HistogramVec
	inFlight prometheus.Gauge
	answers  *prometheus.CounterVec
	findings *prometheus.CounterVec
	problems *prometheus.CounterVec
	faults   *prometheus.CounterVec
	binding  *prometheus.CounterVec
	grades   *prometheus.CounterVec
	lines    *prometheus.CounterVec
}

// newMetrics registers the metrics. A registry takes them once.
func newMetrics(registry *prometheus.Registry, version string) *metrics {
	registry.MustRegister(
		collectors.NewGoCollector(),
		collectors.NewProcessCollector(collectors.ProcessCollectorOpts{}),
	)
	with := promauto.With(registry)
	with.NewGaugeVec(prometheus.GaugeOpts{
		Name: "tractcheck_build_info", Help: "Always 1; the labels say what is running.",
	}, []string{"version", "engine"}).WithLabelValues(version, wire.Engine(version)).Set(1)
	return &metrics{
		registry: registry,
		duration: with.NewHistogramVec(prometheus.HistogramOpts{
			Name: "tractcheck_http_request_duration_seconds", Help: "Time from the header of a request to the end of its answer.",
			Buckets: durationBuckets, NativeHistogramBucketFactor: 1.1, NativeHistogramMaxBucketNumber: 100,
		}, []string{"method", "route", "status"}),
		inFlight: with.NewGauge(prometheus.GaugeOpts{
			Name: "tractcheck_http_requests_in_flight", Help: "Requests being answered now.",
		}),
		answers: with.NewCounterVec(prometheus.CounterOpts{
			Name: "tractcheck_answers_total", Help: "Answers given, by endpoint; a part endpoint has no verdict.",
		}, []string{"endpoint", "answer"}),
		findings: with.NewCounterVec(prometheus.CounterOpts{
			Name: "tractcheck_findings_total", Help: "Findings in answers, by code and severity.",
		}, []string{"code", "severity"}),
		problems: with.NewCounterVec(prometheus.CounterOpts{
			Name: "tractcheck_problems_total", Help: "Problems answered, by type.",
		}, []string{"type"}),
		faults: with.NewCounterVec(prometheus.CounterOpts{
			Name: "tractcheck_faults_total", Help: "Faults of request bodies, by code.",
		}, []string{"code"}),
		binding: with.NewCounterVec(prometheus.CounterOpts{
			Name: "tractcheck_binding_findings_total", Help: "The gravest finding of each whole answer that is not yes, by code.",
		}, []string{"code", "answer"}),
		grades: with.NewCounterVec(prometheus.CounterOpts{
			Name: "tractcheck_drift_grades_total", Help: "Drift grades given.",
		}, []string{"grade"}),
		lines: with.NewCounterVec(prometheus.CounterOpts{
			Name: "tractcheck_screening_lines_total", Help: "Lines of screenings, by what became of them.",
		}, []string{"result"}),
	}
}

// loaded registers the gauges of the load, which are read when they are asked for.
func (m *metrics) loaded(l *load) {
	with := promauto.With(m.registry)
	with.NewGaugeFunc(prometheus.GaugeOpts{
		Name: "tractcheck_computations_in_flight", Help: "Answers being computed now.",
	}, func() float64 { return float64(len(l.computing)) })
	with.NewGaugeFunc(prometheus.GaugeOpts{
		Name: "tractcheck_computations_limit", Help: "Answers computed at once at most.",
	}, func() float64 { return float64(cap(l.computing)) })
	with.NewGaugeFunc(prometheus.GaugeOpts{
		Name: "tractcheck_requests_waiting", Help: "Requests waiting for a turn to compute.",
	}, func() float64 { return float64(l.waiting.Load()) })
	with.NewGaugeFunc(prometheus.GaugeOpts{
		Name: "tractcheck_body_bytes_in_hand", Help: "Memory taken by request bodies in hand.",
	}, func() float64 { return float64(l.small.inHand() + l.bodies.inHand()) })
	with.NewGaugeFunc(prometheus.GaugeOpts{
		Name: "tractcheck_answer_bytes_in_hand", Help: "Memory taken by answers that are computed or not taken yet.",
	}, func() float64 { return float64(l.answers.inHand()) })
}

// handler serves the metrics.
func (m *metrics) handler() http.Handler {
	return promhttp.HandlerFor(m.registry, promhttp.HandlerOpts{
		Registry: m.registry, EnableOpenMetrics: true, MaxRequestsInFlight: 3,
		Timeout: 5 * time.Second, CoalesceGather: true,
	})
}

// measure times every request. It stands outside the layer that turns errors into answers, so the
// status it sees is the one that was sent.
func (s *Server) measure(next echo.HandlerFunc) echo.HandlerFunc {
	return func(c echo.Context) error {
		start := time.Now()
		s.metrics.inFlight.Inc()
		defer s.metrics.inFlight.Dec()
		err := next(c)
		if err != nil {
			c.Error(err) // what the inner layers have answered already is left as it is
		}
		s.metrics.duration.WithLabelValues(
			methodLabel(c.Request().Method), s.routeLabel(c.Path()), strconv.Itoa(c.Response().Status),
		).Observe(time.Since(start).Seconds())
		return err
	}
}

// answered counts an answer and its findings.
func (m *metrics) answered(endpoint wire.Endpoint, answer feasibility.Answer) {
	verdict := string(answer.Verdict)
	if verdict == "" {
		verdict = "none"
	}
	m.answers.WithLabelValues(string(endpoint), verdict).Inc()
	if grade := answer.DriftRisk.Grade; grade != "" {
		m.grades.WithLabelValues(string(grade)).Inc()
	}
	if binds := answer.Verdict == feasibility.No || answer.Verdict == feasibility.YesIf; binds && len(answer.Findings) > 0 {
		m.binding.WithLabelValues(string(answer.Findings[0].Code), verdict).Inc()
	}
	for _, f := range answer.Findings {
		m.findings.WithLabelValues(string(f.Code), string(f.Severity)).Inc()
	}
}

// failed counts a problem and its faults.
func (m *metrics) failed(p *Problem) {
	m.problems.WithLabelValues(p.Type).Inc()
	for _, f := range p.Faults {
		m.faults.WithLabelValues(string(f.Code)).Inc()
	}
}

// screened counts lines of a screening: those with an "answer", with a "problem", and "blank" ones.
func (m *metrics) screened(result string, lines int64) {
	m.lines.WithLabelValues(result).Add(float64(lines))
}

// methodLabel is the label of a method.
func methodLabel(method string) string {
	if slices.Contains(methods, method) {
		return method
	}
	return "_OTHER"
}

// routeLabel is the label of a route; every path nothing is registered for shares one.
func (s *Server) routeLabel(path string) string {
	if s.routes[path] {
		return path
	}
	return "unmatched"
}
