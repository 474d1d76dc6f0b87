package api

import (
	"net/http"
	"strconv"
	"strings"
	"testing"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/testutil"
	dto "github.com/prometheus/client_model/go"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// counted reads one series of a counter; the labels come in pairs.
func counted(t testing.TB, s *Server, name string, labels ...string) float64 {
	t.Helper()
	families, err := s.config.Registry.Gather()
	require.NoError(t, err)
	total := 0.0
	for _, family := range families {
		if family.GetName() != name {
			continue
		}
		for _, m := range family.GetMetric() {
			if labeled(m, labels) {
				total += m.GetCounter().GetValue() + float64(m.GetHistogram().GetSampleCount()) + m.GetGauge().GetValue()
			}
		}
	}
	return total
}

func labeled(m *dto.Metric, labels []string) bool {
	has := map[string]string{}
	for _, l := range m.GetLabel() {
		has[l.GetName()] = l.GetValue()
	}
	for i := 0; i+1 < len(labels); i += 2 {
		if has[labels[i]] != labels[i+1] {
			return false
		}
	}
	return true
}

func TestMetricsCountWhatHappened(t *testing.T) {
	t.Parallel()
	s, url := serve(t, Config{Version: "1.2.3"})
	call(t, request(t, "POST", url+"/v1/assessments", string(sample(t, levee))))
	call(t, request(t, "POST", url+"/v1/takeoff-weights", string(sample(t, levee))))
	call(t, request(t, "POST", url+"/v1/assessments", `{"a":1,"a":2}`))

	const duration = "tractcheck_http_request_duration_seconds"
	assert.Equal(t, 1.0, counted(t, s, duration, "method", "POST", "route", "/v1/assessments", "status", "200"))
	assert.Equal(t, 1.0, counted(t, s, duration, "method", "POST", "route", "/v1/assessments", "status", "400"))
	assert.Equal(t, 1.0, counted(t, s, "tractcheck_answers_total", "endpoint", "assessments"))
	assert.Equal(t, 1.0, counted(t, s, "tractcheck_answers_total", "endpoint", "takeoff-weights"))
	assert.Equal(t, 1.0, counted(t, s, "tractcheck_faults_total", "code", "duplicate_member"))
	assert.Equal(t, 1.0, counted(t, s, "tractcheck_faults_total", "code", "unknown_member"))
	assert.Greater(t, counted(t, s, "tractcheck_findings_total"), 0.0)
	assert.Equal(t, 1.0, counted(t, s, "tractcheck_build_info", "version", "1.2.3"))
	assert.Equal(t, 0.0, counted(t, s, "tractcheck_http_requests_in_flight"))
}

func TestMetricsAreLintedAndServed(t *testing.T) {
	t.Parallel()
	s, url := serve(t, Config{})
	call(t, request(t, "POST", url+"/v1/assessments", string(sample(t, levee))))
	call(t, request(t, "POST", url+"/v1/assessments", `{}`))
	problems, err := testutil.GatherAndLint(s.config.Registry)
	require.NoError(t, err)
	for _, p := range problems {
		if strings.HasPrefix(p.Metric, "tractcheck_") {
			assert.Fail(t, "metrics lint", "%s: %s", p.Metric, p.Text)
		}
	}
	got := call(t, request(t, "GET", url+"/metrics", ""))
	assert.Equal(t, http.StatusOK, got.StatusCode)
	for _, name := range []string{
		"tractcheck_http_request_duration_seconds_bucket", "tractcheck_http_requests_in_flight 1", "tractcheck_answers_total",
		"tractcheck_findings_total", "tractcheck_faults_total", "tractcheck_problems_total", "tractcheck_build_info", "go_goroutines",
	} {
		assert.Contains(t, string(got.body), name)
	}
	got = call(t, request(t, "GET", url+"/metrics", "", "Accept", "application/openmetrics-text; version=1.0.0"))
	assert.True(t, strings.HasSuffix(string(got.body), "# EOF\n"))
}

func TestCallersCannotMakeSeries(t *testing.T) {
	t.Parallel()
	s, url := serve(t, Config{})
	for i := range 50 {
		n := strconv.Itoa(i)
		call(t, request(t, "GET", url+"/nothing/"+n, ""))
		call(t, request(t, "ODD"+n, url+"/v1/assessments", ""))
		call(t, request(t, "POST", url+"/v1/assessments", `{"member`+n+`":1}`))
	}
	count, err := testutil.GatherAndCount(s.config.Registry,
		"tractcheck_http_request_duration_seconds", "tractcheck_faults_total", "tractcheck_problems_total")
	require.NoError(t, err)
	assert.LessOrEqual(t, count, 12)
	assert.Equal(t, 50.0, counted(t, s, "tractcheck_http_request_duration_seconds", "route", "unmatched", "status", "404"))
	assert.Equal(t, 50.0, counted(t, s, "tractcheck_http_request_duration_seconds", "method", "_OTHER"))
}

func TestARegistryOfTheCallersOwnIsUsed(t *testing.T) {
	t.Parallel()
	registry := prometheus.NewRegistry()
	newServer(t, Config{Registry: registry})
	count, err := testutil.GatherAndCount(registry, "tractcheck_build_info")
	require.NoError(t, err)
	assert.Equal(t, 1, count)
}
