package main

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"log/slog"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/api"
)

// entry is a line of the log.
type entry map[string]any

func entries(t *testing.T, log string) []entry {
	t.Helper()
	var all []entry
	for line := range strings.Lines(log) {
		var e entry
		require.NoError(t, json.Unmarshal([]byte(line), &e), line)
		all = append(all, e)
	}
	return all
}

// served is the log of a service that is told to stop before it begins.
func served(t *testing.T, environ []string, args ...string) string {
	t.Helper()
	ctx, stop := context.WithCancel(t.Context())
	stop()
	var log bytes.Buffer
	args = append([]string{"serve", "-listen", "127.0.0.1:0", "-drain", "0s"}, args...)
	require.Equal(t, exitOK, run(ctx, args, environ, strings.NewReader(""), &log, io.Discard))
	return log.String()
}

func TestTheFirstLineSaysWhatGuardsTheService(t *testing.T) {
	t.Parallel()
	_, first, err := api.NewKey("north")
	require.NoError(t, err)
	_, second, err := api.NewKey("south")
	require.NoError(t, err)
	file := filepath.Join(t.TempDir(), "private-keys")
	require.NoError(t, os.WriteFile(file, []byte(first+"\n"+second+"\n"), 0o600))
	tests := []struct {
		name    string
		environ []string
		args    []string
		want    entry
	}{
		{"nothing set", nil, nil, entry{
			"keys": 0.0, "rate_limit": 0.0, "max_body": float64(api.DefaultMaxBody), "computations": float64(runtime.GOMAXPROCS(0)),
		}},
		{"all set", []string{"TRACTCHECK_API_KEYS_FILE=" + file, "TRACTCHECK_RATE_LIMIT=2.5"}, []string{"-max-body", "1000", "-computations", "3"}, entry{
			"keys": 2.0, "rate_limit": 2.5, "max_body": 1000.0, "computations": 3.0,
		}},
	}
	for _, tc := range tests {
		t.Run(tc.name, func(t *testing.T) {
			t.Parallel()
			text := served(t, tc.environ, tc.args...)
			log := entries(t, text)
			require.NotEmpty(t, log)
			assert.Equal(t, "serving", log[0]["msg"])
			for name, want := range tc.want {
				assert.Equal(t, want, log[0][name], name)
			}
			assert.NotContains(t, text, "north", "who holds a key")
			assert.NotContains(t, text, "private", "where the keys are")
		})
	}
}

// What a person meant as a key or a limit must not vanish without a word.
func TestAVariableThatIsNoSettingIsWarnedOf(t *testing.T) {
	t.Parallel()
	text := served(t, []string{"TRACTCHECK_KEYS=a-secret", "OTHER=1", "TRACTCHECK_RATE_LIMITS=a-secret", "TRACTCHECK_TLS=true"})
	log := entries(t, text)
	require.Greater(t, len(log), 2)
	for i, want := range []struct{ variable, nearest string }{
		{"TRACTCHECK_KEYS", "TRACTCHECK_API_KEYS"}, {"TRACTCHECK_RATE_LIMITS", "TRACTCHECK_RATE_LIMIT"},
	} {
		assert.Equal(t, "WARN", log[i]["level"])
		assert.Equal(t, want.variable, log[i]["variable"])
		assert.Equal(t, want.nearest, log[i]["nearest"])
		assert.Contains(t, log[i]["msg"], "is no setting")
	}
	assert.Equal(t, "serving", log[2]["msg"], "nothing else is warned of, and it serves all the same")
	assert.NotContains(t, text, "a-secret", "values are never written")
}

func TestStrays(t *testing.T) {
	t.Parallel()
	var settings []string
	for _, s := range serveSettings {
		settings = append(settings, s.variable+"=x")
	}
	tests := []struct {
		name    string
		environ []string
		want    []string
	}{
		{"none", nil, nil},
		{"every setting", settings, nil},
		{"other programs", []string{"PATH=/bin", "TRACT=1", "GOMEMLIMIT=1", "MY_TRACTCHECK_KEYS=1", "TRACTCHECKKEYS=1", "=C:=C:"}, nil},
		{"of the checks, the tests and the compose file", []string{
			"TRACTCHECK_BROWSER=required", "TRACTCHECK_AXE=/axe", "TRACTCHECK_SHOTS=/shots", "TRACTCHECK_CI_PORT=1",
			"TRACTCHECK_CI_BODIES=1", "TRACTCHECK_VERSION=1", "TRACTCHECK_COMMIT=1",
		}, nil},
		{"links to the service", []string{
			"TRACTCHECK_SERVICE_HOST=10.0.0.1", "TRACTCHECK_SERVICE_PORT=80", "TRACTCHECK_SERVICE_PORT_HTTP=80", "TRACTCHECK_PORT=tcp://10.0.0.1:80",
			"TRACTCHECK_PORT_8080_TCP=tcp://10.0.0.1:80", "TRACTCHECK_PORT_80_TCP_PROTO=tcp", "TRACTCHECK_PORT_80_TCP_PORT=80",
			"TRACTCHECK_PORT_80_UDP_ADDR=10.0.0.1",
		}, nil},
		{"links to a service beside it", []string{
			"TRACTCHECK_CANARY_SERVICE_HOST=10.0.0.1", "TRACTCHECK_CANARY_SERVICE_PORT=80", "TRACTCHECK_CANARY_SERVICE_PORT_HTTP=80",
			"TRACTCHECK_CANARY_PORT=tcp://10.0.0.1:80", "TRACTCHECK_CANARY_PORT_80_TCP_ADDR=10.0.0.1",
		}, nil},
		{"forms like links", []string{
			"TRACTCHECK_LISTEN_PORT=80", "TRACTCHECK_PORTS=80", "TRACTCHECK_PORT_NUMBER=80", "TRACTCHECK_SERVICE=x",
		}, []string{"TRACTCHECK_LISTEN_PORT", "TRACTCHECK_PORTS", "TRACTCHECK_PORT_NUMBER", "TRACTCHECK_SERVICE"}},
		{"letter case, nothing after the name, the same twice", []string{
			"tractcheck_api_keys=x", "Tractcheck_TLS", "TRACTCHECK_=1", "TRACTCHECK_KEY=", "TRACTCHECK_KEY=2",
		}, []string{"tractcheck_api_keys", "Tractcheck_TLS", "TRACTCHECK_", "TRACTCHECK_KEY"}},
	}
	for _, tc := range tests {
		t.Run(tc.name, func(t *testing.T) {
			t.Parallel()
			assert.ElementsMatch(t, tc.want, strays(tc.environ))
		})
	}
}

func TestNearestSetting(t *testing.T) {
	t.Parallel()
	for name, want := range map[string]string{
		"TRACTCHECK_KEYS": "TRACTCHECK_API_KEYS", "TRACTCHECK_KEY": "TRACTCHECK_API_KEYS", "TRACTCHECK_APIKEY": "TRACTCHECK_API_KEYS",
		"TRACTCHECK_KEYS_FILE": "TRACTCHECK_API_KEYS_FILE", "TRACTCHECK_RATE_LIMITS": "TRACTCHECK_RATE_LIMIT",
		"TRACTCHECK_RATE": "TRACTCHECK_RATE_LIMIT", "TRACTCHECK_RATE_LIMIT_PER_SECOND": "TRACTCHECK_RATE_LIMIT",
		"TRACTCHECK_TIMOUT": "TRACTCHECK_TIMEOUT", "TRACTCHECK_MAXBODY": "TRACTCHECK_MAX_BODY", "TRACTCHECK_LOGLEVEL": "TRACTCHECK_LOG_LEVEL",
		"TRACTCHECK_LISTEN_PORT": "TRACTCHECK_LISTEN", "tractcheck_tls": "TRACTCHECK_TLS",
		"TRACTCHECK_": "", "TRACTCHECK_X": "", "TRACTCHECK_PALETTE": "", "TRACTCHECK_API_PALETTE": "",
		"TRACTCHECK_" + strings.Repeat("LONG", 1000): "",
	} {
		assert.Equal(t, want, nearestSetting(name), name)
	}
}

// A line of the least grave level that is asked for is all that is written.
func TestWarningsKeepToTheLogLevel(t *testing.T) {
	t.Parallel()
	for level, want := range map[slog.Level]int{slog.LevelInfo: 1, slog.LevelWarn: 1, slog.LevelError: 0} {
		var log bytes.Buffer
		warnOfStrays([]string{"TRACTCHECK_X=1"}, slog.New(slog.NewJSONHandler(&log, &slog.HandlerOptions{Level: level})))
		found := entries(t, log.String())
		require.Len(t, found, want, level)
		for _, e := range found {
			assert.NotContains(t, e, "nearest")
		}
	}
}
