package wire

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"sync"

	"github.com/go-json-experiment/json/jsontext"
	"github.com/santhosh-tekuri/jsonschema/v6"
)

// contractURL names the contract inside the compiler of schemas; nothing is ever fetched from it.
const contractURL = "https://tractcheck.example/openapi.json"

// endpoints are all kinds of request body, in the order of the contract.
var endpoints = []Endpoint{
	Assessments, TakeoffWeights, RatePressures, DriftRisks, SortiePlans, AuthorizationChecklists, SprayHours, Comparisons,
}

// shapes holds the request schemas of the contract, compiled once, and the contract itself, to say
// in a fault what it asks for.
type shapes struct {
	contract any
	compiled func() (map[Endpoint]*jsonschema.Schema, error)
}

// newShapes reads a contract in JSON and compiles its request schemas.
func newShapes(contract io.Reader) (*shapes, error) {
	s, err := readShapes(contract)
	if err != nil {
		return nil, err
	}
	_, err = s.compiled()
	return s, err
}

// readShapes reads a contract in JSON, whose request schemas are compiled when first asked for: only
// faults ask, so a start need not wait for it.
func readShapes(contract io.Reader) (*shapes, error) {
	document, err := jsonschema.UnmarshalJSON(contract)
	if err != nil {
		return nil, fmt.Errorf("the contract is not JSON: %w", err)
	}
	s := &shapes{contract: document}
	s.compiled = sync.OnceValues(s.compile)
	return s, nil
}

// compile compiles the request schemas.
func (s *shapes) compile() (map[Endpoint]*jsonschema.Schema, error) {
	compiler := jsonschema.NewCompiler()
	compiler.DefaultDraft(jsonschema.Draft2020)
	if err := compiler.AddResource(contractURL, s.contract); err != nil {
		return nil, fmt.Errorf("the contract cannot be loaded: %w", err)
	}
	compiled := map[Endpoint]*jsonschema.Schema{}
	for _, endpoint := range endpoints {
		schema, err := compiler.Compile(contractURL + "#/components/schemas/" + endpoint.SchemaName())
		if err != nil {
			return nil, fmt.Errorf("the schema of %s does not compile: %w", endpoint, err)
		}
		compiled[endpoint] = schema
	}
	return compiled, nil
}

// check is pass 2: it holds a value to the schema of its endpoint and reports every fault (about a
// thousand of a body that is faulty throughout), in no particular order. Numbers of the value must be
// float64: the schema library cannot be trusted with the written form of a huge number. It panics on
// a contract that does not compile, which the tests of this package rule out for the embedded one.
func (s *shapes) check(endpoint Endpoint, value any) []Fault {
	schemas, err := s.compiled()
	if err != nil {
		panic("wire: embedded contract: " + err.Error())
	}
	err = schemas[endpoint].Validate(value)
	var invalid *jsonschema.ValidationError
	if !errors.As(err, &invalid) {
		return nil
	}
	var faults []Fault
	for _, leaf := range first(leaves(invalid, nil)) {
		faults = append(faults, s.faults(endpoint, value, leaf)...)
	}
	return faults
}

// first cuts a list of errors that is longer than anyone could mend; the same ones stay every time.
func first(found []*jsonschema.ValidationError) []*jsonschema.ValidationError {
	if len(found) <= noted {
		return found
	}
	slices.SortStableFunc(found, func(a, b *jsonschema.ValidationError) int {
		return cmp.Or(
			slices.CompareFunc(a.InstanceLocation, b.InstanceLocation, compareNames), cmp.Compare(a.SchemaURL, b.SchemaURL),
		)
	})
	return found[:noted]
}

// compareNames puts the indexes of a list in the order of their numbers.
func compareNames(a, b string) int { return cmp.Or(cmp.Compare(len(a), len(b)), cmp.Compare(a, b)) }

// leaves gathers the errors that have no errors beneath them.
func leaves(e *jsonschema.ValidationError, found []*jsonschema.ValidationError) []*jsonschema.ValidationError {
	if len(e.Causes) == 0 {
		return append(found, e)
	}
	for _, cause := range e.Causes {
		found = leaves(cause, found)
	}
	return found
}

// node finds the part of the contract an address of the compiler points at; nil where there is none.
func (s *shapes) node(address string) map[string]any {
	_, fragment, _ := strings.Cut(address, "#")
	at := s.contract
	for token := range jsontext.Pointer(fragment).Tokens() {
		object, ok := at.(map[string]any)
		if !ok {
			return nil
		}
		at = object[token]
	}
	node, _ := at.(map[string]any)
	return s.follow(node)
}

// follow resolves a reference to another part of the contract.
func (s *shapes) follow(node map[string]any) map[string]any {
	for range maxDepth {
		address, ok := node["$ref"].(string)
		if !ok {
			return node
		}
		_, fragment, _ := strings.Cut(address, "#")
		at := s.contract
		for token := range jsontext.Pointer(fragment).Tokens() {
			object, _ := at.(map[string]any)
			at = object[token]
		}
		node, _ = at.(map[string]any)
	}
	return node
}

// needed reports whether the contract of an endpoint requires the member at a location.
func (s *shapes) needed(endpoint Endpoint, location []string) bool {
	node := s.root(endpoint)
	required := len(location) == 0 // the body itself
	for _, token := range location {
		if items, ok := node["items"].(map[string]any); ok {
			node, required = s.follow(items), false
			continue
		}
		names, _ := node["required"].([]any)
		node, required = s.property(node, token), slices.Contains(names, any(token))
	}
	return required
}

// property finds the schema of a member.
func (s *shapes) property(node map[string]any, name string) map[string]any {
	properties, _ := node["properties"].(map[string]any)
	property, _ := properties[name].(map[string]any)
	return s.follow(property)
}

// pointerOf writes a location as a JSON pointer (RFC 6901).
func pointerOf(location []string, more ...string) string {
	var p jsontext.Pointer
	for _, token := range location {
		p = p.AppendToken(token)
	}
	for _, token := range more {
		p = p.AppendToken(token)
	}
	return string(p)
}
