package api

import (
	"bytes"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/api/wire"
	"tractcheck/openapi"
)

func TestEveryRouteIsAnOperationAndTheReverse(t *testing.T) {
	t.Parallel()
	s := newServer(t, Config{})
	routes := []string{}
	heads := map[string]bool{}
	for _, r := range s.echo.Routes() {
		r.Path = strings.ReplaceAll(r.Path, ":file", "{file}")
		if r.Method == http.MethodHead {
			heads[r.Path] = true
			continue
		}
		routes = append(routes, strings.ToLower(r.Method)+" "+r.Path)
	}
	operations := []string{}
	for path, methods := range contractPaths() {
		for method := range methods {
			if method == "head" {
				continue
			}
			operations = append(operations, method+" "+path)
			_, gets := methods["get"]
			assert.Equal(t, gets, heads[path], "HEAD must stand beside GET at %s", path)
		}
	}
	assert.ElementsMatch(t, operations, routes)
}

func TestEverySampleMissionIsAnsweredByEveryEndpoint(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{})
	files, err := filepath.Glob("../testdata/missions/*.json")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), 8)
	for _, file := range files {
		name := filepath.Base(file)
		body := string(sample(t, name))
		for _, r := range resources() {
			t.Run(name+" "+string(r.endpoint), func(t *testing.T) {
				t.Parallel()
				got := call(t, request(t, "POST", url+r.path(), body))
				if strings.HasPrefix(name, "bad_") {
					assert.NotEmpty(t, got.problem.Faults)
					return
				}
				require.Equal(t, http.StatusOK, got.StatusCode, "%s", got.body)
				assert.Equal(t, mediaJSON, got.Header.Get("Content-Type"))
				assert.Equal(t, "no-store", got.Header.Get("Cache-Control"))
				assert.Contains(t, got.Header.Values("Vary"), "Accept")
				assert.NotContains(t, string(got.body), "null", "lists are never null and absent members are absent")
			})
		}
	}
}

// Every request example of the contract is sent, and must be answered.
func TestEveryExampleOfTheContractIsAnswered(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{})
	var document map[string]any
	require.NoError(t, json.Unmarshal([]byte(openapi.JSON), &document))
	sent := 0
	for path, methods := range contractPaths() {
		post, ok := methods["post"].(map[string]any)
		if !ok {
			continue
		}
		media := at(post, "requestBody", "content", mediaJSON)
		for name, example := range at(media, "examples") {
			example := example.(map[string]any)
			if ref, ok := example["$ref"].(string); ok {
				example = at(document, strings.Split(strings.TrimPrefix(ref, "#/"), "/")...)
			}
			body, err := json.Marshal(example["value"])
			require.NoError(t, err)
			got := call(t, request(t, "POST", url+path, string(body)))
			assert.Equal(t, http.StatusOK, got.StatusCode, "%s %s: %s", path, name, got.body)
			sent++
		}
	}
	assert.GreaterOrEqual(t, sent, len(resources()))
}

func at(object map[string]any, path ...string) map[string]any {
	for _, name := range path {
		object, _ = object[name].(map[string]any)
	}
	return object
}

func TestTheSameRequestGivesTheSameBytes(t *testing.T) {
	t.Parallel()
	_, first := serve(t, Config{})
	_, second := serve(t, Config{})
	body := sample(t, levee)
	var spaced, dense bytes.Buffer
	require.NoError(t, json.Indent(&spaced, body, " ", "\t"))
	require.NoError(t, json.Compact(&dense, body))
	want := call(t, request(t, "POST", first+"/v1/assessments", string(body)))
	for _, same := range []string{string(body), spaced.String(), dense.String()} {
		got := call(t, request(t, "POST", second+"/v1/assessments", same))
		require.Equal(t, string(want.body), string(got.body))
	}
	var answer struct{ Digest, Engine string }
	require.NoError(t, json.Unmarshal(want.body, &answer))
	assert.Regexp(t, `^sha256:[0-9a-f]{64}$`, answer.Digest)
	assert.Equal(t, wire.Engine(wire.Version()), answer.Engine)
}

func TestTheContractIsServedAndRevalidated(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{})
	for path, mediaType := range map[string]string{"/openapi.json": mediaJSON, "/openapi.yaml": mediaYAML} {
		got := call(t, request(t, "GET", url+path, ""))
		require.Equal(t, http.StatusOK, got.StatusCode)
		assert.Equal(t, mediaType, got.Header.Get("Content-Type"))
		assert.Equal(t, "public, max-age=3600, must-revalidate", got.Header.Get("Cache-Control"))
		etag := got.Header.Get("ETag")
		assert.Regexp(t, `^"[0-9a-f]{32}"$`, etag)
		for _, sent := range []string{etag, "W/" + etag, `"x", ` + etag, "*"} {
			again := call(t, request(t, "GET", url+path, "", "If-None-Match", sent))
			assert.Equal(t, http.StatusNotModified, again.StatusCode, sent)
			assert.Empty(t, again.body)
			assert.Equal(t, etag, again.Header.Get("ETag"))
		}
		again := call(t, request(t, "GET", url+path, "", "If-None-Match", `"x"`))
		assert.Equal(t, http.StatusOK, again.StatusCode)
	}
}

func TestProbes(t *testing.T) {
	t.Parallel()
	s, url := serve(t, Config{})
	for _, path := range []string{"/healthz", "/readyz"} {
		got := call(t, request(t, "GET", url+path, ""))
		assert.Equal(t, http.StatusOK, got.StatusCode)
		assert.JSONEq(t, `{"status":"ok"}`, string(got.body))
	}
	s.Drain()
	got := call(t, request(t, "GET", url+"/readyz", ""))
	assert.Equal(t, http.StatusServiceUnavailable, got.StatusCode)
	assert.Equal(t, "1", got.Header.Get("Retry-After"))
	got = call(t, request(t, "GET", url+"/healthz", ""))
	assert.Equal(t, http.StatusOK, got.StatusCode, "a stopping service is still alive")
	got = call(t, request(t, "POST", url+"/v1/assessments", string(sample(t, levee))))
	assert.Equal(t, http.StatusOK, got.StatusCode, "a stopping service still answers what reaches it")
}

func TestConfigReportsEverythingThatIsWrong(t *testing.T) {
	t.Parallel()
	_, err := New(Config{MaxBody: -1, Timeout: -1})
	require.Error(t, err)
	assert.ErrorContains(t, err, "largest body")
	assert.ErrorContains(t, err, "timeout")
	assert.NoError(t, Config{}.Validate())
	assert.NoError(t, Config{MaxBody: LargestMaxBody}.Validate())
	assert.ErrorContains(t, Config{MaxBody: LargestMaxBody + 1}.Validate(), "at most 8388608")
}

func TestHSTSOnlyWhereTLSIsInFront(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{TLSInFront: true})
	assert.NotEmpty(t, call(t, request(t, "GET", url+"/healthz", "")).Header.Get("Strict-Transport-Security"))
	_, url = serve(t, Config{})
	assert.Empty(t, call(t, request(t, "GET", url+"/healthz", "")).Header.Get("Strict-Transport-Security"))
}

func TestTheDeskGivesTheBytesOfTheService(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{})
	desk, err := NewDesk(wire.Version())
	require.NoError(t, err)
	body := sample(t, levee)
	fromDesk, err := desk.Assess(body)
	require.NoError(t, err)
	assert.Equal(t, string(call(t, request(t, "POST", url+"/v1/assessments", string(body))).body), string(fromDesk.Body))
	assert.NotEmpty(t, fromDesk.Answer.Verdict)

	_, err = desk.Assess([]byte(`{}`))
	var problem *Problem
	require.ErrorAs(t, err, &problem)
	assert.Equal(t, 422, problem.Status)
}

func BenchmarkAssessments(b *testing.B) {
	desk, err := NewDesk("bench")
	require.NoError(b, err)
	body := sample(b, levee)
	for _, r := range resources() {
		b.Run(string(r.endpoint), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := desk.answer(r, body, r.media()...); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// What is made when it is first asked for is made once, whoever asks and however many do.
func TestTheFirstCallersMayComeTogether(t *testing.T) {
	t.Parallel()
	s := newServer(t, Config{})
	asked := map[string]*http.Request{}
	for _, path := range []string{"/", "/docs", "/openapi.json", "/openapi.yaml", "/assets/docs.js", "/assets/form.css", "/v1/reference/units"} {
		asked[path] = httptest.NewRequestWithContext(t.Context(), http.MethodGet, path, nil)
	}
	faulty := httptest.NewRequestWithContext(t.Context(), http.MethodPost, "/v1/assessments", strings.NewReader("{}"))
	faulty.Header.Set("Content-Type", mediaJSON)
	var callers sync.WaitGroup
	for range 4 {
		for path, r := range asked {
			callers.Go(func() {
				got := httptest.NewRecorder()
				s.ServeHTTP(got, r.Clone(r.Context()))
				assert.Equal(t, http.StatusOK, got.Code, path)
			})
		}
	}
	callers.Go(func() {
		got := httptest.NewRecorder()
		s.ServeHTTP(got, faulty)
		assert.Equal(t, http.StatusUnprocessableEntity, got.Code)
	})
	callers.Go(s.warm)
	callers.Wait()
}
