package api

import (
	"bytes"
	"encoding/json"
	"io"
	"net"
	"net/http"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/api/wire"
	"tractcheck/feasibility"
	"tractcheck/feasibility/finding"
	"tractcheck/openapi"
)

// compact is a sample mission on one line.
func compact(t testing.TB, name string) string {
	t.Helper()
	var line bytes.Buffer
	require.NoError(t, json.Compact(&line, sample(t, name)))
	return line.String()
}

// quick answers every mission at once, so that a test of the stream does not wait for the physics.
func quick(feasibility.Mission) (feasibility.Answer, error) {
	return feasibility.Answer{Verdict: feasibility.Yes, Headline: "Yes."}, nil
}

// quickly makes a service that answers screenings at once.
func quickly(t testing.TB, config Config) (*Server, string) {
	t.Helper()
	s := newServer(t, config)
	s.screens.assess = quick
	return s, listen(t, s)
}

// padded is a line of 1 kB that is soon answered.
var padded = "{}" + strings.Repeat(" ", 1000) + "\n"

// linesOf makes the request of a screening.
func linesOf(t testing.TB, url, body string, header ...string) *http.Request {
	t.Helper()
	return request(t, "POST", url+screeningsPath, body, append([]string{"Content-Type", mediaNDJSON}, header...)...)
}

// streamOf makes the request of a screening whose lines are sent while it is answered.
func streamOf(t testing.TB, url string, body io.Reader) *http.Request {
	t.Helper()
	r := linesOf(t, url, "")
	r.Body, r.ContentLength, r.GetBody = io.NopCloser(body), -1, nil
	return r
}

// screenedLine is a line of a screening's answer.
type screenedLine struct {
	Line     int64
	Answer   string
	Findings []string
	Stops    int
	Needed   int
	Digest   string
	Problem  *Problem
	Complete *bool
	ScreeningCounts
}

// status is the status in a line's problem, or 200.
func (l screenedLine) status() int {
	if l.Problem == nil {
		return http.StatusOK
	}
	return l.Problem.Status
}

// readLines holds a screening's answer to the contract and reads it: a summary comes last, and the
// lines are in order.
func readLines(t testing.TB, body string) (lines []screenedLine, summary screenedLine) {
	t.Helper()
	require.True(t, strings.HasSuffix(body, "\n"), body)
	for text := range strings.Lines(body) {
		line := readLine(t, text)
		require.Nil(t, summary.Complete, "something follows the summary")
		if line.Complete != nil {
			summary = line
			continue
		}
		if len(lines) > 0 {
			require.Greater(t, line.Line, lines[len(lines)-1].Line)
		}
		lines = append(lines, line)
	}
	require.NotNil(t, summary.Complete, "there is no summary")
	assert.Equal(t, summary.Lines, summary.Answers+summary.Problems+summary.Blank)
	return lines, summary
}

// lineSchema compiles a schema of the contract once.
func lineSchema(t testing.TB, name string) *jsonschema.Schema {
	t.Helper()
	lineSchemasLock.Lock()
	defer lineSchemasLock.Unlock()
	if lineSchemas[name] == nil {
		lineSchemas[name] = schema(t, name)
	}
	return lineSchemas[name]
}

var (
	lineSchemasLock sync.Mutex
	lineSchemas     = map[string]*jsonschema.Schema{}
)

// readLine holds one line to the contract: to the schema of any line, and to that of its kind.
func readLine(t testing.TB, text string) screenedLine {
	t.Helper()
	var line screenedLine
	require.NoError(t, json.Unmarshal([]byte(text), &line), text)
	kind := "ScreeningAnswer"
	switch {
	case line.Complete != nil:
		kind = "ScreeningSummary"
	case line.Problem != nil:
		kind = "ScreeningProblem"
	}
	for _, name := range []string{"ScreeningLine", kind} {
		value, err := jsonschema.UnmarshalJSON(strings.NewReader(text))
		require.NoError(t, err)
		require.NoError(t, lineSchema(t, name).Validate(value), text)
	}
	return line
}

func TestScreeningsAnswerEveryLineInOrder(t *testing.T) {
	t.Parallel()
	s, url := serve(t, Config{})
	good := compact(t, levee)
	body := strings.Join([]string{
		"\xEF\xBB\xBF" + good, "", `{"reference":"\xff"}`, "{broken", compact(t, "evening-inversion.json") + "\r", " \t", "{}",
		strings.Replace(good, `"mph"`, `"mhp"`, 1), "null", good + good, good,
	}, "\n")
	got := call(t, linesOf(t, url, body))
	require.Equal(t, http.StatusOK, got.StatusCode)
	assert.Equal(t, mediaNDJSON, got.Header.Get("Content-Type"))
	assert.Equal(t, "no-store", got.Header.Get("Cache-Control"))

	lines, summary := readLines(t, string(got.body))
	statuses := map[int64]int{}
	for _, line := range lines {
		statuses[line.Line] = line.status()
	}
	assert.Equal(t, map[int64]int{1: 200, 3: 400, 4: 400, 5: 200, 7: 422, 8: 422, 9: 422, 10: 400, 11: 200}, statuses)
	assert.True(t, *summary.Complete)
	assert.Nil(t, summary.Problem)
	assert.Equal(t, ScreeningCounts{
		Lines: 11, Answers: 3, Problems: 6, Blank: 2, ByAnswer: ByAnswer{YesIf: 2, No: 1}, Binding: summary.Binding,
	}, summary.ScreeningCounts)
	assert.Equal(t, finding.Stop, summary.Binding[0].Severity)
	assert.Contains(t, summary.Binding, Binding{"inversion_observed", finding.Stop, 1})

	assert.Equal(t, 1.0, counted(t, s, "tractcheck_answers_total", "endpoint", "screenings", "answer", "no"))
	assert.Equal(t, 3.0, counted(t, s, "tractcheck_screening_lines_total", "result", "answer"))
	assert.Equal(t, 6.0, counted(t, s, "tractcheck_screening_lines_total", "result", "problem"))
	assert.Equal(t, 2.0, counted(t, s, "tractcheck_screening_lines_total", "result", "blank"))
	assert.Equal(t, 1.0, counted(t, s, "tractcheck_faults_total", "code", "wrong_unit"))
	assert.Equal(t, 1.0, counted(t, s, "tractcheck_http_request_duration_seconds", "route", screeningsPath, "status", "200"))

	desk, err := NewDesk(wire.Version())
	require.NoError(t, err)
	screening := desk.NewScreening(ScreeningOptions{Workers: 3})
	var out bytes.Buffer
	require.NoError(t, screening.Run(t.Context(), screening.Lines(strings.NewReader(body)), &out))
	out.Write(screening.Summary(nil))
	assert.Equal(t, string(got.body), out.String(), "the desk gives the bytes of the service")
}

// A line says of a mission what its assessment says.
func TestALineSaysWhatTheAssessmentSays(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{})
	files, err := filepath.Glob("../testdata/missions/*.json")
	require.NoError(t, err)
	var body strings.Builder
	for _, file := range files {
		body.WriteString(compact(t, filepath.Base(file)) + "\n")
	}
	lines, summary := readLines(t, string(call(t, linesOf(t, url, body.String(), "Accept", mediaJSONL)).body))
	require.Len(t, lines, len(files))
	assert.Equal(t, int64(len(files)), summary.Answers)
	for i, file := range files {
		var whole struct {
			Answer, Digest string
			Findings       []struct{ Code, Severity string }
		}
		require.NoError(t, json.Unmarshal(post(t, url, string(sample(t, filepath.Base(file)))).body, &whole))
		assert.Equal(t, whole.Answer, lines[i].Answer, file)
		assert.Equal(t, whole.Digest, lines[i].Digest, file)
		severity := map[string]string{}
		for _, f := range whole.Findings {
			if severity[f.Code] == "" {
				severity[f.Code] = f.Severity
			}
		}
		assert.Len(t, lines[i].Findings, len(severity), file)
		for n, code := range lines[i].Findings {
			want := severity[code]
			assert.Equal(t, n < lines[i].Stops, want == "stop", "%s %s", file, code)
			assert.Equal(t, n >= lines[i].Stops && n < lines[i].Stops+lines[i].Needed, want == "needed", "%s %s", file, code)
		}
	}
}

func TestTheExamplesOfAScreeningKeepTheContract(t *testing.T) {
	t.Parallel()
	var document map[string]any
	require.NoError(t, json.Unmarshal([]byte(openapi.JSON), &document))
	for _, name := range []string{"ScreeningAnswer", "ScreeningProblem", "ScreeningSummary"} {
		value := at(document, "components", "examples", name)["value"]
		text, err := json.Marshal(value)
		require.NoError(t, err)
		line := readLine(t, string(text))
		assert.LessOrEqual(t, line.Stops+line.Needed, len(line.Findings))
	}
}

// dial opens a connection to a service.
func dial(t testing.TB, url string) net.Conn {
	t.Helper()
	connection, err := (&net.Dialer{}).DialContext(t.Context(), "tcp", strings.TrimPrefix(url, "http://"))
	require.NoError(t, err)
	t.Cleanup(func() { _ = connection.Close() })
	return connection
}
