package wire

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const missionFile = "levee-strip-small.json"

// mission reads a sample mission.
func mission(t testing.TB, name string) []byte {
	t.Helper()
	body, err := os.ReadFile(filepath.Join("..", "..", "testdata", "missions", name))
	require.NoError(t, err)
	return body
}

func newReader(t testing.TB) *Reader {
	t.Helper()
	r, err := NewReader("tractcheck test")
	require.NoError(t, err)
	return r
}

// edited makes a body of a sample mission after some changes of its members.
func edited(t testing.TB, change func(body map[string]any)) []byte {
	t.Helper()
	var body map[string]any
	require.NoError(t, json.Unmarshal(mission(t, missionFile), &body))
	change(body)
	out, err := json.Marshal(body)
	require.NoError(t, err)
	return out
}

// part is an object inside a body.
func part(body map[string]any, path ...string) map[string]any {
	for _, name := range path {
		body = body[name].(map[string]any)
	}
	return body
}

func pointers(faults []Fault) []string {
	out := []string{}
	for _, f := range faults {
		out = append(out, f.Pointer+" "+string(f.Code))
	}
	return out
}

func TestReadEverySampleMission(t *testing.T) {
	t.Parallel()
	r := newReader(t)
	files, err := filepath.Glob("../../testdata/missions/*.json")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		name := filepath.Base(file)
		if strings.HasPrefix(name, "bad_") {
			continue
		}
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			request, m, digest, faults := r.Read(Assessments, mission(t, name))
			require.Empty(t, faults)
			require.NotNil(t, request)
			assert.NotNil(t, m.Aircraft)
			assert.Equal(t, Digest(Assessments, "tractcheck test", mission(t, name)), digest)
		})
	}
}

func TestReadReportsTheFaultsOfAllThreePasses(t *testing.T) {
	t.Parallel()
	body := edited(t, func(body map[string]any) {
		body["surprise"] = 1
		part(body, "flight", "speed")["unit"] = "furlong/h"
		delete(part(body, "weather"), "temperature")
		part(body, "flight")["swath"] = nil
		part(body, "aircraft")["count"] = "one"
		part(body, "aircraft", "rotors")["coaxial"] = true
		part(body, "aircraft", "rotors")["count"] = 3.0
	})
	text := strings.Replace(string(body), `"tank_capacity":{`, `"tank_capacity":{"value":1e400,`, 1)
	_, _, digest, faults := newReader(t).Read(Assessments, []byte(text))
	assert.Empty(t, digest)
	assert.ElementsMatch(t, []string{
		"/surprise unknown_member",                        // shape
		"/flight/speed/unit wrong_unit",                   // shape
		"/weather/temperature missing_member",             // shape
		"/flight/swath wrong_type",                        // shape
		"/aircraft/count wrong_type",                      // shape
		"/aircraft/tank_capacity/value number_not_finite", // text
		"/aircraft/tank_capacity/value duplicate_member",  // text
		"/aircraft/rotors/count conflict",                 // meaning
	}, pointers(faults))
}

func TestFaultsStandInTheOrderOfTheBody(t *testing.T) {
	t.Parallel()
	body := `{"weather":{"wind_speed":{"unit":"mph","value":"x"}},"zz":1,"flight":{"speed":null,"speed":null},"aircraft":3}`
	_, _, _, faults := newReader(t).Read(RatePressures, []byte(body))
	var at []int
	for _, f := range faults {
		if f.Code == FaultMissing {
			continue
		}
		last := f.Pointer[strings.LastIndexByte(f.Pointer, '/')+1:]
		at = append(at, strings.LastIndex(body, `"`+last+`"`))
	}
	require.GreaterOrEqual(t, len(at), 5)
	assert.IsNonDecreasing(t, at)
}

func TestAFaultIsNotRepeatedByAnotherPass(t *testing.T) {
	t.Parallel()
	_, _, _, faults := newReader(t).Read(Assessments, edited(t, func(body map[string]any) {
		part(body, "flight")["speed"] = "fast"
		part(body, "load", "density")["value"] = -1e15
		delete(body, "weather")
	}))
	assert.ElementsMatch(t, []string{
		"/flight/speed wrong_type", "/load/density/value out_of_range", "/weather missing_member",
	}, pointers(faults))
}

func TestTrap3StrictReading(t *testing.T) {
	t.Parallel()
	r := newReader(t)
	whole := string(mission(t, missionFile))
	tests := []struct{ name, body, want string }{
		{"unknown member", strings.Replace(whole, `"units"`, `"unit_system"`, 1), "/unit_system unknown_member"},
		{"letter case", strings.Replace(whole, `"flight"`, `"Flight"`, 1), "/Flight unknown_member"},
		{"duplicate", strings.Replace(whole, `"units"`, `"units": "us", "units"`, 1), "/units duplicate_member"},
		{"trailing data", whole + "x", " trailing_data"},
		{"two values", whole + whole, " trailing_data"},
		{"null", "null", " wrong_type"},
		{"a list", "[]", " wrong_type"},
		{"empty", "", " empty_body"},
		{"bad UTF-8", strings.Replace(whole, "levee", "\xff", 1), " syntax"},
		{"byte order mark", "\xEF\xBB\xBF" + whole, " syntax"},
	}
	for _, tc := range tests {
		t.Run(tc.name, func(t *testing.T) {
			t.Parallel()
			_, _, digest, faults := r.Read(Assessments, []byte(tc.body))
			require.NotEmpty(t, faults)
			assert.Empty(t, digest)
			found := pointers(faults)
			if tc.name == "bad UTF-8" { // where the word stands is the fixture's affair
				assert.True(t, strings.HasSuffix(found[0], tc.want), found)
				return
			}
			assert.Contains(t, found, tc.want)
		})
	}
}

func TestReadCapsTheList(t *testing.T) {
	t.Parallel()
	r := newReader(t)
	many := edited(t, func(body map[string]any) {
		rows := make([]any, 150)
		for i := range rows {
			rows[i] = map[string]any{"kind": 1.0, "distance": nil, "bearing": false}
		}
		part(body, "field")["neighbors"] = rows
	})
	_, _, _, faults := r.Read(Assessments, many)
	require.Len(t, faults, MaxFaults)
	last := faults[MaxFaults-1]
	assert.Equal(t, FaultLength, last.Code)
	assert.Contains(t, last.Message, "more faults are not listed")
	assert.GreaterOrEqual(t, last.Value, 450)

	late := strings.TrimSuffix(string(many), "}") + `,"zzz":1}`
	_, _, _, faults = r.Read(Assessments, []byte(late))
	require.Len(t, faults, MaxFaults)
	assert.Contains(t, pointers(faults), "/zzz unknown_member", "the fault that makes the status 400 must be on the list")
}

func TestReadGivesTheSameFaultsEveryTime(t *testing.T) {
	t.Parallel()
	r := newReader(t)
	body := edited(t, func(body map[string]any) {
		for name := range part(body, "flight") {
			part(body, "flight")[name] = "x"
		}
		for name := range part(body, "aircraft") {
			part(body, "aircraft")[name+"_"] = 1
		}
		delete(part(body, "weather"), "wind_speed")
		delete(part(body, "weather"), "wind_from")
	})
	_, _, _, first := r.Read(Assessments, body)
	require.Greater(t, len(first), 10)
	for range 20 {
		_, _, _, again := r.Read(Assessments, body)
		require.Equal(t, first, again)
	}
}

// The contract and the structs agree, so this needs a body that skipped the contract.
func TestABodyThatCannotBeDecodedIsAFault(t *testing.T) {
	t.Parallel()
	for body, pointer := range map[string]string{
		`{"aircraft":{"label":3}}`: "/aircraft/label", `{"flight":{"speed":[]}}`: "/flight/speed", `{"surprise":1}`: "/surprise",
	} {
		_, _, faults := new(Reader).decode(Assessments, []byte(body))
		require.Len(t, faults, 1)
		assert.Equal(t, FaultType, faults[0].Code)
		assert.Equal(t, pointer, faults[0].Pointer)
	}
}

func TestPruneTakesAnItemWithItsList(t *testing.T) {
	t.Parallel()
	for pointer, want := range map[string]string{
		"/a": `{"l":[{"b":1},2]}`, "/l/0/b": `{"a":1,"l":[{},2]}`, "/l/1": `{"a":1}`, "/l/0": `{"a":1}`,
		"/none": `{"a":1,"l":[{"b":1},2]}`, "/a/deeper": `{"a":1,"l":[{"b":1},2]}`, "/l/9": `{"a":1}`, "": `{"a":1,"l":[{"b":1},2]}`,
	} {
		root := readText([]byte(`{"a":1,"l":[{"b":1},2]}`)).value.(map[string]any)
		prune(root, pointer)
		got, err := json.Marshal(root)
		require.NoError(t, err)
		assert.JSONEq(t, want, string(got), pointer)
	}
}

func TestReadIsBoundedInTime(t *testing.T) {
	if testing.Short() {
		t.Skip("reads bodies of a mebibyte")
	}
	t.Parallel()
	r := newReader(t)
	const mebibyte = 1 << 20
	fill := func(open, item, closed string) string {
		return open + strings.Repeat(item, (mebibyte-len(open)-len(closed))/len(item)) + closed
	}
	for name, body := range map[string]string{
		"wrong items":    fill(`{"field":{"neighbors":[0`, `,"`+strings.Repeat(" ", 20)+`"`, `]}}`),
		"deep":           strings.Repeat("[", mebibyte),
		"duplicates":     fill(`{"a":0`, `,"a":0`, `}`),
		"huge numbers":   fill(`{"field":{"neighbors":[0`, `,1e999`+strings.Repeat(" ", 20), `]}}`),
		"long number":    fill(`{"a":1`, `0`, `}`),
		"spaces":         fill(``, ` `, ``),
		"long text":      fill(`{"reference":"`, `x`, `"}`),
		"big exponents":  fill(`{"field":{"neighbors":[0`, `,1e308`+strings.Repeat(" ", 20), `]}}`),
		"unknown names":  fill(`{"a":0`, `,"`+"\\u0041"+`":{}`, `}`),
		"long positions": fill(`{"field":{"boundary":{"type":"Polygon","coordinates":[[[0,0]`, `,[1e308,1e308`+strings.Repeat(" ", 60)+`]`, `]]}}}`),
	} {
		_, _, _, faults := r.Read(Assessments, []byte(body))
		assert.NotEmpty(t, faults, name)
		assert.LessOrEqual(t, len(faults), MaxFaults, name)
	}
}

func BenchmarkRead(b *testing.B) {
	r := newReader(b)
	body := mission(b, missionFile)
	b.ReportAllocs()
	b.SetBytes(int64(len(body)))
	for b.Loop() {
		if _, _, _, faults := r.Read(Assessments, body); len(faults) > 0 {
			b.Fatal(faults)
		}
	}
}
