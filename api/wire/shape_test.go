package wire

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/openapi"
)

// smallContract has one schema with every keyword a fault is made of; all endpoints share it.
const smallContract = `{"openapi": "3.1.1", "components": {"schemas": {
	"Speed": {"type": "object", "additionalProperties": false, "required": ["value", "unit"], "properties": {
		"value": {"type": "number", "format": "double"}, "unit": {"type": "string", "enum": ["mph", "m/s"]}}},
	"Request": {"type": "object", "additionalProperties": false, "required": ["speed"], "properties": {
		"speed": {"$ref": "#/components/schemas/Speed"},
		"count": {"type": "integer", "minimum": 1, "maximum": 50},
		"share": {"type": "number", "exclusiveMinimum": 0, "exclusiveMaximum": 1},
		"step": {"type": "number", "multipleOf": 0.5},
		"name": {"type": "string", "minLength": 2, "maxLength": 4},
		"state": {"type": "string", "pattern": "^[A-Z]{2}$"},
		"at": {"type": "string", "format": "date-time", "maxLength": 10},
		"day": {"type": "string", "format": "date", "maxLength": 5},
		"kind": {"type": "string", "enum": ["crop", "road"]},
		"only": {"type": "string", "const": "US"},
		"list": {"type": "array", "minItems": 1, "maxItems": 2, "uniqueItems": true, "items": {"type": "number"}},
		"flag": {"type": "boolean"},
		"bag": {"type": "object", "minProperties": 1, "maxProperties": 1},
		"pair": {"type": "object", "dependentRequired": {"low": ["high"]}},
		"twice": {"allOf": [{"$ref": "#/components/schemas/Speed"}, {"$ref": "#/components/schemas/Speed"}]},
		"never": false,
		"wind_from": {"type": "number"}}},
	"AssessmentRequest": {"$ref": "#/components/schemas/Request"},
	"TakeoffWeightRequest": {"$ref": "#/components/schemas/Request"},
	"RatePressureRequest": {"$ref": "#/components/schemas/Request"},
	"DriftRiskRequest": {"$ref": "#/components/schemas/Request"},
	"SortiePlanRequest": {"$ref": "#/components/schemas/Request"},
	"AuthorizationChecklistRequest": {"$ref": "#/components/schemas/Request"},
	"SprayHoursRequest": {"$ref": "#/components/schemas/Request"},
	"ComparisonRequest": {"$ref": "#/components/schemas/Request"}}}}`

func smallShapes(t testing.TB) *shapes {
	t.Helper()
	s, err := newShapes(strings.NewReader(smallContract))
	require.NoError(t, err)
	return s
}

func TestShapeFaults(t *testing.T) {
	t.Parallel()
	s := smallShapes(t)
	const speed = `"speed":{"value":1,"unit":"mph"}`
	tests := []struct {
		name, body string
		want       Fault // its message must hold this message
	}{
		{"missing", `{}`, Fault{"/speed", FaultMissing, nil, "an object with value (a number) and unit (one of mph, m/s)", "speed is missing. Add it: an object"}},
		{"missing in a quantity", `{"speed":{"unit":"mph"}}`, Fault{"/speed/value", FaultMissing, nil, "a number", "The value of speed is missing. Add it: a number."}},
		{"null", `{"speed":null}`, Fault{"/speed", FaultType, nil, "an object with value (a number) and unit (one of mph, m/s)", "speed is null, but it is needed. Send an object"}},
		{"null where it may be left out", `{` + speed + `,"flag":null}`, Fault{"/flag", FaultType, nil, "true or false", "leave the member out where you do not know it"}},
		{"null in a list", `{` + speed + `,"list":[null]}`, Fault{"/list/0", FaultType, nil, "a number", "Item 0 of list is null."}},
		{"text for a number", `{"speed":{"value":"1","unit":"mph"}}`, Fault{"/speed/value", FaultType, "1", "a number", "The value of speed is of type string. Send a number."}},
		{"wrong unit", `{"speed":{"value":1,"unit":"furlong/h"}}`, Fault{"/speed/unit", FaultUnit, "furlong/h", "one of mph, m/s", `"furlong/h", which is not in the list. Send one of mph, m/s.`}},
		{"unknown", `{` + speed + `,"zzzzzz":1}`, Fault{"/zzzzzz", FaultUnknown, nil, "at, bag, count, day, flag, kind, list, name, never, only, pair, share, speed, state, step, twice, wind_from", "Remove it, or use one of"}},
		{"letter case", `{` + speed + `,"Count":1}`, Fault{"/Count", FaultUnknown, nil, "at, bag, count, day, flag, kind, list, name, never, only, pair, share, speed, state, step, twice, wind_from", `Did you mean "count"?`}},
		{"misspelled", `{` + speed + `,"windForm":1}`, Fault{"/windForm", FaultUnknown, nil, "at, bag, count, day, flag, kind, list, name, never, only, pair, share, speed, state, step, twice, wind_from", `Did you mean "wind_from"?`}},
		{"never", `{` + speed + `,"never":1}`, Fault{"/never", FaultUnknown, nil, "", "Remove it."}},
		{"too small", `{` + speed + `,"count":0}`, Fault{"/count", FaultRange, 0.0, "a whole number at least 1 and at most 50", "count is 0. Send a whole number at least 1 and at most 50."}},
		{"too large", `{` + speed + `,"count":1e300}`, Fault{"/count", FaultRange, 1e300, "a whole number at least 1 and at most 50", "count is 1e+300."}},
		{"not whole", `{` + speed + `,"count":1.5}`, Fault{"/count", FaultType, 1.5, "a whole number at least 1 and at most 50", "count is not a whole number. Send a whole number"}},
		{"at an open bound", `{` + speed + `,"share":0}`, Fault{"/share", FaultRange, 0.0, "a number above 0 and below 1", "share is 0."}},
		{"at the other open bound", `{` + speed + `,"share":1}`, Fault{"/share", FaultRange, 1.0, "a number above 0 and below 1", "share is 1."}},
		{"between steps", `{` + speed + `,"step":0.7}`, Fault{"/step", FaultRange, 0.7, "a number", "step is 0.7."}},
		{"short text", `{` + speed + `,"name":"a"}`, Fault{"/name", FaultLength, 1, "at least 2 characters", "name has 1 character."}},
		{"long text", `{` + speed + `,"name":"abcde"}`, Fault{"/name", FaultLength, 5, "at most 4 characters", "name has 5 characters."}},
		{"pattern", `{` + speed + `,"state":"Texas"}`, Fault{"/state", FaultFormat, "Texas", "text that matches ^[A-Z]{2}$", `state is "Texas"`}},
		{"long time", `{` + speed + `,"at":"2026-06-03 half past seven"}`, Fault{"/at", FaultLength, 26, "at most 10 characters", "at has 26 characters."}},
		{"list of words", `{` + speed + `,"kind":"river"}`, Fault{"/kind", FaultEnum, "river", "one of crop, road", `kind is "river", which is not in the list. Send one of crop, road.`}},
		{"only word", `{` + speed + `,"only":"CA"}`, Fault{"/only", FaultEnum, "CA", "US", `only is "CA"`}},
		{"no items", `{` + speed + `,"list":[]}`, Fault{"/list", FaultLength, 0, "at least 1 item", "list has 0 items."}},
		{"many items", `{` + speed + `,"list":[1,2,3]}`, Fault{"/list", FaultLength, 3, "at most 2 items", "list has 3 items."}},
		{"same items", `{` + speed + `,"list":[1,1]}`, Fault{"/list", FaultLength, nil, "each item once", "the same item at"}},
		{"item", `{` + speed + `,"list":[1,"2"]}`, Fault{"/list/1", FaultType, "2", "a number", "Item 1 of list is of type string."}},
		{"flag", `{` + speed + `,"flag":"yes"}`, Fault{"/flag", FaultType, "yes", "true or false", "Send true or false."}},
		{"no members", `{` + speed + `,"bag":{}}`, Fault{"/bag", FaultLength, 0, "at least 1 member", "bag has 0 members."}},
		{"many members", `{` + speed + `,"bag":{"a":1,"b":2}}`, Fault{"/bag", FaultLength, 2, "at most 1 member", "bag has 2 members."}},
		{"needs its other half", `{` + speed + `,"pair":{"low":1}}`, Fault{"/pair/high", FaultMissing, nil, "", "high is missing. Add it."}},
		{"no object", `[]`, Fault{"", FaultType, nil, "an object with speed", "The body is of type array. Send an object with speed."}},
	}
	for _, tc := range tests {
		t.Run(tc.name, func(t *testing.T) {
			t.Parallel()
			read := readText([]byte(tc.body))
			require.Empty(t, read.faults)
			for _, endpoint := range endpoints {
				faults := inOrder(placed([]byte(tc.body), s.check(endpoint, read.value)))
				require.Len(t, faults, 1)
				assert.Contains(t, faults[0].Message, tc.want.Message)
				faults[0].Message = tc.want.Message
				assert.Equal(t, tc.want, faults[0])
			}
		})
	}
}

// The schema library reports what these keywords find at the wrong place, or once for each branch.
func TestTheContractLeavesOutWhatMakesUnreadableFaults(t *testing.T) {
	t.Parallel()
	for _, keyword := range []string{"propertyNames", "oneOf", "anyOf", "not"} {
		assert.NotContains(t, openapi.JSON, `"`+keyword+`":`)
	}
}

func TestShapeReportsOneFaultOnce(t *testing.T) {
	t.Parallel()
	body := []byte(`{"speed":{"value":1,"unit":"mph"},"twice":{"value":"x"}}`)
	faults := smallShapes(t).check(Assessments, readText(body).value)
	require.Len(t, faults, 4, "each branch of allOf complains")
	assert.Len(t, inOrder(placed(body, faults)), 2)
}

// A number written with a ten-digit exponent must not reach the schema library in that form.
func TestTrap2HugeExponentDoesNotCrashTheSchema(t *testing.T) {
	t.Parallel()
	s := smallShapes(t)
	for _, body := range []string{
		`{"speed":{"value":1e10000000,"unit":"mph"}}`, `{"speed":{"value":1e1000000000,"unit":"mph"},"count":1e400}`,
	} {
		read := readText([]byte(body))
		require.NotEmpty(t, read.faults)
		assert.NotPanics(t, func() { s.check(Assessments, read.value) })
	}
}

func TestShapesOfABadContract(t *testing.T) {
	t.Parallel()
	for _, contract := range []string{`{`, `{}`, `{"components":{"schemas":{"AssessmentRequest":{"type":"strng"}}}}`} {
		_, err := newShapes(strings.NewReader(contract))
		assert.Error(t, err, contract)
	}
}

func TestNearestName(t *testing.T) {
	t.Parallel()
	known := []string{"empty_weight", "tank_capacity", "at", "max_takeoff_weight"}
	for sent, want := range map[string]string{
		"emptyWeight": "empty_weight", "Empty_Weight": "empty_weight", "tank-capacity": "tank_capacity",
		"tank_capasity": "tank_capacity", "max_take_off_weight": "max_takeoff_weight", "At": "at",
		"wind": "", "x": "", "": "", strings.Repeat("a", 1000): "",
	} {
		assert.Equal(t, want, Nearest(sent, known), sent)
	}
}
