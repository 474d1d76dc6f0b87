package api

import (
	"bytes"
	"encoding/json"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/pb33f/libopenapi"
	contractvalidator "github.com/pb33f/libopenapi-validator"
	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/openapi"
)

// This file is the gate every exchange of the test suite passes through: call sends a request to a
// running service and holds what comes back to the contract.

// contractOnce loads the contract into an independent checker, once.
var contractOnce = sync.OnceValues(func() (contractvalidator.Validator, error) {
	document, err := libopenapi.NewDocument([]byte(openapi.YAML))
	if err != nil {
		return nil, err
	}
	validator, errs := contractvalidator.NewValidator(document)
	if len(errs) > 0 {
		return nil, errs[0]
	}
	return validator, nil
})

// contractPaths are the methods of each path of the contract.
var contractPaths = sync.OnceValue(func() map[string]map[string]any {
	var document struct {
		Paths map[string]map[string]any `json:"paths"`
	}
	if err := json.Unmarshal([]byte(openapi.JSON), &document); err != nil {
		panic(err)
	}
	return document.Paths
})

// schema compiles one schema of the contract.
func schema(t testing.TB, name string) *jsonschema.Schema {
	t.Helper()
	document, err := jsonschema.UnmarshalJSON(strings.NewReader(openapi.JSON))
	require.NoError(t, err)
	compiler := jsonschema.NewCompiler()
	compiler.DefaultDraft(jsonschema.Draft2020)
	require.NoError(t, compiler.AddResource("https://contract.example/", document))
	compiled, err := compiler.Compile("https://contract.example/#/components/schemas/" + name)
	require.NoError(t, err)
	return compiled
}

// sample reads a sample mission.
func sample(t testing.TB, name string) []byte {
	t.Helper()
	body, err := os.ReadFile(filepath.Join("..", "testdata", "missions", name))
	require.NoError(t, err)
	return body
}

const levee = "levee-strip-small.json"

// newServer makes a service that does not listen.
func newServer(t testing.TB, config Config) *Server {
	t.Helper()
	s, err := New(config)
	require.NoError(t, err)
	return s
}

// serve makes a service and lets it listen for the length of a test.
func serve(t testing.TB, config Config) (*Server, string) {
	t.Helper()
	s := newServer(t, config)
	return s, listen(t, s)
}

func listen(t testing.TB, s *Server) string {
	t.Helper()
	server := httptest.NewServer(s)
	t.Cleanup(server.Close)
	return server.URL
}

// request makes a request; header fields come in pairs.
func request(t testing.TB, method, url, body string, header ...string) *http.Request {
	t.Helper()
	r, err := http.NewRequestWithContext(t.Context(), method, url, strings.NewReader(body))
	require.NoError(t, err)
	if body != "" {
		r.Header.Set("Content-Type", mediaJSON)
	}
	for i := 0; i+1 < len(header); i += 2 {
		r.Header.Set(header[i], header[i+1])
		if header[i+1] == "" {
			r.Header.Del(header[i])
		}
	}
	return r
}

// reply is what came back.
type reply struct {
	*http.Response
	body    []byte
	problem Problem
}

// call sends a request, holds the exchange to the contract, and reports the reply.
func call(t testing.TB, r *http.Request) reply {
	t.Helper()
	var sent []byte
	if r.GetBody != nil {
		body, err := r.GetBody()
		require.NoError(t, err)
		sent, err = io.ReadAll(body)
		require.NoError(t, err)
	}
	response, err := http.DefaultTransport.RoundTrip(r)
	require.NoError(t, err)
	body, err := io.ReadAll(response.Body)
	require.NoError(t, err)
	require.NoError(t, response.Body.Close())
	got := reply{Response: response, body: body}
	holdHeader(t, got)
	holdProblem(t, &got)
	holdContract(t, r, sent, got)
	return got
}

// holdHeader checks the header fields every answer carries.
func holdHeader(t testing.TB, got reply) {
	t.Helper()
	assert.Equal(t, "nosniff", got.Header.Get("X-Content-Type-Options"))
	assert.Contains(t, got.Header.Get("Content-Security-Policy"), "frame-ancestors 'none'")
	assert.Regexp(t, `^[A-Za-z0-9._-]{1,64}$`, got.Header.Get("X-Request-Id"))
	assert.Contains(t, got.Header.Get("Link"), `rel="service-desc"`)
	assert.Empty(t, got.Header.Get("Server"))
	assert.Less(t, got.StatusCode, 600)
}

// holdProblem checks that a failure, and nothing else, is a problem document.
func holdProblem(t testing.TB, got *reply) {
	t.Helper()
	isProblem := got.Header.Get("Content-Type") == mediaProblem
	require.Equal(t, got.StatusCode >= 400, isProblem, "status %d with %s: %s", got.StatusCode, got.Header.Get("Content-Type"), got.body)
	if !isProblem || got.Request.Method == http.MethodHead {
		return
	}
	value, err := jsonschema.UnmarshalJSON(bytes.NewReader(got.body))
	require.NoError(t, err)
	require.NoError(t, problemSchema(t).Validate(value))
	require.NoError(t, json.Unmarshal(got.body, &got.problem))
	assert.Equal(t, got.StatusCode, got.problem.Status)
	assert.True(t, strings.HasPrefix(got.problem.Type, "urn:tractcheck:problem:"))
	assert.NotEmpty(t, got.problem.Title)
	assert.NotEmpty(t, got.problem.Detail)
	assert.True(t, strings.HasSuffix(got.problem.Instance, "#"+got.Header.Get("X-Request-Id")), got.problem.Instance)
}

var problemOnce sync.Once
var problemCompiled *jsonschema.Schema

func problemSchema(t testing.TB) *jsonschema.Schema {
	problemOnce.Do(func() { problemCompiled = schema(t, "Problem") })
	return problemCompiled
}

// holdContract holds an exchange to the document with a checker that shares no code with the
// service: what the contract promises must come back, and what it does not admit must not succeed.
func holdContract(t testing.TB, r *http.Request, sent []byte, got reply) {
	t.Helper()
	method := strings.ToLower(r.Method)
	if method == "head" {
		method = "get"
	}
	operation, known := contractPaths()[r.URL.Path][method].(map[string]any)
	if !known {
		return
	}
	status := map[int]string{200: "200", 304: "304", 400: "400", 401: "401", 404: "404", 405: "405", 406: "406", 408: "408", 413: "413",
		415: "415", 422: "422", 429: "429", 500: "500", 503: "503"}[got.StatusCode]
	require.Contains(t, operation["responses"], status, "%s %s does not promise this status", r.Method, r.URL.Path)
	if r.Method == http.MethodHead {
		require.Empty(t, got.body)
		return
	}
	validator, err := contractOnce()
	require.NoError(t, err)
	again := r.Clone(t.Context())
	again.URL.Scheme, again.URL.Host = "", ""
	again.Body = io.NopCloser(bytes.NewReader(sent))
	for _, part := range answerParts(got) {
		answered := *got.Response
		answered.Body = io.NopCloser(bytes.NewReader(part))
		_, wrong := validator.ValidateHttpResponse(again, &answered)
		for _, w := range wrong {
			for _, e := range w.SchemaValidationErrors {
				t.Errorf("%s: %s", e.FieldPath, e.Reason)
			}
			require.Fail(t, "the answer breaks the contract", "%s %s: %s: %s", r.Method, r.URL.Path, w.Message, w.Reason)
		}
	}
	if got.StatusCode == http.StatusOK && len(sent) > 0 && r.Header.Get("Content-Type") == mediaJSON {
		again.Body = io.NopCloser(bytes.NewReader(sent))
		_, wrong := validator.ValidateHttpRequestSync(again)
		for _, w := range wrong {
			require.Fail(t, "the service took what the contract does not admit", "%s: %s", w.Message, w.Reason)
		}
	}
}

// answerParts are what the schema of an answer speaks of: the body, or each of its first lines.
func answerParts(got reply) [][]byte {
	const looked = 20
	if !slices.Contains(lineForms, got.Header.Get("Content-Type")) {
		return [][]byte{got.body}
	}
	lines := bytes.SplitAfterN(got.body, []byte{'\n'}, looked+1)
	return lines[:min(looked, len(lines)-1)]
}
