package wire

import (
	"encoding/json"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// jsonName is the name of a field on the wire.
func jsonName(f reflect.StructField) string {
	name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
	return name
}

// rule finds the parameter of a rule in a validation tag.
func rule(f reflect.StructField, name string) (string, bool) {
	for r := range strings.SplitSeq(f.Tag.Get("validate"), ",") {
		if r == "dive" {
			return "", false
		}
		key, parameter, _ := strings.Cut(r, "=")
		if key == name {
			return parameter, true
		}
	}
	return "", false
}

// sameShape holds a Go type against a schema: names, kinds, code lists and bounds.
func sameShape(t *testing.T, schemas map[string]schemaNode, place string, goType reflect.Type, n schemaNode) {
	t.Helper()
	quantity := strings.TrimPrefix(n.Ref, schemaPrefix)
	n = follow(t, schemas, n)
	for goType.Kind() == reflect.Pointer {
		goType = goType.Elem()
	}
	switch {
	case goType == reflect.TypeFor[Quantity]():
		_, bare := n.Properties["unit"]
		assert.True(t, bare, "%s: %s is no quantity", place, quantity)
	case goType.Kind() == reflect.Interface: // a quantity or a plain value
		assert.Nil(t, n.Type, "%s has no one type", place)
		assert.Contains(t, n.Description, "A quantity", place)
	case goType == reflect.TypeFor[json.RawMessage]():
		assert.Equal(t, "array", n.Type, place)
	case goType.Kind() == reflect.Struct:
		sameMembers(t, schemas, place, goType, n)
	case goType.Kind() == reflect.Slice:
		assert.Equal(t, "array", n.Type, place)
		require.NotNil(t, n.Items, place)
		sameShape(t, schemas, place+"/*", goType.Elem(), *n.Items)
	default:
		kinds := map[reflect.Kind]string{
			reflect.String: "string", reflect.Bool: "boolean", reflect.Int: "integer", reflect.Float64: "number",
		}
		assert.Equal(t, kinds[goType.Kind()], n.Type, place)
	}
}

func sameMembers(t *testing.T, schemas map[string]schemaNode, place string, goType reflect.Type, n schemaNode) {
	t.Helper()
	assert.Equal(t, "object", n.Type, place)
	for i := range goType.NumField() {
		f := goType.Field(i)
		at := place + "/" + jsonName(f)
		property, ok := n.Properties[jsonName(f)]
		if !assert.True(t, ok, "%s is not in the contract", at) {
			continue
		}
		sameShape(t, schemas, at, f.Type, property)
		sameRules(t, at, f, follow(t, schemas, property))
		if _, required := rule(f, "required"); required {
			assert.Contains(t, n.Required, jsonName(f), at)
		}
	}
	assert.Len(t, n.Properties, goType.NumField(), "%s: the contract has other members", place)
}

func sameRules(t *testing.T, at string, f reflect.StructField, n schemaNode) {
	t.Helper()
	if list, ok := rule(f, "oneof"); ok {
		assert.Equal(t, n.Enum, strings.Fields(list), at)
	} else if f.Tag.Get("validate") != "" {
		assert.Empty(t, n.Enum, at)
	}
	for name, bound := range map[string]any{"min": firstBound(n.Minimum, n.MinLength), "max": firstBound(n.Maximum, n.MaxLength, n.MaxItems)} {
		if parameter, ok := rule(f, name); ok && bound != nil {
			var want any
			require.NoError(t, json.Unmarshal([]byte(parameter), &want), at)
			assert.InDelta(t, want, bound, 0, "%s %s", at, name)
		}
	}
}

// firstBound is the bound that is there, as a number.
func firstBound(bounds ...any) any {
	for _, b := range bounds {
		switch b := b.(type) {
		case *float64:
			if b != nil {
				return *b
			}
		case *int:
			if b != nil {
				return float64(*b)
			}
		}
	}
	return nil
}

func TestRequestsHaveTheShapeOfTheContract(t *testing.T) {
	t.Parallel()
	schemas := contractSchemas(t)
	for _, endpoint := range allEndpoints {
		sameShape(t, schemas, string(endpoint), reflect.TypeFor[Request](), schemaNode{Ref: schemaPrefix + endpoint.SchemaName()})
	}
}

// The whole answer has every member; the answers to parts have some of them.
func TestAnswersHaveTheShapeOfTheContract(t *testing.T) {
	t.Parallel()
	schemas := contractSchemas(t)
	sameShape(t, schemas, "answer", reflect.TypeFor[Answer](), schemaNode{Ref: schemaPrefix + "Assessment"})
	sameShape(t, schemas, "map", reflect.TypeFor[FeatureCollection](), schemaNode{Ref: schemaPrefix + "AnswerMap"})
	for _, name := range answerSchemas {
		for member, node := range schemas[name].Properties {
			assert.Equal(t, schemas["Assessment"].Properties[member], node, "%s: %s differs from the whole answer", name, member)
		}
	}
}

var answerSchemas = map[Endpoint]string{
	Assessments: "Assessment", TakeoffWeights: "TakeoffWeightAnswer", RatePressures: "RatePressureAnswer",
	DriftRisks: "DriftRiskAnswer", SortiePlans: "SortiePlanAnswer",
	AuthorizationChecklists: "AuthorizationChecklistAnswer",
}
