package wire

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestFaultsNameTheRangeOfTheMember holds every fault of pass 2 about a quantity to the range of its
// member: the schema of a quantity is shared and knows only the dimension.
func TestFaultsNameTheRangeOfTheMember(t *testing.T) {
	t.Parallel()
	r := newReader(t)
	rows := []any{map[string]any{"kind": "crop", "bearing": map[string]any{"value": 90.0, "unit": "deg"}}}
	tests := []struct {
		name    string
		change  func(body map[string]any)
		pointer string
		value   any
		allowed string
	}{
		{"missing", func(b map[string]any) { delete(part(b, "flight"), "speed") }, "/flight/speed", nil,
			"an object with value (0.5 to 150 mph) and unit (one of mph, m/s, km/h, kn)"},
		{"missing value", func(b map[string]any) { delete(part(b, "flight", "speed"), "value") }, "/flight/speed/value", nil,
			"a number from 0.5 to 150 mph"},
		{"null value", func(b map[string]any) { part(b, "flight", "speed")["value"] = nil }, "/flight/speed/value", nil,
			"a number from 0.5 to 150 mph"},
		{"text in another unit", func(b map[string]any) {
			part(b, "flight")["speed"] = map[string]any{"value": "ten", "unit": "m/s"}
		}, "/flight/speed/value", "ten", "a number from 0.22352 to 67.056 m/s"},
		{"bare number", func(b map[string]any) { part(b, "flight")["speed"] = 10.0 }, "/flight/speed", 10.0,
			"an object with value (0.5 to 150 mph) and unit (one of mph, m/s, km/h, kn)"},
		{"beyond the schema, unit unknown", func(b map[string]any) {
			part(b, "flight")["speed"] = map[string]any{"value": 1e30, "unit": "furlong"}
		}, "/flight/speed/value", 1e30, "a number from 0.5 to 150 mph"},
		{"in a list", func(b map[string]any) { part(b, "field")["neighbors"] = rows }, "/field/neighbors/0/distance", nil,
			"an object with value (0 to 164041 ft) and unit (one of ft, m, in, cm, mi, km, um)"},
	}
	for _, tc := range tests {
		t.Run(tc.name, func(t *testing.T) {
			t.Parallel()
			_, _, _, faults := r.Read(Assessments, edited(t, tc.change))
			var found Fault
			for _, f := range faults {
				if f.Pointer == tc.pointer {
					found = f
				}
			}
			assert.Equal(t, tc.allowed, found.Allowed)
			assert.Equal(t, tc.value, found.Value)
			assert.Contains(t, found.Message, tc.allowed)
		})
	}
}

func TestFaultsRepeatOnlyScalars(t *testing.T) {
	t.Parallel()
	for _, value := range []any{map[string]any{"a": 1.0}, []any{1.0}, nil} {
		assert.Nil(t, scalar(value))
	}
	assert.Equal(t, false, scalar(false))
	assert.Len(t, scalar(strings.Repeat("x", 1000)), clipped+len("..."))
	assert.Nil(t, sentAt(3.0, []string{"deeper"}))
	assert.Nil(t, sentAt([]any{1.0}, []string{"7"}))
}

func TestANullBodyIsNotLeftOut(t *testing.T) {
	t.Parallel()
	_, _, _, faults := newReader(t).Read(Assessments, []byte("null"))
	require.Len(t, faults, 1)
	assert.Contains(t, faults[0].Message, "The body is null, but it is needed.")
}

func TestAMissingPartWithoutNeededMembersNamesWhatItHolds(t *testing.T) {
	t.Parallel()
	body := edited(t, func(b map[string]any) { delete(b, "field") })
	_, _, _, faults := newReader(t).Read(Assessments, body)
	require.Len(t, faults, 1)
	assert.Contains(t, faults[0].Message, "an object with any of area, boundary,")
}

// TestManyUnknownNamesAreBounded keeps the work a body of nothing but made-up names can cause small:
// no more faults are worded than anyone could mend.
func TestManyUnknownNamesAreBounded(t *testing.T) {
	t.Parallel()
	var body strings.Builder
	body.WriteString(`{"a":1`)
	for i := range 40_000 {
		body.WriteString(`,"made_up_` + strconv.Itoa(i) + `":1`)
	}
	body.WriteString("}")
	r := newReader(t)
	read := readText([]byte(body.String()))
	require.True(t, read.whole)
	first := r.shapes.check(Assessments, read.value)
	assert.LessOrEqual(t, len(first), noted+20, "and the members that are missing")
	assert.ElementsMatch(t, first, r.shapes.check(Assessments, read.value), "the same ones every time")
	_, _, _, faults := r.Read(Assessments, []byte(body.String()))
	assert.Len(t, faults, MaxFaults)
}

func TestLongNamesAreNotRepeatedInPointers(t *testing.T) {
	t.Parallel()
	r := newReader(t)
	long := strings.Repeat("x/~", 1000)
	for name, body := range map[string]string{
		"unknown":        `{"` + long + `":1}`,
		"unknown deeper": `{"flight":{"` + long + `":1}}`,
		"twice":          `{"flight":{"` + long + `":1,"` + long + `":2}}`,
		"broken":         `{"` + long + `":nope}`,
		"huge number":    `{"` + long + `":1e999}`,
	} {
		_, _, _, faults := r.Read(Assessments, []byte(body))
		require.NotEmpty(t, faults, name)
		for _, f := range faults {
			assert.LessOrEqual(t, len(f.Pointer), longestPointer, name)
			assert.Less(t, len(f.Message)+len(f.Allowed), 1500, name)
		}
	}
	assert.Equal(t, "/flight", shortened("/flight/"+strings.Repeat("y", 300)))
	assert.Empty(t, shortened("/"+strings.Repeat("y", 300)))
}
