// Package openapi holds the contract of the service, OpenAPI 3.1, as the program carries it. The
// document is kept by hand in openapi.yaml; tests hold the program to it.
package openapi

import (
	"bytes"
	_ "embed" // the directive below
	"encoding/json"
	"fmt"
	"strconv"
	"sync"

	"gopkg.in/yaml.v3"
)

// YAML is the contract as it is kept.
//
//go:embed openapi.yaml
var YAML string

// JSON reports the contract as JSON, members in the order of the document. It is converted once. It
// panics if the embedded document cannot be converted, which the tests of this package rule out.
func JSON() string { return converted() }

var converted = sync.OnceValue(func() string {
	text, err := convert(YAML)
	if err != nil {
		panic("openapi: embedded document: " + err.Error())
	}
	return text
})

// convert turns a YAML document into JSON.
func convert(document string) (string, error) {
	var root yaml.Node
	if err := yaml.Unmarshal([]byte(document), &root); err != nil {
		return "", err
	}
	var out bytes.Buffer
	if err := write(&out, &root); err != nil {
		return "", err
	}
	return out.String(), nil
}

// write puts one node into JSON. Anchors and tags other than JSON's own are refused: the
// specification asks for documents that are the same in both forms.
func write(out *bytes.Buffer, node *yaml.Node) error {
	switch node.Kind {
	case yaml.DocumentNode:
		return write(out, node.Content[0])
	case yaml.MappingNode:
		return writeMembers(out, node)
	case yaml.SequenceNode:
		return writeItems(out, node)
	case yaml.ScalarNode:
		return writeScalar(out, node)
	default:
		return fmt.Errorf("line %d: not plain YAML", node.Line)
	}
}

func writeMembers(out *bytes.Buffer, node *yaml.Node) error {
	out.WriteByte('{')
	for i := 0; i+1 < len(node.Content); i += 2 {
		if i > 0 {
			out.WriteByte(',')
		}
		name, err := json.Marshal(node.Content[i].Value)
		if err != nil {
			return err
		}
		out.Write(name)
		out.WriteByte(':')
		if err := write(out, node.Content[i+1]); err != nil {
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
		if err := write(out, item); err != nil {
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
