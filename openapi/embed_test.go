package openapi

import (
	"context"
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"github.com/getkin/kin-openapi/openapi3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"
)

func TestDocumentIsValidOpenAPI(t *testing.T) {
	t.Parallel()
	for name, text := range map[string]string{"yaml": YAML, "json": JSON} {
		document, err := openapi3.NewLoader().LoadFromData([]byte(text))
		require.NoError(t, err, name)
		require.NoError(t, document.Validate(context.Background()), name)
		assert.True(t, strings.HasPrefix(document.OpenAPI, "3.1"), name)
	}
}

func TestJSONSaysTheSameAsYAML(t *testing.T) {
	t.Parallel()
	var fromYAML, fromJSON any
	require.NoError(t, yaml.Unmarshal([]byte(YAML), &fromYAML))
	again, err := json.Marshal(fromYAML)
	require.NoError(t, err)
	assert.JSONEq(t, string(again), JSON)
	require.NoError(t, json.Unmarshal([]byte(JSON), &fromJSON))
	assert.True(t, strings.HasPrefix(JSON, "{\n\"openapi\":\"3.1"), "members keep the order of the document")
}

// schemasBelow walks every schema object below a node, with its place.
func schemasBelow(place string, node any, visit func(place string, schema map[string]any)) {
	switch n := node.(type) {
	case map[string]any:
		_, hasType := n["type"]
		_, hasEnum := n["enum"]
		_, hasItems := n["items"]
		if hasType || hasEnum || hasItems {
			visit(place, n)
		}
		for name, child := range n {
			if name != "example" && name != "examples" {
				schemasBelow(place+"/"+name, child, visit)
			}
		}
	case []any:
		for _, child := range n {
			schemasBelow(place+"/-", child, visit)
		}
	}
}

func componentSchemas(t *testing.T) map[string]any {
	t.Helper()
	var document struct {
		Components struct {
			Schemas map[string]any `json:"schemas"`
		} `json:"components"`
	}
	require.NoError(t, json.Unmarshal([]byte(JSON), &document))
	require.NotEmpty(t, document.Components.Schemas)
	return document.Components.Schemas
}

func typesOf(schema map[string]any) []string {
	switch kind := schema["type"].(type) {
	case string:
		return []string{kind}
	case []any:
		var kinds []string
		for _, k := range kind {
			kinds = append(kinds, k.(string))
		}
		return kinds
	default:
		return nil
	}
}

// The habits of the contract that make it easy to use: closed objects, doubles, types beside enums.
func TestSchemasKeepTheHabits(t *testing.T) {
	t.Parallel()
	for name, schema := range componentSchemas(t) {
		schemasBelow(name, schema, func(place string, s map[string]any) {
			kinds := typesOf(s)
			if strings.HasSuffix(place, "/properties") {
				return // a member named type, not a schema
			}
			for _, k := range kinds {
				switch k {
				case "object":
					// A merge patch may hold null, which no member of a part may, so it is held to its part once merged.
					assert.Equal(t, place == "MergePatch", s["additionalProperties"], "%s: object is open", place)
				case "number":
					assert.Equal(t, "double", s["format"], "%s: number without format double", place)
				case "array":
					assert.Contains(t, s, "items", "%s: array without items", place)
				}
			}
			if _, has := s["enum"]; has {
				assert.NotEmpty(t, kinds, "%s: enum without type", place)
			}
			for _, word := range []string{"allOf", "oneOf", "anyOf", "$defs", "nullable", "if"} {
				assert.NotContains(t, s, word, place)
			}
		})
	}
}

// Everything a caller can send has a bound.
func TestRequestsAreBounded(t *testing.T) {
	t.Parallel()
	schemas := componentSchemas(t)
	seen := map[string]bool{}
	var walk func(name string)
	walk = func(name string) {
		if seen[name] {
			return
		}
		seen[name] = true
		text, err := json.Marshal(schemas[name])
		require.NoError(t, err)
		schemasBelow(name, schemas[name], func(place string, s map[string]any) {
			if strings.HasSuffix(place, "/properties") {
				return
			}
			for _, k := range typesOf(s) {
				switch k {
				case "string":
					if s["enum"] == nil {
						assert.Contains(t, s, "maxLength", place)
					}
				case "array":
					assert.Contains(t, s, "maxItems", place)
				case "number", "integer":
					assert.Contains(t, s, "minimum", place)
					assert.Contains(t, s, "maximum", place)
				}
			}
		})
		for other := range schemas {
			if strings.Contains(string(text), `"#/components/schemas/`+other+`"`) {
				walk(other)
			}
		}
	}
	for name := range schemas {
		if strings.HasSuffix(name, "Request") {
			walk(name)
		}
	}
	assert.Greater(t, len(seen), 40)
}

// A member listed in required stands in properties.
func TestRequiredMembersExist(t *testing.T) {
	t.Parallel()
	for name, schema := range componentSchemas(t) {
		schemasBelow(name, schema, func(place string, s map[string]any) {
			properties, _ := s["properties"].(map[string]any)
			required, _ := s["required"].([]any)
			for _, member := range required {
				assert.Contains(t, properties, member, place)
			}
		})
	}
}

// Every operation can be found, told apart and tried.
func TestOperationsAreComplete(t *testing.T) {
	t.Parallel()
	document, err := openapi3.NewLoader().LoadFromData([]byte(YAML))
	require.NoError(t, err)
	ids := map[string]bool{}
	for path, item := range document.Paths.Map() {
		for method, operation := range item.Operations() {
			place := method + " " + path
			assert.NotEmpty(t, operation.OperationID, place)
			assert.False(t, ids[operation.OperationID], "%s: operationId twice", place)
			ids[operation.OperationID] = true
			assert.NotEmpty(t, operation.Summary, place)
			assert.NotEmpty(t, operation.Description, place)
			assert.NotEmpty(t, operation.Tags, place)
			require.NotNil(t, operation.Security, place)
			for _, status := range []string{"404", "405", "406", "429", "500", "503"} {
				assert.NotNil(t, operation.Responses.Value(status), "%s: no %s", place, status)
			}
			if method != "POST" {
				continue
			}
			form, statuses := "application/json", []string{"200", "400", "408", "413", "415", "422"}
			if operation.RequestBody.Value.Content[form] == nil { // a stream, whose lines have their own problems
				form, statuses = "application/x-ndjson", []string{"200", "400", "408", "415"}
			}
			for _, status := range statuses {
				assert.NotNil(t, operation.Responses.Value(status), "%s: no %s", place, status)
			}
			if slices.Contains(operation.Tags, "pages") {
				continue // what a page posts is made by the page
			}
			media := operation.RequestBody.Value.Content[form]
			require.NotNil(t, media, place)
			assert.NotEmpty(t, media.Examples, "%s: no request example", place)
		}
	}
}
