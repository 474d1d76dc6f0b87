// Package openapi holds the contract of the service, OpenAPI 3.1, as the program carries it. The
// document is kept by hand in openapi.yaml, and openapi.json and requests.json are made of it; tests hold them to it
// and the program to it.
package openapi

import _ "embed" // the directives below

// YAML is the contract as it is kept.
//
//go:embed openapi.yaml
var YAML string

// JSON is the same contract as JSON, members in the order of the document. It is made when the contract
// changes, not when the program starts: go test ./openapi -run MadeOfTheYAML -update.
//
//go:embed openapi.json
var JSON string

// Requests is a part of that: the schemas of request bodies alone, at the same pointers. They are a
// quarter of the whole, and all that a program must read before it takes a body.
//
//go:embed requests.json
var Requests string
