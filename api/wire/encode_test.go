package wire

import (
	"bytes"
	"encoding/json"
	"math"
	"reflect"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tractcheck/feasibility"
)

// byStandard writes a value by encoding/json, HTML left unescaped.
func byStandard(t require.TestingT, value any) string {
	var buffer bytes.Buffer
	encoder := json.NewEncoder(&buffer)
	encoder.SetEscapeHTML(false)
	require.NoError(t, encoder.Encode(value))
	return string(bytes.TrimSuffix(buffer.Bytes(), []byte{'\n'}))
}

// selfWriter is an answer that writes itself.
type selfWriter interface {
	AppendJSON(to []byte) ([]byte, error)
}

func appended(t require.TestingT, a selfWriter) string {
	written, err := a.AppendJSON(nil)
	require.NoError(t, err)
	return string(written)
}

func TestAnswersAreWrittenAsTheStandardLibraryDoes(t *testing.T) {
	t.Parallel()
	r := newReader(t)
	assess := map[Endpoint]func(feasibility.Mission) (feasibility.Answer, error){
		Assessments: feasibility.Assess, TakeoffWeights: feasibility.AssessTakeoffWeight, RatePressures: feasibility.AssessRatePressure,
		DriftRisks: feasibility.AssessDriftRisk, SortiePlans: feasibility.AssessSortiePlan, AuthorizationChecklists: feasibility.AssessAuthorizations,
	}
	for i, body := range sampleBodies(t) {
		if testing.Short() && i%4 != 0 {
			continue
		}
		for endpoint, part := range assess {
			request, mission, digest, faults := r.Read(endpoint, body)
			if len(faults) > 0 {
				continue
			}
			answer, err := part(mission)
			require.NoError(t, err)
			a := NewAnswer(endpoint, Identity{Digest: digest, Engine: "test"}, request, answer)
			assert.Equal(t, byStandard(t, a), appended(t, a))
		}
	}
	full := NewAnswer(Assessments, asked, &Request{}, filledAnswer())
	assert.Equal(t, byStandard(t, full), appended(t, full))
	assert.Equal(t, byStandard(t, &Answer{}), appended(t, &Answer{}), "lists that are nil")
	assert.Equal(t, "null", appended(t, (*Answer)(nil)))
}

func TestDecisionsAreWrittenAsTheStandardLibraryDoes(t *testing.T) {
	t.Parallel()
	r, written := newReader(t), 0
	hours, setUps := decisionBodies(t)
	for i := range hours {
		if testing.Short() && i%4 != 0 {
			continue
		}
		if request, mission, forecasts, digest, faults := r.ReadSprayHours(hours[i]); len(faults) == 0 {
			answer, err := feasibility.AssessHours(mission, forecasts)
			require.NoError(t, err)
			a := NewSprayHours(Identity{Digest: digest, Engine: "test"}, request, answer)
			assert.Equal(t, byStandard(t, a), appended(t, a))
			written++
		}
		if merged, digest, faults := r.ReadComparison(setUps[i]); len(faults) == 0 {
			var assessed []feasibility.SetUp
			for _, s := range merged {
				answer, err := feasibility.Assess(s.Mission)
				require.NoError(t, err)
				assessed = append(assessed, feasibility.SetUp{Label: s.Label, Answer: answer})
			}
			a := NewComparison(Identity{Digest: digest, Engine: "test"}, merged, feasibility.Compare(assessed))
			assert.Equal(t, byStandard(t, a), appended(t, a))
			written++
		}
	}
	assert.Positive(t, written)
	for _, empty := range []selfWriter{&SprayHoursAnswer{}, &ComparisonAnswer{}, (*SprayHoursAnswer)(nil), (*ComparisonAnswer)(nil)} {
		assert.Equal(t, byStandard(t, empty), appended(t, empty))
	}
}

func TestTextsAreWrittenAsTheStandardLibraryDoes(t *testing.T) {
	t.Parallel()
	check := func(t require.TestingT, text string) {
		require.Equal(t, byStandard(t, text), string(appendText(nil, text)), "%q", text)
	}
	for _, text := range []string{"", "a", `"`, `\`, `a"b\c`, "<&>", "café", "\u2028\u2029", "\x00\x1f\x7f", "\xff\xfe", "a\nb\tc\b\f\r", `\"é`, "😀"} {
		check(t, text)
	}
	rapid.Check(t, func(t *rapid.T) { check(t, rapid.String().Draw(t, "text")) })
	rapid.Check(t, func(t *rapid.T) {
		check(t, string(rapid.SliceOfN(rapid.Byte(), 0, 30).Draw(t, "bytes")))
	})
}

func TestFiguresAreWrittenAsTheStandardLibraryDoes(t *testing.T) {
	t.Parallel()
	check := func(t require.TestingT, x float64) {
		written, err := appendFloat(nil, reflect.ValueOf(x))
		require.NoError(t, err)
		require.Equal(t, byStandard(t, x), string(written))
	}
	for _, x := range []float64{0, math.Copysign(0, -1), 1, -1.5, 1e-6, 1e-7, 1e20, 1e21, math.MaxFloat64, math.SmallestNonzeroFloat64} {
		check(t, x)
	}
	rapid.Check(t, func(t *rapid.T) { check(t, rapid.Float64().Draw(t, "x")) })
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		_, err := (&Answer{Findings: []Finding{{Measured: &Quantity{Value: &x}}}}).AppendJSON(nil)
		assert.Error(t, err, "a figure that JSON has no form for")
	}
}

// What is no plain value is left to the standard library.
func TestOtherTypesAreWrittenAsTheStandardLibraryDoes(t *testing.T) {
	t.Parallel()
	for _, value := range []any{
		struct {
			A any             `json:"a"`
			B map[string]int  `json:"b"`
			C []byte          `json:"c"`
			D time.Time       `json:"d"`
			E json.RawMessage `json:"e,omitzero"`
			F int8            `json:"f"`
			g int
			H int `json:"-"`
		}{A: "x<", B: map[string]int{"a": 1}, C: []byte("abc"), E: json.RawMessage(`[1]`), g: 1, H: 2},
	} {
		written, err := appenderOf(reflect.TypeOf(value))(nil, reflect.ValueOf(value))
		require.NoError(t, err)
		assert.Equal(t, byStandard(t, value), string(written))
	}
}

// The writing of answers knows one option of a field, omitzero.
func TestNoMemberOfAnAnswerHasAnotherOption(t *testing.T) {
	t.Parallel()
	seen := map[reflect.Type]bool{}
	for _, answer := range []reflect.Type{reflect.TypeFor[Answer](), reflect.TypeFor[SprayHoursAnswer](), reflect.TypeFor[ComparisonAnswer]()} {
		typesBelow(answer, seen)
	}
	for goType := range seen {
		for i := range goType.NumField() {
			assert.Regexp(t, `^[a-z0-9_]+(,omitzero)?$`, goType.Field(i).Tag.Get("json"), "%s.%s", goType, goType.Field(i).Name)
		}
	}
}

func BenchmarkAppendJSON(b *testing.B) {
	a := NewAnswer(Assessments, asked, &Request{}, filledAnswer())
	var page []byte
	b.ReportAllocs()
	for b.Loop() {
		var err error
		if page, err = a.AppendJSON(page[:0]); err != nil {
			b.Fatal(err)
		}
	}
}
