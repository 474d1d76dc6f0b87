package api

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/api/stream"
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

// The framework and the standard library drop the rest of a request when its answer begins, and say
// nothing: all lines must be answered, however they are sent.
func TestTrap1EveryLineOfAStreamIsAnswered(t *testing.T) {
	t.Parallel()
	_, url := quickly(t, Config{})
	const count = 1000
	body := strings.Repeat(padded, count)
	for name, r := range map[string]*http.Request{"with its length": linesOf(t, url, body), "in chunks": streamOf(t, url, strings.NewReader(body))} {
		response, err := http.DefaultTransport.RoundTrip(r)
		require.NoError(t, err, name)
		answered := 0
		scanner := bufio.NewScanner(response.Body)
		for scanner.Scan() {
			answered++
		}
		require.NoError(t, scanner.Err(), name)
		require.NoError(t, response.Body.Close())
		assert.Equal(t, count+1, answered, name)
	}
}

func TestAnAnswerComesBeforeTheNextLineIsSent(t *testing.T) {
	t.Parallel()
	_, url := quickly(t, Config{})
	body, client := io.Pipe()
	defer func() { _ = client.Close() }()
	line := compact(t, levee) + "\n"
	go func() { _, _ = io.WriteString(client, line) }()
	response, err := http.DefaultTransport.RoundTrip(streamOf(t, url, body))
	require.NoError(t, err)
	defer func() { _ = response.Body.Close() }()
	answers := bufio.NewReader(response.Body)
	for number := range int64(5) {
		if number > 0 {
			_, err = io.WriteString(client, line)
			require.NoError(t, err)
		}
		text, err := answers.ReadString('\n')
		require.NoError(t, err)
		assert.Equal(t, number+1, readLine(t, text).Line)
	}
	require.NoError(t, client.Close())
	rest, err := io.ReadAll(answers)
	require.NoError(t, err)
	_, summary := readLines(t, string(rest))
	assert.Equal(t, int64(5), summary.Answers)
}

// Browsers send a whole body before they read: some hundred lines fit what the system holds for them.
func TestACallerMaySendAllBeforeItReads(t *testing.T) {
	t.Parallel()
	_, url := quickly(t, Config{})
	body := strings.Repeat(padded, 500)
	connection := dial(t, url)
	_, err := fmt.Fprintf(connection, "POST %s HTTP/1.1\r\nHost: x\r\nContent-Type: %s\r\nContent-Length: %d\r\n\r\n%s", screeningsPath, mediaNDJSON, len(body), body)
	require.NoError(t, err)
	time.Sleep(50 * time.Millisecond)
	response, err := http.ReadResponse(bufio.NewReader(connection), nil)
	require.NoError(t, err)
	defer func() { _ = response.Body.Close() }()
	text, err := io.ReadAll(response.Body)
	require.NoError(t, err)
	lines, _ := readLines(t, string(text))
	assert.Len(t, lines, 500)
}

func TestLinesThatAreTooLongAreAnsweredAndPassed(t *testing.T) {
	t.Parallel()
	good := compact(t, levee)
	_, url := quickly(t, Config{MaxBody: int64(len(good))})
	body := good + "\r\n" + good + " \n" + strings.Repeat(" ", 3<<20) + "\n" + good
	lines, summary := readLines(t, string(call(t, linesOf(t, url, body)).body))
	require.Len(t, lines, 4)
	for i, status := range []int{200, 413, 413, 200} {
		assert.Equal(t, status, lines[i].status(), "line %d", i+1)
	}
	assert.Equal(t, fmt.Sprintf("at most %d bytes", len(good)), lines[1].Problem.Faults[0].Allowed)
	assert.True(t, *summary.Complete)
}

func TestAnEmptyBodyIsAnsweredByTheSummaryAlone(t *testing.T) {
	t.Parallel()
	_, url := quickly(t, Config{})
	for _, body := range []string{"", "\n\r\n"} {
		r := linesOf(t, url, body)
		got := call(t, r)
		require.Equal(t, http.StatusOK, got.StatusCode)
		lines, summary := readLines(t, string(got.body))
		assert.Empty(t, lines)
		assert.Equal(t, int64(strings.Count(body, "\n")), summary.Lines)
		assert.True(t, *summary.Complete)
		assert.Contains(t, string(got.body), `"binding":[]`)
	}
}

func TestScreeningsRefuseWhatIsNoStreamOfLines(t *testing.T) {
	t.Parallel()
	_, url := quickly(t, Config{})
	line := compact(t, levee)
	for _, tc := range []struct {
		name   string
		header []string
		status int
	}{
		{"JSON", []string{"Content-Type", mediaJSON}, 415},
		{"no type", []string{"Content-Type", ""}, 415},
		{"another charset", []string{"Content-Type", mediaNDJSON + "; charset=utf-16"}, 415},
		{"compressed", []string{"Content-Encoding", "gzip"}, 415},
		{"another answer", []string{"Accept", "text/csv"}, 406},
		{"upper case", []string{"Content-Type", "Application/JSONL; Charset=UTF-8"}, 200},
		{"another name", []string{"Content-Type", "application/ndjson"}, 200},
	} {
		got := call(t, linesOf(t, url, line, tc.header...))
		assert.Equal(t, tc.status, got.StatusCode, tc.name)
		if tc.status == 415 && tc.name != "compressed" {
			assert.Equal(t, mediaNDJSON+", "+mediaJSONL, got.Header.Get("Accept-Post"))
		}
	}
	assert.Equal(t, http.StatusMethodNotAllowed, call(t, request(t, "GET", url+screeningsPath, "")).StatusCode)
	r := linesOf(t, url, line)
	r.URL.RawQuery = "workers=9"
	assert.Equal(t, http.StatusBadRequest, call(t, r).StatusCode)
}

func TestTheAnswerComesUnderTheNameThatIsWelcome(t *testing.T) {
	t.Parallel()
	_, url := quickly(t, Config{})
	for accept, want := range map[string]string{"": mediaNDJSON, "*/*": mediaNDJSON, mediaJSONL: mediaJSONL, "application/*": mediaNDJSON} {
		assert.Equal(t, want, call(t, linesOf(t, url, compact(t, levee), "Accept", accept)).Header.Get("Content-Type"), accept)
	}
}

func TestAPanicIsAProblemOnItsLine(t *testing.T) {
	t.Parallel()
	var log syncBuffer
	s, url := quickly(t, Config{Logger: slog.New(slog.NewJSONHandler(&log, nil))})
	var calls atomic.Int64
	s.screens.assess = func(m feasibility.Mission) (feasibility.Answer, error) {
		switch calls.Add(1) {
		case 2:
			panic("secret")
		case 3:
			return feasibility.Answer{}, errors.New("secret too")
		default:
			return quick(m)
		}
	}
	line := compact(t, levee) + "\n"
	got := call(t, linesOf(t, url, strings.Repeat(line, 4), "X-Request-Id", "quoted"))
	lines, summary := readLines(t, string(got.body))
	require.Len(t, lines, 4)
	assert.Equal(t, int64(2), summary.Problems)
	assert.Equal(t, int64(2), summary.Answers)
	assert.True(t, *summary.Complete)
	assert.NotContains(t, string(got.body), "secret")
	assert.Contains(t, log.String(), "panic: secret")
	assert.Contains(t, log.String(), "secret too")
	assert.Contains(t, log.String(), `"request_id":"quoted"`)
	assert.NotContains(t, log.String(), "Kestrel", "bodies are never logged")
}

// dial opens a connection to a service.
func dial(t testing.TB, url string) net.Conn {
	t.Helper()
	connection, err := (&net.Dialer{}).DialContext(t.Context(), "tcp", strings.TrimPrefix(url, "http://"))
	require.NoError(t, err)
	t.Cleanup(func() { _ = connection.Close() })
	return connection
}

// begin opens a connection and sends the head of a screening and a line, as chunks.
func begin(t testing.TB, url string, texts ...string) net.Conn {
	t.Helper()
	connection := dial(t, url)
	_, err := fmt.Fprintf(connection, "POST %s HTTP/1.1\r\nHost: x\r\nContent-Type: %s\r\nTransfer-Encoding: chunked\r\n\r\n", screeningsPath, mediaNDJSON)
	require.NoError(t, err)
	for _, text := range texts {
		_, err = fmt.Fprintf(connection, "%x\r\n%s\r\n", len(text), text)
		require.NoError(t, err)
	}
	return connection
}

// ended reads what a service answers until it hangs up.
func ended(t testing.TB, connection net.Conn) (status int, text string) {
	t.Helper()
	require.NoError(t, connection.SetReadDeadline(time.Now().Add(20*time.Second)))
	response, err := http.ReadResponse(bufio.NewReader(connection), nil)
	require.NoError(t, err)
	body, err := io.ReadAll(response.Body)
	require.NoError(t, err)
	require.NoError(t, response.Body.Close())
	return response.StatusCode, string(body)
}

func TestACallerWhoStallsIsToldSo(t *testing.T) {
	t.Parallel()
	_, url := quickly(t, Config{Stall: 400 * time.Millisecond})
	line := compact(t, levee)

	status, text := ended(t, begin(t, url, line[:100])) // nothing was answered yet
	assert.Equal(t, http.StatusRequestTimeout, status)
	assert.Contains(t, text, "request-timeout")

	status, text = ended(t, begin(t, url, line+"\n", line[:100]))
	assert.Equal(t, http.StatusOK, status)
	lines, summary := readLines(t, text)
	assert.Len(t, lines, 1)
	assert.False(t, *summary.Complete)
	assert.Equal(t, http.StatusRequestTimeout, summary.status())
}

func TestAnInputThatBreaksOffIsToldSo(t *testing.T) {
	t.Parallel()
	_, url := quickly(t, Config{})
	line := compact(t, levee)
	for _, end := range []string{"", "nonsense\r\n"} {
		connection := begin(t, url, line+"\n", line)
		_, err := io.WriteString(connection, end)
		require.NoError(t, err)
		if end == "" {
			require.NoError(t, connection.(*net.TCPConn).CloseWrite())
		}
		_, text := ended(t, connection)
		lines, summary := readLines(t, text)
		assert.Len(t, lines, 1, "a line that may be cut is not answered")
		assert.False(t, *summary.Complete)
		assert.Equal(t, "urn:tractcheck:problem:unreadable-body", summary.Problem.Type)
	}
}

func TestHaltEndsScreeningsVisibly(t *testing.T) {
	t.Parallel()
	s, url := quickly(t, Config{})
	connection := begin(t, url, compact(t, levee)+"\n")
	require.Eventually(t, func() bool {
		return counted(t, s, "tractcheck_screening_lines_total", "result", "answer") == 1
	}, 10*time.Second, time.Millisecond)
	s.Drain()
	s.Halt()
	_, text := ended(t, connection)
	lines, summary := readLines(t, text)
	assert.Len(t, lines, 1)
	assert.False(t, *summary.Complete)
	assert.Equal(t, http.StatusServiceUnavailable, summary.status())

	got := call(t, linesOf(t, url, compact(t, levee)))
	assert.Equal(t, http.StatusServiceUnavailable, got.StatusCode, "no new one begins")
	assert.Equal(t, http.StatusOK, post(t, url, string(sample(t, levee))).StatusCode)
}

func TestOnlySoManyScreeningsRunAtATime(t *testing.T) {
	t.Parallel()
	s, url := quickly(t, Config{Screenings: 1})
	connection := begin(t, url, compact(t, levee)+"\n")
	require.Eventually(t, func() bool { return len(s.screens.running) == 1 }, 10*time.Second, time.Millisecond)
	got := call(t, linesOf(t, url, compact(t, levee)))
	assert.Equal(t, http.StatusServiceUnavailable, got.StatusCode)
	assert.Equal(t, "1", got.Header.Get("Retry-After"))
	_, err := io.WriteString(connection, "0\r\n\r\n")
	require.NoError(t, err)
	_, text := ended(t, connection)
	_, summary := readLines(t, text)
	assert.True(t, *summary.Complete)
	require.Eventually(t, func() bool { return len(s.screens.running) == 0 }, 10*time.Second, time.Millisecond)
	assert.Equal(t, http.StatusOK, call(t, linesOf(t, url, compact(t, levee))).StatusCode)
}

// flood sends lines until the service takes no more, and reports how many bytes it took.
func flood(t testing.TB, connection net.Conn, line string) (sent int) {
	t.Helper()
	chunk := strings.Repeat(line, 16)
	chunk = fmt.Sprintf("%x\r\n%s\r\n", len(chunk), chunk)
	for {
		require.NoError(t, connection.SetWriteDeadline(time.Now().Add(300*time.Millisecond)))
		n, err := io.WriteString(connection, chunk)
		sent += n
		if err != nil {
			return sent
		}
		require.Less(t, sent, 256<<20, "the service reads although its answers are not taken")
	}
}

// This test stands alone, because it looks at the goroutines of the process.
func TestAReaderWhoDoesNotReadHoldsNothingUp(t *testing.T) {
	s, url := quickly(t, Config{Stall: 500 * time.Millisecond})
	before := runtime.NumGoroutine()
	line := padded

	connection := begin(t, url, line)
	sent := flood(t, connection, line)
	t.Logf("the service took %d lines of a caller who does not read", sent/len(line))
	assert.Greater(t, sent, 16*len(line), "something was taken")
	require.Eventually(t, func() bool { return len(s.screens.running) == 0 }, 10*time.Second, 10*time.Millisecond, "it is cut off")
	require.NoError(t, connection.Close())

	// One who hangs up in the middle.
	connection = begin(t, url, line, line, line[:50])
	require.Eventually(t, func() bool { return len(s.screens.running) == 1 }, 10*time.Second, time.Millisecond)
	require.NoError(t, connection.Close())
	require.Eventually(t, func() bool { return len(s.screens.running) == 0 }, 10*time.Second, time.Millisecond)

	assert.Equal(t, 0.0, counted(t, s, "tractcheck_http_requests_in_flight"))
	require.Eventually(t, func() bool { return runtime.NumGoroutine() <= before+1 }, 10*time.Second, 10*time.Millisecond, "no goroutine is left behind")
}

// This test stands alone, because it looks at the memory of the process.
func TestMemoryDoesNotGrowWithTheNumberOfLines(t *testing.T) {
	_, url := quickly(t, Config{})
	count := 20_000
	if testing.Short() || raceDetector {
		count = 2_000
	}
	var most atomic.Uint64
	lines := &watched{text: "{}\n", left: count, every: count / 20, look: func() {
		var stats runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&stats)
		most.Store(max(most.Load(), stats.HeapAlloc))
	}}
	lines.look()
	before := most.Load()
	response, err := http.DefaultTransport.RoundTrip(streamOf(t, url, lines))
	require.NoError(t, err)
	defer func() { _ = response.Body.Close() }()
	answers := bufio.NewReader(response.Body)
	last := ""
	for {
		text, err := answers.ReadString('\n')
		if err != nil {
			require.ErrorIs(t, err, io.EOF)
			break
		}
		last = text
	}
	assert.Equal(t, int64(count), readLine(t, last).Lines)
	grown := int64(most.Load()) - int64(before)
	t.Logf("%d lines held %d bytes more at most", count, grown)
	bound := int64(8 << 20)
	if raceDetector {
		bound *= 4 // the detector keeps memory of its own, which counts here
	}
	assert.Less(t, grown, bound)
}

// watched is a text over and over, with a look at something now and then.
type watched struct {
	text        string
	left, every int
	look        func()
}

func (w *watched) Read(p []byte) (int, error) {
	if w.left == 0 {
		return 0, io.EOF
	}
	if w.left--; w.left%w.every == 0 {
		w.look()
	}
	return copy(p, w.text), nil
}

func TestAConnectionThatCannotDoBothIsAFailureOfTheService(t *testing.T) {
	t.Parallel()
	s := newServer(t, Config{})
	r := httptest.NewRequestWithContext(t.Context(), http.MethodPost, screeningsPath, strings.NewReader("{}"))
	r.Header.Set("Content-Type", mediaNDJSON)
	w := httptest.NewRecorder()
	s.ServeHTTP(w, r)
	assert.Equal(t, http.StatusInternalServerError, w.Code)
	assert.Equal(t, mediaProblem, w.Header().Get("Content-Type"))
}

func TestACallerMayAskWhetherToGoOn(t *testing.T) {
	t.Parallel()
	_, url := quickly(t, Config{})
	r := linesOf(t, url, strings.Repeat(padded, 100), "Expect", "100-continue")
	lines, _ := readLines(t, string(call(t, r).body))
	assert.Len(t, lines, 100)
}

// lastLine reads lines to the last one.
func lastLine(lines *stream.Lines) (line stream.Line, err error) {
	for {
		var next stream.Line
		if err := lines.Read(&next); errors.Is(err, io.EOF) {
			return line, nil
		} else if err != nil {
			return line, err
		}
		line = next
	}
}

func TestAnAnswerIsRecalledOnlyToItsOwnLine(t *testing.T) {
	t.Parallel()
	desk, err := NewDesk("1.0.0")
	require.NoError(t, err)
	good, bad := compact(t, levee), "{}"
	first := desk.NewScreening(ScreeningOptions{assess: quick})
	var out bytes.Buffer
	input := good + "\n" + bad + "\n" + good + "\n"
	require.NoError(t, first.Run(t.Context(), first.Lines(strings.NewReader(input)), &out))
	written := strings.SplitAfter(out.String(), "\n")

	other, err := NewDesk("1.0.1")
	require.NoError(t, err)
	for _, tc := range []struct {
		name    string
		desk    *Desk
		number  int64
		line    string
		written string
		sound   bool
	}{
		{"an answer", desk, 1, good, written[0], true},
		{"an answer to the same mission in other words", desk, 1, strings.Replace(good, `"value":10.5`, `"value":1.05e1`, 1), written[0], true},
		{"a problem", desk, 2, bad, written[1], true},
		{"another number", desk, 2, good, written[0], false},
		{"another mission", desk, 1, strings.Replace(good, `"value":2.6`, `"value":2.5`, 1), written[0], false},
		{"another release", other, 1, good, written[0], false},
		{"a problem that was mended", desk, 2, good, written[1], false},
		{"a problem that is another now", desk, 2, `{"a":1}`, written[1], false},
		{"no answer", desk, 1, good, "{}\n", false},
		{"no JSON", desk, 1, good, "{\n", false},
		{"counts that cannot be", desk, 1, good, strings.Replace(written[0], `"stops":0`, `"stops":99`, 1), false},
	} {
		t.Run(tc.name, func(t *testing.T) {
			t.Parallel()
			require.Equal(t, strings.Contains(tc.name, "mission"), tc.line != good && tc.line != bad && tc.line != `{"a":1}`, "the sample has changed")
			screening := tc.desk.NewScreening(ScreeningOptions{assess: quick})
			lines := screening.Lines(strings.NewReader(strings.Repeat("\n", int(tc.number-1)) + tc.line))
			line, err := lastLine(lines)
			require.NoError(t, err)
			err = screening.Recall(line, []byte(tc.written))
			if tc.sound {
				require.NoError(t, err)
				assert.Equal(t, int64(1), screening.Counts().Lines)
				return
			}
			require.ErrorIs(t, err, ErrOtherStream)
			assert.Zero(t, screening.Counts().Lines)
		})
	}
}

// BenchmarkScreening is the cost of a line: of the whole, and without the physics.
func BenchmarkScreening(b *testing.B) {
	desk, err := NewDesk("bench")
	require.NoError(b, err)
	line := compact(b, levee) + "\n"
	for name, assess := range map[string]func(feasibility.Mission) (feasibility.Answer, error){"whole": feasibility.Assess, "stream": quick} {
		b.Run(name, func(b *testing.B) {
			screening := desk.NewScreening(ScreeningOptions{assess: assess})
			b.SetBytes(int64(len(line)))
			b.ReportAllocs()
			input := strings.NewReader(strings.Repeat(line, b.N))
			b.ResetTimer()
			require.NoError(b, screening.Run(b.Context(), screening.Lines(input), io.Discard))
		})
	}
}
