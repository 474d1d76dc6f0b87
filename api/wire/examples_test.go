package wire_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"

	"tractcheck/api/wire"
	"tractcheck/feasibility"
	"tractcheck/openapi"
)

var updateExamples = flag.Bool("update-examples", false, "write the answer examples of the contract anew")

// exampleEngine stands for the program in the contract's examples, whatever build runs the test.
const exampleEngine = "tractcheck 1.0.0 amd64"

// exchanges are the request examples of the contract and the answer examples that belong to them.
var exchanges = []struct {
	endpoint         wire.Endpoint
	request, replies string
	assess           func(feasibility.Mission) (feasibility.Answer, error)
}{
	{wire.Assessments, "LeveeStripSmall", "Assessment", feasibility.Assess},
	{wire.TakeoffWeights, "TakeoffWeightParts", "TakeoffWeightAnswer", feasibility.AssessTakeoffWeight},
	{wire.RatePressures, "RatePressureParts", "RatePressureAnswer", feasibility.AssessRatePressure},
	{wire.DriftRisks, "DriftRiskParts", "DriftRiskAnswer", feasibility.AssessDriftRisk},
	{wire.SortiePlans, "SortiePlanParts", "SortiePlanAnswer", feasibility.AssessSortiePlan},
	{wire.AuthorizationChecklists, "AuthorizationChecklistParts", "AuthorizationChecklistAnswer", feasibility.AssessAuthorizations},
}

// shortened is how many items of its longer lists an example keeps.
var shortened = map[string]int{
	"findings": 3, "assumptions": 2, "curve": 2, "deposit": 2, "items": 3, "list": 2,
	"reference_curves": 1, "remedies": 1, "cautions": 2, "drivers": 3,
}

// The answers printed in the contract are the program's own, cut short. After a change of the
// computation, run this test with -update-examples.
func TestAnswerExamplesAreTrue(t *testing.T) {
	document := documentOf(t)
	reader, err := wire.NewReader(exampleEngine)
	require.NoError(t, err)
	for _, e := range exchanges {
		body, err := json.Marshal(document[e.request].Value)
		require.NoError(t, err)
		request, mission, digest, faults := reader.Read(e.endpoint, body)
		require.Empty(t, faults, e.request)
		answer, err := e.assess(mission)
		require.NoError(t, err)
		text, err := json.Marshal(wire.NewAnswer(e.endpoint, wire.Identity{Digest: digest, Engine: exampleEngine}, request, answer))
		require.NoError(t, err)
		want := shorten(t, text)
		if *updateExamples {
			replaceExample(t, e.replies, want)
			continue
		}
		got, err := json.Marshal(document[e.replies].Value)
		require.NoError(t, err)
		again, err := json.Marshal(plain(want))
		require.NoError(t, err)
		assert.JSONEq(t, string(again), string(got), "%s: run with -update-examples", e.replies)
	}
}

// The file a newcomer runs first is the request the contract shows.
func TestTheSampleMissionIsTheExample(t *testing.T) {
	t.Parallel()
	file, err := os.ReadFile(filepath.Join("..", "..", "testdata", "missions", "levee-strip-small.json"))
	require.NoError(t, err)
	example, err := json.Marshal(documentOf(t)["LeveeStripSmall"].Value)
	require.NoError(t, err)
	assert.JSONEq(t, string(file), string(example))
}

type example struct{ Value any }

func documentOf(t *testing.T) map[string]example {
	t.Helper()
	var document struct {
		Components struct{ Examples map[string]example }
	}
	require.NoError(t, yaml.Unmarshal([]byte(openapi.YAML), &document))
	return document.Components.Examples
}

// shorten cuts the lists of an answer, and its sources to those that are still named. The node
// keeps the order of the members.
func shorten(t *testing.T, text []byte) *yaml.Node {
	t.Helper()
	var document yaml.Node
	require.NoError(t, yaml.Unmarshal(text, &document))
	root := document.Content[0]
	cut(root, "")
	named := map[string]bool{}
	for _, list := range []string{"findings", "assumptions", "hours"} {
		name(member(root, list), named)
	}
	sources := member(root, "sources")
	sources.Content = slices.DeleteFunc(sources.Content, func(s *yaml.Node) bool { return !named[member(s, "id").Value] })
	return root
}

// name notes the sources that the members below a node name.
func name(node *yaml.Node, named map[string]bool) {
	if node == nil {
		return
	}
	if source := member(node, "source"); source != nil {
		named[source.Value] = true
	}
	for _, child := range node.Content {
		name(child, named)
	}
}

func cut(node *yaml.Node, name string) {
	node.Style = 0
	if most, ok := shortened[name]; ok && node.Kind == yaml.SequenceNode && len(node.Content) > most {
		node.Content = node.Content[:most]
	}
	for i, child := range node.Content {
		if node.Kind == yaml.MappingNode && i%2 == 1 {
			cut(child, node.Content[i-1].Value)
		} else {
			cut(child, "")
		}
	}
	quantity := node.Kind == yaml.MappingNode && member(node, "unit") != nil
	if quantity || len(node.Content) == 0 && node.Kind != yaml.ScalarNode {
		node.Style = yaml.FlowStyle
	}
}

func member(object *yaml.Node, name string) *yaml.Node {
	for i := 0; i+1 < len(object.Content); i += 2 {
		if object.Content[i].Value == name {
			return object.Content[i+1]
		}
	}
	return nil
}

func plain(node *yaml.Node) any {
	var value any
	_ = node.Decode(&value)
	return value
}

// replaceExample writes the value of one example of the document anew.
func replaceExample(t *testing.T, name string, value *yaml.Node) {
	t.Helper()
	path := filepath.Join("..", "..", "openapi", "openapi.yaml")
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	lines := strings.Split(string(text), "\n")
	examples := slices.Index(lines, "  examples:")
	require.Positive(t, examples)
	start := examples + slices.Index(lines[examples:], "    "+name+":")
	require.Greater(t, start, examples)
	start += slices.Index(lines[start:], "      value:") + 1
	end := start
	for end < len(lines) && strings.HasPrefix(lines[end], "      ") {
		end++
	}
	var block bytes.Buffer
	encoder := yaml.NewEncoder(&block)
	encoder.SetIndent(2)
	require.NoError(t, encoder.Encode(value))
	var fresh []string
	for line := range strings.SplitSeq(strings.TrimSuffix(block.String(), "\n"), "\n") {
		fresh = append(fresh, "        "+line)
	}
	lines = slices.Replace(lines, start, end, fresh...)
	require.NoError(t, os.WriteFile(path, []byte(strings.Join(lines, "\n")), 0o600))
}
