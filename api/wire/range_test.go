package wire

import (
	"math"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// under lists the faults of a member or of its value or unit.
func under(faults []Fault, pointer string, codes ...FaultCode) []Fault {
	var out []Fault
	for _, f := range faults {
		if f.Pointer != pointer && f.Pointer != pointer+"/value" && f.Pointer != pointer+"/unit" {
			continue
		}
		for _, code := range codes {
			if f.Code == code {
				out = append(out, f)
			}
		}
	}
	return out
}

// sendQuantity reads a mission with one quantity in it and reports what was found wrong with it.
func sendQuantity(t *testing.T, pointer string, value float64, code string) []Fault {
	t.Helper()
	request := decoded(t, withQuantity(t, pointer, code))
	request.quantityAt(pointer).Value = &value
	_, faults := request.Mission(Assessments)
	return under(faults, pointer, FaultRange, FaultUnit)
}

// withQuantity is the levee mission with a quantity of 1 at a pointer.
func withQuantity(t *testing.T, pointer, code string) map[string]any {
	t.Helper()
	body := sampleBody(t)
	put(body, pointer, of(1, code))
	return body
}

func TestRangesAtBothEdgesInEveryUnit(t *testing.T) {
	t.Parallel()
	for _, l := range limits {
		pointer := strings.Replace(l.path, "*", "0", 1)
		d, ok := dimensionOf(l.low.Dimension())
		require.True(t, ok)
		for _, u := range d.units {
			t.Run(l.path+" in "+u.code, func(t *testing.T) {
				t.Parallel()
				low, high := u.from(l.low.SI()), u.from(l.high.SI())
				span := high - low
				require.Positive(t, span)
				for _, inside := range []float64{low, high, low + span/3} {
					assert.Empty(t, sendQuantity(t, pointer, inside, u.code), "%g %s", inside, u.code)
				}
				for _, outside := range []float64{
					low - 1e-6*span, high + 1e-6*span, 1e300, -1e300, 1e-300, math.NaN(), math.Inf(1), math.Inf(-1),
				} {
					found := sendQuantity(t, pointer, outside, u.code)
					require.Len(t, found, 1, "%g %s", outside, u.code)
					assert.Equal(t, FaultRange, found[0].Code)
					assert.Equal(t, pointer+"/value", found[0].Pointer)
					assert.Contains(t, found[0].Message, "Send "+found[0].Allowed)
					assert.True(t, strings.HasSuffix(found[0].Allowed, " "+u.code), found[0].Allowed)
				}
			})
		}
	}
}

// What a fault calls allowed is allowed, word for word.
func TestAllowedTextMayBeSent(t *testing.T) {
	t.Parallel()
	for _, l := range limits {
		d, _ := dimensionOf(l.low.Dimension())
		for _, u := range d.units {
			words := strings.Fields(l.allowed(u))
			require.Len(t, words, 4)
			for _, word := range []string{words[0], words[2]} {
				value, err := strconv.ParseFloat(word, 64)
				require.NoError(t, err, word)
				assert.True(t, l.admits(value, u), "%s: %s %s", l.path, word, u.code)
			}
		}
	}
}

func TestRangesAreInOrder(t *testing.T) {
	t.Parallel()
	seen := map[string]bool{}
	for _, l := range limits {
		assert.False(t, seen[l.path], "%s twice", l.path)
		seen[l.path] = true
		assert.Equal(t, l.low.Dimension(), l.high.Dimension(), l.path)
		assert.Less(t, l.low.SI(), l.high.SI(), l.path)
	}
}

// quantitiesOf lists the paths of all quantities of a type.
func quantitiesOf(goType reflect.Type, path string) []string {
	for goType.Kind() == reflect.Pointer {
		goType = goType.Elem()
	}
	switch {
	case goType == reflect.TypeFor[Quantity]():
		return []string{path}
	case goType.Kind() == reflect.Struct:
		var out []string
		for i := range goType.NumField() {
			out = append(out, quantitiesOf(goType.Field(i).Type, path+"/"+jsonName(goType.Field(i)))...)
		}
		return out
	case goType.Kind() == reflect.Slice && goType.Elem().Kind() == reflect.Struct:
		return quantitiesOf(goType.Elem(), path+"/*")
	default:
		return nil
	}
}

func TestEveryQuantityHasARangeAndIsRead(t *testing.T) {
	t.Parallel()
	paths := quantitiesOf(reflect.TypeFor[Request](), "")
	var limited []string
	for _, l := range limits {
		limited = append(limited, l.path)
	}
	assert.ElementsMatch(t, paths, limited)
	for _, l := range limits {
		pointer := strings.Replace(l.path, "*", "0", 1)
		d, _ := dimensionOf(l.low.Dimension())
		found := sendQuantity(t, pointer, 1, "cubit")
		require.Len(t, found, 1, pointer)
		assert.Equal(t, FaultUnit, found[0].Code)
		assert.Equal(t, strings.Join(d.codes(), ", "), found[0].Allowed, "%s is read as another dimension", pointer)
		assert.Equal(t, "cubit", found[0].Value)
	}
}

func TestUnitsOfOtherDimensionsAreRefused(t *testing.T) {
	t.Parallel()
	for _, tc := range []struct{ pointer, code string }{
		{"/aircraft/empty_weight", "gal"}, {"/load/fill", "lb"}, {"/flight/speed", "ft"},
		{"/weather/temperature", "delta_degF"}, {"/weather/temperature", "K"}, {"/load/fill", "GAL"},
		{"/load/fill", " gal"}, {"/crew/costs/ground_quote", "USD"}, {"/flight/course", "%"},
	} {
		found := sendQuantity(t, tc.pointer, 10, tc.code)
		require.Len(t, found, 1, tc)
		assert.Equal(t, FaultUnit, found[0].Code)
	}
}

func TestAQuantityNeedsValueAndUnit(t *testing.T) {
	t.Parallel()
	_, faults := readEdited(t, Assessments,
		edit{"/flight/speed", map[string]any{"unit": "mph"}},
		edit{"/flight/height", map[string]any{"value": 8}},
		edit{"/flight/swath", map[string]any{}},
	)
	assert.Equal(t, []string{
		"/flight/height/unit missing_member", "/flight/speed/value missing_member",
		"/flight/swath/unit missing_member", "/flight/swath/value missing_member",
	}, brief(faults))
}
