package openapi

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"maps"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"
)

var update = flag.Bool("update", false, "make openapi.json and requests.json anew")

// The program carries the contract as JSON, too, so that it need not convert it when it starts.
func TestTheFilesAreMadeOfTheYAML(t *testing.T) {
	whole, err := convert(YAML)
	require.NoError(t, err)
	requests, err := requestsOf(whole)
	require.NoError(t, err)
	for file, made := range map[string]struct{ want, got string }{"openapi.json": {whole, JSON}, "requests.json": {requests, Requests}} {
		if *update {
			require.NoError(t, os.WriteFile(file, []byte(made.want), 0o644))
			continue
		}
		require.True(t, made.want == made.got, file+" is not what openapi.yaml says; make it anew: go test ./openapi -run MadeOfTheYAML -update")
	}
}

// requestsOf takes the schemas of request bodies, and those they refer to, out of a contract in JSON.
func requestsOf(contract string) (string, error) {
	var document struct {
		Components struct {
			Schemas map[string]json.RawMessage `json:"schemas"`
		} `json:"components"`
	}
	if err := json.Unmarshal([]byte(contract), &document); err != nil {
		return "", err
	}
	schemas, kept := document.Components.Schemas, map[string]bool{}
	var keep func(name string)
	keep = func(name string) {
		if kept[name] {
			return
		}
		kept[name] = true
		for _, other := range reference.FindAllStringSubmatch(string(schemas[name]), -1) {
			keep(other[1])
		}
	}
	for name := range schemas {
		if strings.HasSuffix(name, "Request") {
			keep(name)
		}
	}
	var out strings.Builder
	for _, name := range slices.Sorted(maps.Keys(kept)) {
		fmt.Fprintf(&out, ",\n%q:%s", name, schemas[name])
	}
	return `{"components":{"schemas":{` + strings.TrimPrefix(out.String(), ",") + "}}}\n", nil
}

// reference is a reference from one schema to another.
var reference = regexp.MustCompile(`"\$ref":"#/components/schemas/([A-Za-z0-9]+)"`)

// convert turns a YAML document into JSON.
func convert(document string) (string, error) {
	var root yaml.Node
	if err := yaml.Unmarshal([]byte(document), &root); err != nil {
		return "", err
	}
	var out bytes.Buffer
	if err := write(&out, root.Content[0], 0); err != nil {
		return "", err
	}
	out.WriteByte('\n')
	return out.String(), nil
}

// levelsOnLines is how many levels of objects have a line for each member: one for each schema, so that
// a change of the contract is a change of some lines.
const levelsOnLines = 3

// write puts one node into JSON. Anchors and tags other than JSON's own are refused: the
// specification asks for documents that are the same in both forms.
func write(out *bytes.Buffer, node *yaml.Node, level int) error {
	switch node.Kind {
	case yaml.MappingNode:
		return writeMembers(out, node, level)
	case yaml.SequenceNode:
		return writeItems(out, node)
	case yaml.ScalarNode:
		return writeScalar(out, node)
	default:
		return fmt.Errorf("line %d: not plain YAML", node.Line)
	}
}

func writeMembers(out *bytes.Buffer, node *yaml.Node, level int) error {
	out.WriteByte('{')
	for i := 0; i+1 < len(node.Content); i += 2 {
		if i > 0 {
			out.WriteByte(',')
		}
		if level < levelsOnLines {
			out.WriteByte('\n')
		}
		name, err := json.Marshal(node.Content[i].Value)
		if err != nil {
			return err
		}
		out.Write(name)
		out.WriteByte(':')
		if err := write(out, node.Content[i+1], level+1); err != nil {
			return err
		}
	}
	out.WriteByte('}')
	return nil
}

func writeItems(out *bytes.Buffer, node *yaml.Node) error {
	out.WriteByte('[')
	for i, item := range node.Content {
		if i > 0 {
			out.WriteByte(',')
		}
		if err := write(out, item, levelsOnLines); err != nil {
			return err
		}
	}
	out.WriteByte(']')
	return nil
}

func writeScalar(out *bytes.Buffer, node *yaml.Node) error {
	switch node.ShortTag() {
	case "!!null":
		out.WriteString("null")
		return nil
	case "!!bool":
		out.WriteString(strconv.FormatBool(node.Value == "true"))
		return nil
	case "!!str", "!!int", "!!float":
		var value any
		if err := node.Decode(&value); err != nil {
			return err
		}
		text, err := json.Marshal(value)
		out.Write(text)
		return err
	default:
		return fmt.Errorf("line %d: %s is not a JSON type", node.Line, node.ShortTag())
	}
}

func TestConvertRefuses(t *testing.T) {
	t.Parallel()
	for name, text := range map[string]string{
		"broken":    "a: [",
		"alias":     "a: &x 1\nb: *x",
		"timestamp": "a: 2026-06-03",
		"in a list": "a: [2026-06-03]",
		"binary":    "a: !!binary aGk=",
	} {
		_, err := convert(text)
		assert.Error(t, err, name)
	}
	text, err := convert("a: [1, 2.5, -1e12, true, false, null, 'x', yes]")
	require.NoError(t, err)
	assert.Equal(t, "{\n\"a\":[1,2.5,-1000000000000,true,false,null,\"x\",\"yes\"]}\n", text)
}
