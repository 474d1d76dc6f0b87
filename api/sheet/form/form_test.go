package form

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/go-json-experiment/json/jsontext"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/api/wire"
	"tractcheck/feasibility/units"
)

func newForm(t testing.TB) *Form {
	t.Helper()
	f, err := New()
	require.NoError(t, err)
	return f
}

func missions(t testing.TB) []string {
	t.Helper()
	files, err := filepath.Glob("../../../testdata/missions/*.json")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), 8)
	return files
}

// unreached are the members of a request that the form leaves to JSON, each with why.
var unreached = map[string]string{}

func TestTheFormReachesEveryMemberOfTheRequest(t *testing.T) {
	t.Parallel()
	f := newForm(t)
	reached := map[string]int{}
	for _, l := range f.lines {
		reached[l.path]++
	}
	for pointer := range f.contract.members {
		if unreached[pointer] == "" {
			assert.Equal(t, 1, reached[pointer], "%s must have one field", pointer)
		}
	}
	assert.Len(t, f.lines, len(f.contract.members)-len(unreached))
	assert.Greater(t, len(f.lines), 150)
}

func TestEveryFieldIsFitForItsMember(t *testing.T) {
	t.Parallel()
	f := newForm(t)
	labels := map[string]bool{}
	for _, l := range f.lines {
		assert.NotEmpty(t, l.label, l.path)
		assert.False(t, labels[l.part.list+l.label], "two fields named %q", l.label)
		labels[l.part.list+l.label] = true
		if l.kind == kindQuantity {
			assert.Contains(t, l.units, l.us, l.path)
			assert.Contains(t, l.units, l.si, l.path)
			_, ok := wire.AllowedIn(l.path, l.us)
			assert.True(t, ok, "%s has no range", l.path)
		} else {
			assert.Empty(t, l.us+l.si, "%s is no quantity", l.path)
		}
		for _, code := range l.choices {
			assert.True(t, slices.ContainsFunc(choiceWords, func(w wording) bool { return w.code == code }), "no words for %s", code)
		}
		always := l.required && slices.Contains(f.contract.objects, l.path[:strings.LastIndexByte(l.path, '/')])
		assert.False(t, always && l.part.folded, "%s is needed in every request and must not be folded away", l.path)
	}
}

// sorted is a request with the held papers in order: ticks have no order, and none has a meaning.
func sorted(t *testing.T, request []byte) string {
	t.Helper()
	var root map[string]any
	require.NoError(t, json.Unmarshal(request, &root))
	if operation, ok := root["operation"].(map[string]any); ok {
		if holds, ok := operation["holds"].([]any); ok {
			slices.SortFunc(holds, func(a, b any) int { return strings.Compare(a.(string), b.(string)) })
		}
	}
	if may, ok := root["may_change"].([]any); ok {
		slices.SortFunc(may, func(a, b any) int { return strings.Compare(a.(string), b.(string)) })
	}
	text, err := json.Marshal(root)
	require.NoError(t, err)
	value := jsontext.Value(text)
	require.NoError(t, value.Canonicalize())
	return string(value)
}

func TestEveryMissionGoesThroughTheFormUnchanged(t *testing.T) {
	t.Parallel()
	f := newForm(t)
	for _, file := range missions(t) {
		t.Run(filepath.Base(file), func(t *testing.T) {
			t.Parallel()
			mission, err := os.ReadFile(file)
			require.NoError(t, err)
			values, err := f.Fill(mission)
			require.NoError(t, err)
			tidy, _ := f.Tidy(values)
			require.Equal(t, values, tidy, "nothing is blank in it")
			assert.Empty(t, f.Unknown(values))
			request, faults := f.Request(values)
			require.Empty(t, faults)
			require.JSONEq(t, sorted(t, mission), sorted(t, request))
			assert.Equal(t, wire.Digest(wire.Assessments, "e", []byte(sorted(t, mission))), wire.Digest(wire.Assessments, "e", []byte(sorted(t, request))))
		})
	}
}

func TestTheExamplesAreSampleMissions(t *testing.T) {
	t.Parallel()
	for _, id := range examples {
		want, err := os.ReadFile("../../../testdata/missions/" + id + ".json")
		require.NoError(t, err)
		assert.Equal(t, string(want), string(example(id)), "copy it anew into starts")
		assert.Contains(t, titleOf(want), "Invented example")
	}
	assert.Nil(t, example("../starts/levee-strip-small"))
}

func TestANumberIsReadAsPeopleWriteIt(t *testing.T) {
	t.Parallel()
	for typed, want := range map[string]string{
		"12": "12", " 12.50 ": "12.50", "+3": "3", ".5": "0.5", "-.5": "-0.5", "5.": "5", "007": "7", "00": "0", "0.10": "0.10",
		"1,250": "1250", "1,250,000.5": "1250000.5", "-1,000": "-1000", "1e3": "1e3", "1.E+3": "1e+3", "\u22124": "-4",
		"1,25": `"1,25"`, "1.2.3": `"1.2.3"`, "ten": `"ten"`, "1 2": `"1 2"`, "": `""`, ".": `"."`, "-": `"-"`, "0x10": `"0x10"`,
		"NaN": `"NaN"`, "1e": `"1e"`, `"`: `"\""`,
	} {
		got := literal(typed)
		assert.Equal(t, want, got, typed)
		assert.True(t, json.Valid([]byte(got)), typed)
	}
}

func TestUnitsAreConvertedThereAndBack(t *testing.T) {
	t.Parallel()
	f := newForm(t)
	values, err := f.Begin("levee-strip-small", "si")
	require.NoError(t, err)
	assert.Equal(t, "si", values.text("/units"))
	assert.Equal(t, "kg", values.text("/aircraft/empty_weight/unit"))
	assert.Equal(t, "10.8862", values.text("/aircraft/empty_weight/value"), "24 lb of 0.45359237 kg")
	back := f.In(values, "us")
	assert.Equal(t, "lb", back.text("/aircraft/empty_weight/unit"))
	assert.InDelta(t, 24, number64(t, back.text("/aircraft/empty_weight/value")), 1e-4)
	for _, l := range f.lines {
		if l.kind == kindQuantity && l.part.list == "" {
			assert.Equal(t, l.si, values.text(l.path+unitName), l.path)
		}
	}
	odd := f.In(Values{"/flight/speed/value": {"fast"}, "/flight/speed/unit": {"mph"}}, "si")
	assert.Equal(t, "fast", odd.text("/flight/speed/value"), "what cannot be read stays as it was typed")
	assert.Equal(t, "mph", odd.text("/flight/speed/unit"))
}

func number64(t *testing.T, text string) float64 {
	t.Helper()
	var n float64
	require.NoError(t, json.Unmarshal([]byte(text), &n))
	return n
}

func TestEveryMachineStartsSound(t *testing.T) {
	t.Parallel()
	f := newForm(t)
	reader, err := wire.NewReader("e")
	require.NoError(t, err)
	for _, m := range machines {
		for _, system := range []string{"us", "si"} {
			values, err := f.Begin(m.id, system)
			require.NoError(t, err)
			assert.NotEmpty(t, m.source)
			assert.Contains(t, values.text("/aircraft/label"), "invented figures")
			full := m.empty + m.battery + units.KilogramPerLiter.Mass(m.tank)
			assert.True(t, units.AtMost(full, m.most), "%s: %v with a full tank", m.id, full)
			request, faults := f.Request(values)
			require.Empty(t, faults)
			_, _, _, found := reader.Read(wire.Assessments, request)
			for _, fault := range found {
				assert.Equal(t, wire.FaultMissing, fault.Code, "%s: %s %s", m.id, fault.Pointer, fault.Message)
				assert.NotContains(t, fault.Pointer, "/aircraft", m.id)
				assert.NotContains(t, fault.Pointer, "/spray_system", m.id)
				assert.NotContains(t, fault.Pointer, "/flight", m.id)
			}
			assert.NotEmpty(t, found, "the job itself is left to fill in")
		}
	}
	_, err = f.Begin("nothing", "")
	assert.Error(t, err)
	_, err = f.Begin(emptyStart, "si")
	assert.NoError(t, err)
}
