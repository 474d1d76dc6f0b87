package wire

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// places lists pointer and code of each fault, in order.
func places(faults []located) []string {
	out := []string{}
	for _, f := range faults {
		out = append(out, f.Pointer+" "+string(f.Code))
	}
	return out
}

func TestTextFaults(t *testing.T) {
	t.Parallel()
	tests := []struct {
		name  string
		body  string
		want  []string
		whole bool
	}{
		{"one object", `{"a": [1, true, null, "x", {}]}`, []string{}, true},
		{"white space around", " \n{}\r\n\t", []string{}, true},
		{"empty", "", []string{" empty_body"}, false},
		{"white space only", " \n\t", []string{" empty_body"}, false},
		{"duplicate at two depths", `{"a":1,"b":{"c":1,"c":2},"a":3}`, []string{"/b/c duplicate_member", "/a duplicate_member"}, true},
		{"duplicate through an escape", `{"a":1,"\u0061":2}`, []string{"/a duplicate_member"}, true},
		{"three of one name", `{"a":1,"a":2,"a":3}`, []string{"/a duplicate_member", "/a duplicate_member"}, true},
		{"same name in two objects", `{"a":{"v":1},"b":{"v":1}}`, []string{}, true},
		{"letter case is no duplicate", `{"a":1,"A":2}`, []string{}, true},
		{"1e400", `{"a":[0,1e400]}`, []string{"/a/1 number_not_finite"}, true},
		{"-1e400", `{"a":-1e400}`, []string{"/a number_not_finite"}, true},
		{"1e10000000", `{"a":1e10000000}`, []string{"/a number_not_finite"}, true},
		{"1e400 alone", `1e400`, []string{" number_not_finite"}, true},
		{"largest float64", `{"a":1.7976931348623157e308}`, []string{}, true},
		{"too small is zero", `{"a":1e-400}`, []string{}, true},
		{"several numbers", `{"a":1e999,"b":[1e999]}`, []string{"/a number_not_finite", "/b/0 number_not_finite"}, true},
		{"NaN", `{"a":NaN}`, []string{"/a syntax"}, false},
		{"Infinity", `{"a":Infinity}`, []string{"/a syntax"}, false},
		{"leading zero", `{"a":01}`, []string{" syntax"}, false},
		{"plus sign", `{"a":+1}`, []string{"/a syntax"}, false},
		{"comment", `{"a":1 /* no */}`, []string{" syntax"}, false},
		{"single quotes", `{'a':1}`, []string{" syntax"}, false},
		{"trailing comma", `{"a":1,}`, []string{" syntax"}, false},
		{"cut short", `{"a":{"b":1`, []string{"/a syntax"}, false},
		{"cut in a list", `{"a":[1,`, []string{"/a syntax"}, false},
		{"cut in a name", `{"a`, []string{" syntax"}, false},
		{"wrong bracket", `{"a":[1}`, []string{"/a syntax"}, false},
		{"faults before broken syntax stay", `{"a":1e400,"a":2,"b":}`, []string{"/a number_not_finite", "/a duplicate_member", "/b syntax"}, false},
		{"second value", `{}{}`, []string{" trailing_data"}, true},
		{"garbage behind", `{"a":1} x`, []string{" trailing_data"}, true},
		{"bad bytes behind", "{} \xff", []string{" trailing_data"}, true},
		{"byte order mark", "\xEF\xBB\xBF{\"a\":1e400}", []string{" syntax", "/a number_not_finite"}, true},
		{"bad UTF-8", "{\"a\":\"\xff\"}", []string{"/a syntax"}, false},
		{"bad UTF-8 in a name", "{\"\xc3\x28\":1}", []string{" syntax"}, false},
		{"lone surrogate", `{"a":"\ud800"}`, []string{"/a syntax"}, false},
		{"control sign", "{\"a\":\"\x01\"}", []string{"/a syntax"}, false},
		{"UTF-16", "\xff\xfe{\x00}\x00", []string{" syntax"}, false},
		{"escaped pointer", `{"a/b~c":1e400}`, []string{"/a~1b~0c number_not_finite"}, true},
		{"depth 16", strings.Repeat("[", 16) + strings.Repeat("]", 16), []string{}, true},
		{"depth 17", strings.Repeat("[", 17) + strings.Repeat("]", 17), []string{strings.Repeat("/0", 16) + " syntax"}, false},
	}
	for _, tc := range tests {
		t.Run(tc.name, func(t *testing.T) {
			t.Parallel()
			read := readText([]byte(tc.body))
			assert.Equal(t, tc.want, places(read.faults))
			assert.Equal(t, tc.whole, read.whole)
			for _, f := range read.faults {
				assert.NotEmpty(t, f.Message)
				assert.NotContains(t, f.Message, "jsontext", "the name of a library is no help to a caller")
				assert.LessOrEqual(t, len(f.Message), 400)
				assert.True(t, f.Text())
			}
		})
	}
}

func TestTextReadsTheValue(t *testing.T) {
	t.Parallel()
	read := readText([]byte(`{"n":1.50,"s":"\u00e9","b":true,"z":null,"l":[],"o":{},"d":1,"d":2}`))
	require.True(t, read.whole)
	assert.Equal(t, map[string]any{
		"n": 1.5, "s": "é", "b": true, "z": nil, "l": []any{}, "o": map[string]any{}, "d": 2.0,
	}, read.value)
}

func TestTextIsBounded(t *testing.T) {
	t.Parallel()
	read := readText([]byte("[" + strings.Repeat("0,", maxValues) + "0]"))
	assert.False(t, read.whole)
	require.Len(t, read.faults, 1)
	assert.Equal(t, FaultLength, read.faults[0].Code)

	read = readText([]byte(`{"a":0` + strings.Repeat(`,"a":0`, 5*noted) + `}`))
	assert.True(t, read.whole)
	assert.Len(t, read.faults, noted, "a body full of slips must not make a list as long as itself")
}

func TestTextNamesThePlace(t *testing.T) {
	t.Parallel()
	read := readText([]byte("{\n  \"name\": \"é\",\n  \"b\": é}"))
	require.Len(t, read.faults, 1)
	assert.Contains(t, read.faults[0].Message, "line 3, column 8")
}

func TestTextFaultsNeverRepeatTheBody(t *testing.T) {
	t.Parallel()
	long := strings.Repeat("x", 5000)
	for _, body := range []string{
		`{} ` + long, `{"a":1` + strings.Repeat("0", 5000) + `}`, `{"` + long + `":1,"` + long + `":2}`, long,
	} {
		for _, f := range readText([]byte(body)).faults {
			assert.Less(t, len(f.Message)+len(fmt.Sprint(f.Value)), 500)
		}
	}
}

func FuzzReadText(f *testing.F) {
	for _, seed := range []string{`{}`, `{"a":[1e400,{"a":1,"a":2}]}`, "\xEF\xBB\xBF{}", `{"a":"\ud800"}`, `[[[[`, `{} x`} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, body []byte) {
		read := readText(body)
		if !read.whole {
			require.NotEmpty(t, read.faults, "an unread body must say why")
		}
		if len(read.faults) == 0 {
			require.NotEmpty(t, Digest(Assessments, "test", body), "a body without faults has a canonical form")
		}
	})
}
