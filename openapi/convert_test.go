package openapi

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"
)

var update = flag.Bool("update", false, "make openapi.json anew")

// The program carries the contract in both forms, so that it need not convert it when it starts.
func TestJSONIsMadeOfTheYAML(t *testing.T) {
	made, err := convert(YAML)
	require.NoError(t, err)
	if *update {
		require.NoError(t, os.WriteFile("openapi.json", []byte(made), 0o644))
		return
	}
	require.True(t, made == JSON, "openapi.json is not what openapi.yaml says; make it anew: go test ./openapi -run MadeOfTheYAML -update")
}

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
