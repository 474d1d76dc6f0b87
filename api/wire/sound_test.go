package wire

import (
	"bytes"
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/go-json-experiment/json/jsontext"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// sampleBodies reads every sample mission.
func sampleBodies(t testing.TB) [][]byte {
	t.Helper()
	files, err := filepath.Glob(filepath.Join("..", "..", "testdata", "missions", "*.json"))
	require.NoError(t, err)
	require.NotEmpty(t, files)
	bodies := make([][]byte, len(files))
	for i, name := range files {
		bodies[i], err = os.ReadFile(name)
		require.NoError(t, err)
	}
	return bodies
}

// sameReading holds the quick way of reading to the three passes: it takes what they take, with the
// same request, mission and digest, and nothing else. It reports whether the body was taken.
func sameReading(t require.TestingT, r *Reader, endpoint Endpoint, body []byte) bool {
	request, mission, digest, sound := r.readSound(endpoint, bytes.Clone(body))
	wantRequest, wantMission, wantDigest, faults := r.readThrough(endpoint, body)
	if !escapesName(body) { // such names are left to the passes
		require.Equal(t, len(faults) == 0, sound, "%s, faults %v: %s", endpoint, faults, body)
	}
	if sound {
		require.Empty(t, faults, "%s: %s", endpoint, body)
		require.Equal(t, wantRequest, request, "%s: %s", endpoint, body)
		require.Equal(t, wantMission, mission, "%s: %s", endpoint, body)
		require.Equal(t, wantDigest, digest, "%s: %s", endpoint, body)
	}
	return sound
}

// escapesName reports whether a name is written with an escape somewhere in a body.
func escapesName(body []byte) bool {
	tokens := jsontext.NewDecoder(bytes.NewReader(body), jsontext.AllowDuplicateNames(true))
	for {
		kind, length := tokens.StackIndex(tokens.StackDepth())
		begin := tokens.InputOffset()
		if _, err := tokens.ReadToken(); err != nil {
			return false
		}
		if kind == '{' && length%2 == 0 && bytes.IndexByte(body[begin:tokens.InputOffset()], '\\') >= 0 {
			return true
		}
	}
}

func TestEveryEndpointIsReadTheQuickWay(t *testing.T) {
	t.Parallel()
	r := newReader(t)
	for _, endpoint := range allEndpoints {
		assert.NotNil(t, r.forms[endpoint], "%s: its schema uses a keyword that has no form", endpoint)
	}
	for _, body := range sampleBodies(t) {
		assert.True(t, sameReading(t, r, Assessments, body))
		for _, endpoint := range allEndpoints[1:] {
			sameReading(t, r, endpoint, body)
		}
	}
}

// oddities are values to put anywhere in a body, as they are written.
var oddities = []string{
	`null`, `true`, `false`, `0`, `-0`, `0.0`, `1`, `1.0`, `2e0`, `20E-1`, `1.5`, `-1`, `3`, `55`, `100`, `1e-13`, `1e12`, `1.1e12`,
	`1e308`, `1e309`, `-1e400`, `123456789012345678901234567890`, `0.1000000000000000055`, `1e-7`, `01`, `.5`, `+1`, `NaN`,
	`""`, `" "`, `"TX"`, `"tx"`, `"us"`, `"US"`, `"gal"`, `"lb"`, `"ft"`, `"hydraulic"`, `"rotary"`, `"Polygon"`, `"MultiPolygon"`, `"Point"`,
	`"2026-06-03T07:30:00-05:00"`, `"2026-06-31T07:30:00Z"`, `"caf\u00e9"`, `"café"`, `"\ud83d\ude00"`, `"\ud800"`, `"\/\"\\\n\u001f\u2028"`, `"\u0067al"`, `"\x"`, "\"\xff\"", `"a\u0000b"`, "\"a\x01\"",
	`[]`, `[1]`, `[[0,0],[0,1]]`, `[[[-91,33.4],[-90.999,33.4],[-90.999,33.401],[-91,33.4]]]`, `[[[[-91,33.4],[-90.999,33.4],[-90.999,33.401],[-91,33.4]]]]`,
	`{}`, `{"value":1,"unit":"ft"}`, `{"value":10,"unit":"gal"}`, `{"unit":"gal","value":1}`, `{"value":1}`, `{"value":1,"value":2,"unit":"ft"}`,
	`{"value":1,"unit":"ft","more":1}`, `{"value":"1","unit":"ft"}`, `[[[[[[[[[[[[[[[[[[[[]]]]]]]]]]]]]]]]]]]]`,
}

// mangled is a body with one to three changes: values put in place of others, members sent twice,
// renamed, left out or added, bytes changed, white space.
func mangled(random *rand.Rand, body []byte) []byte {
	body = bytes.Clone(body)
	for range 1 + random.IntN(3) {
		spans := valueSpans(body)
		if len(spans) == 0 {
			return body
		}
		span := spans[random.IntN(len(spans))]
		odd := []byte(oddities[random.IntN(len(oddities))])
		switch random.IntN(9) {
		case 0, 1, 2, 3:
			body = slices.Replace(body, span[0], span[1], odd...)
		case 4: // another value of the body in its place
			other := spans[random.IntN(len(spans))]
			body = slices.Replace(body, span[0], span[1], bytes.Clone(body[other[0]:other[1]])...)
		case 5:
			body = slices.Insert(body, span[1], []byte(" \r\n\t")...)
		case 6:
			names := []string{"reference", "fill", "speed", "count", "unknown", "value", "crew", "units"}
			body = slices.Insert(body, bytes.IndexByte(body, '{')+1, []byte(`"`+names[random.IntN(len(names))]+`":`+string(odd)+`,`)...)
		case 7: // a name changed
			body[random.IntN(len(body))] = `abcz_"{}[],:0 `[random.IntN(14)]
		default: // a member or an item less, where the comma behind it is there
			if span[1] < len(body) && body[span[1]] == ',' {
				begin := max(bytes.LastIndexByte(body[:span[0]], ','), bytes.LastIndexByte(body[:span[0]], '{'), bytes.LastIndexByte(body[:span[0]], '['))
				body = slices.Delete(body, begin+1, span[1]+1)
			}
		}
	}
	return body
}

// valueSpans is where the values of a body stand, as far as it can be read.
func valueSpans(body []byte) [][2]int {
	var spans [][2]int
	tokens := jsontext.NewDecoder(bytes.NewReader(body), jsontext.AllowDuplicateNames(true), jsontext.AllowInvalidUTF8(true))
	for {
		kind, length := tokens.StackIndex(tokens.StackDepth())
		token, err := tokens.ReadToken()
		if err != nil {
			return spans
		}
		end := int(tokens.InputOffset())
		name := kind == '{' && length%2 == 0
		if !name && strings.ContainsRune(`"0tfn`, rune(token.Kind())) {
			spans = append(spans, [2]int{end - len(token.String()), end})
			if token.Kind() == '"' {
				spans[len(spans)-1][0] -= 2
			}
		}
	}
}

func TestTheQuickWayOfReadingIsThatOfThePasses(t *testing.T) {
	t.Parallel()
	r, bodies := newReader(t), sampleBodies(t)
	tries := 2500
	if testing.Short() {
		tries = 600
	}
	taken := 0
	for i := range tries {
		random := rand.New(rand.NewPCG(8, uint64(i)))
		body := mangled(random, bodies[random.IntN(len(bodies))])
		endpoint := Assessments
		if random.IntN(4) == 0 {
			endpoint = allEndpoints[random.IntN(len(allEndpoints))]
		}
		if sameReading(t, r, endpoint, body) {
			taken++
		}
	}
	t.Logf("%d of %d bodies were taken", taken, tries)
	assert.Greater(t, taken, tries/50, "some changes leave a body sound, or nothing is compared")
	assert.Less(t, taken, tries/2, "most changes do not")
}

// sameWays holds the quick way of reading a body of any endpoint to the three passes.
func sameWays(t require.TestingT, r *Reader, endpoint Endpoint, body []byte) bool {
	switch endpoint {
	case SprayHours:
		return sameHours(t, r, body)
	case Comparisons:
		return sameComparison(t, r, body)
	default:
		return sameReading(t, r, endpoint, body)
	}
}

func FuzzQuickReading(f *testing.F) {
	r := newReader(f)
	for i, body := range sampleBodies(f) {
		f.Add(body, uint8(i))
	}
	hours, setUps := decisionBodies(f)
	for i := range hours {
		f.Add(hours[i], uint8(slices.Index(endpoints, SprayHours)))
		f.Add(setUps[i], uint8(slices.Index(endpoints, Comparisons)))
	}
	for i, odd := range oddities {
		f.Add([]byte(odd), uint8(i))
	}
	f.Fuzz(func(t *testing.T, body []byte, endpoint uint8) {
		sameWays(t, r, endpoints[int(endpoint)%len(endpoints)], body)
	})
}

// Nothing of one body stays for the next one.
func TestReadersOfFormsAreShared(t *testing.T) {
	t.Parallel()
	r, bodies := newReader(t), sampleBodies(t)
	_, _, want, _ := r.Read(Assessments, bodies[0])
	for range 20 {
		r.Read(Assessments, bodies[0][:len(bodies[0])/2])
		r.Read(Assessments, bodies[1])
		_, _, got, faults := r.Read(Assessments, bodies[0])
		require.Empty(t, faults)
		require.Equal(t, want, got)
	}
}

func TestNumbersOfTheCanonicalForm(t *testing.T) {
	t.Parallel()
	check := func(t require.TestingT, x float64) {
		want := jsontext.Value(strconv.FormatFloat(x, 'g', -1, 64))
		require.NoError(t, want.Canonicalize())
		require.Equal(t, string(want), string(appendNumber(nil, x)))
	}
	for _, x := range []float64{0, math.Copysign(0, -1), 1, -1, 1e-6, 9.9e-7, 1e-7, 1e-10, 1e20, 1e21, 1e22, 1.5e300, math.MaxFloat64, math.SmallestNonzeroFloat64, 0.1, 1.0 / 3} {
		check(t, x)
	}
	rapid.Check(t, func(t *rapid.T) { check(t, rapid.Float64Range(-math.MaxFloat64, math.MaxFloat64).Draw(t, "x")) })
	rapid.Check(t, func(t *rapid.T) {
		check(t, rapid.Float64Range(-10, 10).Draw(t, "x")*math.Pow10(rapid.IntRange(-30, 30).Draw(t, "exponent")))
	})
}

// A schema with a keyword that no form knows has no form, at whatever depth it stands.
func TestAnUnknownKeywordHasNoForm(t *testing.T) {
	t.Parallel()
	for _, schema := range []string{
		`{"type":"string","const":"a"}`, `{"type":["string","null"]}`, `{"type":"null"}`, `{"oneOf":[{}]}`, `{"type":"string","enum":["a",1]}`,
		`{"type":"number","enum":["a"]}`, `{"type":"number","minimum":0.1}`, `{"type":"number","maximum":1e300}`, `{"type":"number","multipleOf":2}`,
		`{"type":"array","uniqueItems":true}`, `{"type":"array","items":{"type":"string","contentEncoding":"base64"}}`,
		`{"type":"array","items":true}`, `{"type":"string","pattern":"("}`, `{"type":"object"}`, `{"type":"object","additionalProperties":true}`,
		`{"type":"object","additionalProperties":{"type":"string"}}`, `{"type":"object","additionalProperties":false,"dependentRequired":{"a":["b"]}}`,
		`{"type":"object","additionalProperties":false,"required":["a"]}`, `{"type":"object","additionalProperties":false,"properties":{"a b":{"type":"string"}}}`,
		`{"type":"object","additionalProperties":false,"properties":{"a":{"type":"string","not":{}}}}`,
	} {
		var node map[string]any
		decoder := json.NewDecoder(strings.NewReader(schema))
		decoder.UseNumber()
		require.NoError(t, decoder.Decode(&node))
		_, known := formMaker{shapes: &shapes{}}.formOf(node, 0)
		assert.False(t, known, schema)
	}
}

// The quick way leaves the tags out, so every rule of a tag but togetherRule must be one of the schema
// at its place.
func TestTheSchemasSayWhatTheTagsSay(t *testing.T) {
	t.Parallel()
	r := newReader(t)
	for _, endpoint := range allEndpoints {
		tagsAreInForm(t, string(endpoint), reflect.TypeFor[Request](), r.forms[endpoint])
	}
	tagsAreInForm(t, string(SprayHours), reflect.TypeFor[SprayHoursRequest](), r.forms[SprayHours])
	assert.Len(t, pairs, 4, "length and width, latitude and longitude")
	assert.Len(t, hourPairs, 2, "latitude and longitude")
}

func tagsAreInForm(t *testing.T, at string, goType reflect.Type, f *form) {
	t.Helper()
	for i := range goType.NumField() {
		field := goType.Field(i)
		name, _, _ := strings.Cut(field.Tag.Get("json"), ",")
		member, known := f.members[name]
		if !known {
			continue // not a member of this endpoint
		}
		below := member.form
		required := f.required.has(member.place)
		for rule := range strings.SplitSeq(field.Tag.Get("validate"), ",") {
			key, value, _ := strings.Cut(rule, "=")
			here := at + "/" + name + " " + rule
			switch key {
			case "", "omitempty", "required_with":
			case "dive":
				below = below.items
			case "required":
				assert.True(t, required, here)
			case "unique":
				assert.True(t, below.distinct, here)
			case "oneof":
				for _, v := range below.values {
					assert.Contains(t, strings.Fields(value), v, here)
				}
				assert.NotEmpty(t, below.values, here)
			case "min", "max":
				bound, err := strconv.ParseFloat(value, 64)
				require.NoError(t, err)
				boundIsInForm(t, here, key, bound, below)
			case "len", "alpha", "uppercase":
				require.NotNil(t, below.pattern, here)
				assert.Equal(t, "^[A-Z]{2}$", below.pattern.String(), here)
			default:
				assert.Fail(t, "a rule that the quick way does not keep", here)
			}
		}
		for below.kind == listForm && below.items != nil {
			below = below.items
		}
		elem := field.Type
		for elem.Kind() == reflect.Pointer || elem.Kind() == reflect.Slice {
			elem = elem.Elem()
		}
		if elem.Kind() == reflect.Struct && below.kind == objectForm {
			tagsAreInForm(t, at+"/"+name, elem, below)
		}
	}
}

func boundIsInForm(t *testing.T, here, key string, bound float64, f *form) {
	t.Helper()
	switch {
	case (f.kind == numberForm || f.kind == wholeForm) && key == "min":
		assert.GreaterOrEqual(t, f.low, bound, here)
	case f.kind == numberForm || f.kind == wholeForm:
		assert.LessOrEqual(t, f.high, bound, here)
	case key == "min":
		assert.GreaterOrEqual(t, float64(f.least), bound, here)
	default:
		assert.LessOrEqual(t, float64(f.most), bound, here)
	}
}
