package api

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"fmt"
	"io"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/api/sheet"
	"tractcheck/api/sheet/docs"
	"tractcheck/api/sheet/form"
)

// formOf is the form of a service.
func formOf(t testing.TB, s *Server) *form.Form {
	t.Helper()
	require.NoError(t, s.makeForm())
	return s.form
}

// posted is values as a browser posts them.
func posted(t testing.TB, values form.Values) (body, mediaType string) {
	t.Helper()
	var out bytes.Buffer
	w := multipart.NewWriter(&out)
	for _, name := range values.Names() {
		for _, text := range values[name] {
			require.NoError(t, w.WriteField(name, text))
		}
	}
	require.NoError(t, w.Close())
	return out.String(), w.FormDataContentType()
}

// page posts a form and reports the page that comes back.
func page(t testing.TB, s *Server, body, mediaType string, header ...string) *httptest.ResponseRecorder {
	t.Helper()
	r := httptest.NewRequestWithContext(t.Context(), http.MethodPost, "/", strings.NewReader(body))
	r.Header.Set("Content-Type", mediaType)
	for i := 0; i+1 < len(header); i += 2 {
		r.Header.Set(header[i], header[i+1])
	}
	got := httptest.NewRecorder()
	s.ServeHTTP(got, r)
	holdPage(t, got)
	return got
}

func visit(t testing.TB, s *Server, path string) *httptest.ResponseRecorder {
	t.Helper()
	got := httptest.NewRecorder()
	s.ServeHTTP(got, httptest.NewRequestWithContext(t.Context(), http.MethodGet, path, nil))
	return got
}

// holdPage checks what every page without a script keeps to.
func holdPage(t testing.TB, got *httptest.ResponseRecorder) {
	t.Helper()
	assert.Equal(t, "text/html; charset=utf-8", got.Header().Get("Content-Type"))
	assert.Equal(t, sheet.Policy, got.Header().Get("Content-Security-Policy"))
	assert.Equal(t, "nosniff", got.Header().Get("X-Content-Type-Options"))
	assert.Equal(t, "no-store", got.Header().Get("Cache-Control"))
	assert.NotContains(t, got.Body.String(), "<script")
	assert.NotContains(t, got.Body.String(), " style=")
	assert.NotRegexp(t, `(?i)(src|href|action)="(https?:)?//`, got.Body.String(), "nothing is asked of any other host")
}

// The strongest test of the form: a mission that goes through the form is answered as the mission is.
func TestTheFormAnswersAsTheMissionIsAnswered(t *testing.T) {
	t.Parallel()
	s := newServer(t, Config{})
	files, err := filepath.Glob("../testdata/missions/*.json")
	require.NoError(t, err)
	for i, file := range files {
		if testing.Short() && i%4 != 0 {
			continue
		}
		t.Run(filepath.Base(file), func(t *testing.T) {
			t.Parallel()
			mission, err := os.ReadFile(file)
			require.NoError(t, err)
			values, err := formOf(t, s).Fill(mission)
			require.NoError(t, err)
			made, faults := formOf(t, s).Request(values)
			require.Empty(t, faults)
			want, err := s.desk.Assess(mission)
			require.NoError(t, err)
			got, err := s.desk.Assess(made)
			require.NoError(t, err)
			assert.Equal(t, withoutDigest(t, want.Body), withoutDigest(t, got.Body))

			body, mediaType := posted(t, values)
			sheet := page(t, s, body, mediaType)
			require.Equal(t, http.StatusOK, sheet.Code)
			assert.Contains(t, sheet.Body.String(), digestOf(t, got.Body), "the sheet answers the request that the form made")
			again, mediaType := posted(t, with(carriedIn(t, sheet.Body.String()), form.Do, "edit"))
			edited := page(t, s, again, mediaType)
			require.Equal(t, http.StatusOK, edited.Code, "the way back keeps what was typed")
			for _, name := range []string{"/aircraft/empty_weight/value", "/flight/speed/value"} {
				assert.Contains(t, edited.Body.String(), fmt.Sprintf(`name=%q value=%q`, name, values[name][0]))
			}
		})
	}
}

func with(values form.Values, name, text string) form.Values {
	values[name] = []string{text}
	return values
}

// carriedIn are the hidden inputs of a page.
func carriedIn(t *testing.T, text string) form.Values {
	t.Helper()
	values := form.Values{}
	for _, m := range regexp.MustCompile(`<input type="hidden" name="([^"]*)" value="([^"]*)">`).FindAllStringSubmatch(text, -1) {
		plain := strings.NewReplacer("&#34;", `"`, "&#39;", "'", "&lt;", "<", "&gt;", ">", "&#43;", "+", "&amp;", "&")
		values[plain.Replace(m[1])] = append(values[plain.Replace(m[1])], plain.Replace(m[2]))
	}
	require.NotEmpty(t, values)
	return values
}

func digestOf(t *testing.T, answer []byte) string {
	t.Helper()
	var named struct{ Digest string }
	require.NoError(t, json.Unmarshal(answer, &named))
	require.NotEmpty(t, named.Digest)
	return strings.TrimPrefix(named.Digest, "sha256:")[:16]
}

func withoutDigest(t *testing.T, answer []byte) string {
	t.Helper()
	return regexp.MustCompile(`"sha256:[0-9a-f]{64}"`).ReplaceAllString(string(answer), `""`)
}

func TestFaultsStandBesideTheirFieldsAndWhatWasTypedIsKept(t *testing.T) {
	t.Parallel()
	s := newServer(t, Config{})
	values, err := formOf(t, s).Begin("", "")
	require.NoError(t, err)
	const nasty = `</textarea><script>alert(1)</script>"'&`
	for name, text := range map[string]string{
		"/flight/speed/value": nasty, "/reference": nasty, "/field/boundary": nasty, "/flight/swath/unit": nasty,
		"/aircraft/rotors/coaxial": nasty, "/operation/purpose": nasty, "/operation/country": "usa",
		"/field/neighbors/0/bearing/value": "400", "/weather/at/offset": "", "/load/product_label/max_wind/value": "1e999",
	} {
		values[name] = []string{text}
	}
	values["/operation/holds"] = []string{"remote-id", nasty}
	body, mediaType := posted(t, values)
	got := page(t, s, body, mediaType)
	require.Equal(t, http.StatusUnprocessableEntity, got.Code)
	text := got.Body.String()
	assert.NotContains(t, text, "<script>alert")
	for _, id := range []string{
		"in-flight-speed", "in-field-boundary", "in-flight-swath", "in-aircraft-rotors-coaxial", "in-operation-purpose",
		"in-operation-country", "in-field-neighbors-0-bearing", "in-weather-at", "in-load-product_label-max_wind",
	} {
		assert.Contains(t, text, `id="`+id+`-fault"`, "the fault stands beside the field")
		assert.Contains(t, text, `href="#`+id+`"`, "the list above leads to it")
		assert.Regexp(t, `<(input|select|textarea)[^>]* id="`+id+`"[^>]* aria-describedby="`+id+`-fault[^>]* aria-invalid="true"`, text)
	}
	assert.Contains(t, text, `&lt;/textarea&gt;&lt;script&gt;`, "what was typed is kept")
	assert.Contains(t, text, `value="400"`)
	assert.Contains(t, text, `value="remote-id" checked`)
}

func TestHoursAndOtherWaysHavePages(t *testing.T) {
	t.Parallel()
	s := newServer(t, Config{})
	begun, err := formOf(t, s).Begin("", "")
	require.NoError(t, err)
	for name, tc := range map[string]struct {
		more   map[string]string
		status int
		shows  []string
	}{
		"asked for hours":   {map[string]string{"do": "ask-hours"}, 200, []string{"2026-06-03T06:00:00-05:00, 2, "}},
		"hours":             {map[string]string{"do": "hours", "hours": "at,wind_speed (mph),wind_from,temperature,relative_humidity,cloud_cover\n2026-06-03T09:00,5,215,74,71,25\n2026-06-03T10:00,25,200,75,60,25"}, 200, []string{`class="works"`, `class="fails"`, "v1/spray-hours", "<td>no</td>"}},
		"faulty hours":      {map[string]string{"do": "hours", "hours": "at,wind_speed\n2026-06-03T09:00,<b>"}, 422, []string{"Hour 1, Mean wind: Write a number", "&lt;b&gt;"}},
		"no hours":          {map[string]string{"do": "hours", "hours": "<b>"}, 422, []string{"Paste a table"}},
		"hours, faulty job": {map[string]string{"do": "hours", "hours": "[]", "/flight/speed/value": "x"}, 422, []string{"The job, Ground speed while spraying"}},
		"asked for ways":    {map[string]string{"do": "ask-compare"}, 200, []string{`name="set-up/2/flight/speed/value"`}},
		"ways":              {map[string]string{"do": "compare", "set-up/0/flight/speed/value": "8", "set-up/0/label": "<b>"}, 200, []string{"&lt;b&gt;", "The job as typed", "v1/comparisons"}},
		"faulty way":        {map[string]string{"do": "compare", "set-up/1/flight/speed/value": "x"}, 422, []string{"Another way, Ground speed while spraying: Write a number"}},
		"no other way":      {map[string]string{"do": "compare"}, 422, []string{"Change something"}},
		"row added":         {map[string]string{"do": "add:/field/neighbors"}, 200, []string{"Row 4<"}},
		"SI units":          {map[string]string{"do": "units-si"}, 200, []string{`value="kg" selected`}},
		"unknown button":    {map[string]string{"do": "nothing"}, 200, []string{"Go on from here"}},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			values := form.Values{}
			for at, texts := range begun {
				values[at] = texts
			}
			for at, text := range tc.more {
				values[at] = []string{text}
			}
			body, mediaType := posted(t, values)
			got := page(t, s, body, mediaType)
			require.Equal(t, tc.status, got.Code)
			for _, text := range tc.shows {
				assert.True(t, strings.Contains(got.Body.String(), text), "must show %s", text)
			}
		})
	}
}

func TestThePageOfAFormSaysWhatIsWrongWithThePost(t *testing.T) {
	t.Parallel()
	s := newServer(t, Config{MaxBody: 100_000})
	many := strings.Repeat("a=1&", mostInputs+1)
	const plain, parts = "application/x-www-form-urlencoded", "multipart/form-data; boundary=x"
	manyParts := strings.Repeat("--x\r\nContent-Disposition: form-data; name=\"a\"\r\n\r\n1\r\n", 1000) + "--x--\r\n"
	for name, tc := range map[string]struct {
		body, mediaType string
		status          int
		header          []string
	}{
		"too large":      {strings.Repeat("a", 100_001), plain, 413, nil},
		"too many":       {many, plain, 400, nil},
		"one of each":    {manyParts, parts, 422, nil},
		"json":           {"{}", mediaJSON, 415, nil},
		"no media type":  {"a=1", "", 415, nil},
		"compressed":     {"a=1", plain, 415, []string{"Content-Encoding", "gzip"}},
		"no boundary":    {"a=1", "multipart/form-data", 400, nil},
		"broken parts":   {"--x\r\n", parts, 400, nil},
		"broken text":    {"a=%zz", plain, 400, nil},
		"not UTF-8":      {"a=%ff", plain, 400, nil},
		"long name":      {strings.Repeat("a", longestInput+1) + "=1", plain, 400, nil},
		"unknown field":  {"/flight/altitude/value=8", plain, 422, nil},
		"nothing at all": {"", plain, 422, nil},
	} {
		got := page(t, s, tc.body, tc.mediaType, tc.header...)
		assert.Equal(t, tc.status, got.Code, "%s: %s", name, got.Body)
	}
	got := page(t, s, "/flight/altitude/value=8", plain)
	assert.Contains(t, got.Body.String(), "/flight/altitude/value", "a field of another release is not dropped in silence")
	asked := httptest.NewRecorder()
	s.ServeHTTP(asked, httptest.NewRequestWithContext(t.Context(), http.MethodPost, "/?a=1", strings.NewReader("")))
	assert.Equal(t, 400, asked.Code)
}

func TestTheFormStartsFromWhatIsAskedFor(t *testing.T) {
	t.Parallel()
	s := newServer(t, Config{})
	for _, start := range formOf(t, s).Starts("") {
		for _, units := range []string{"", "&units=us", "&units=si"} {
			got := visit(t, s, "/?start="+start.ID+units)
			holdPage(t, got)
			require.Equal(t, http.StatusOK, got.Code, start.ID)
			assert.Contains(t, got.Body.String(), `<option value="`+start.ID+`" selected`)
		}
	}
	for _, address := range []string{"/?start=../x", "/?start=%3Cscript%3E", "/?units=metric", "/?other=1", "/?start=a&start=b"} {
		got := visit(t, s, address)
		holdPage(t, got)
		assert.Contains(t, []int{400, 404}, got.Code, address)
	}
}

func TestTheDocumentationBringsItsOwnFiles(t *testing.T) {
	t.Parallel()
	s := newServer(t, Config{})
	got := visit(t, s, "/docs")
	require.Equal(t, http.StatusOK, got.Code)
	assert.Equal(t, docs.Policy, got.Header().Get("Content-Security-Policy"))
	assert.NotContains(t, docs.Policy, "unsafe")
	assert.NotRegexp(t, `<script[^>]*>[^<]`, got.Body.String(), "no script stands in the page")
	for _, m := range regexp.MustCompile(`(?:src|href)="(/assets/[^"]+)"`).FindAllStringSubmatch(got.Body.String(), -1) {
		assert.Equal(t, http.StatusOK, visit(t, s, m[1]).Code, m[1])
	}
	for _, a := range docs.Assets() {
		require.NotEmpty(t, a.Packed, a.Path)
		plain := visit(t, s, a.Path)
		require.Equal(t, http.StatusOK, plain.Code)
		assert.Empty(t, plain.Header().Get("Content-Encoding"))
		r := httptest.NewRequestWithContext(t.Context(), http.MethodGet, a.Path, nil)
		r.Header.Set("Accept-Encoding", "br, gzip;q=0.8")
		packed := httptest.NewRecorder()
		s.ServeHTTP(packed, r)
		require.Equal(t, "gzip", packed.Header().Get("Content-Encoding"))
		assert.NotEqual(t, plain.Header().Get("ETag"), packed.Header().Get("ETag"))
		reader, err := gzip.NewReader(packed.Body)
		require.NoError(t, err)
		unpacked, err := io.ReadAll(reader)
		require.NoError(t, err)
		assert.Equal(t, plain.Body.String(), string(unpacked))
		r.Header.Set("If-None-Match", packed.Header().Get("ETag"))
		again := httptest.NewRecorder()
		s.ServeHTTP(again, r)
		assert.Equal(t, http.StatusNotModified, again.Code)
		r.Header.Set("Accept-Encoding", "gzip;q=0")
		r.Header.Del("If-None-Match")
		refused := httptest.NewRecorder()
		s.ServeHTTP(refused, r)
		assert.Empty(t, refused.Header().Get("Content-Encoding"))
	}
	assert.Equal(t, http.StatusNotFound, visit(t, s, "/assets/none.css").Code)
}

func FuzzForm(f *testing.F) {
	s := newServer(f, Config{})
	values, err := formOf(f, s).Begin("", "")
	require.NoError(f, err)
	query := url.Values(values)
	f.Add("application/x-www-form-urlencoded", query.Encode())
	body, mediaType := posted(f, values)
	f.Add(mediaType, body)
	f.Add("application/x-www-form-urlencoded", "do=add:/field/neighbors&/field/neighbors/199/kind=crop&/field/neighbors/none=yes")
	f.Add("application/x-www-form-urlencoded", "do=units-si&/flight/speed/value=1e308&/flight/speed/unit=mph")
	f.Add("application/x-www-form-urlencoded", `/field/boundary={"type":"FeatureCollection","features":[null,{"geometry":{"type":"MultiPolygon","coordinates":{}}}]}`)
	f.Fuzz(func(t *testing.T, mediaType, body string) {
		r := httptest.NewRequestWithContext(t.Context(), http.MethodPost, "/", strings.NewReader(body))
		r.Header["Content-Type"] = []string{mediaType}
		got := httptest.NewRecorder()
		s.ServeHTTP(got, r)
		assert.Less(t, got.Code, 500, "%s", got.Body)
		assert.NotContains(t, got.Body.String(), "<script")
	})
}
