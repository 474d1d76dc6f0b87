package wire

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tractcheck/feasibility"
)

const levee = "levee-strip-small.json"

// sampleBody is the levee mission as a tree that a test may change.
func sampleBody(t testing.TB) map[string]any { return sampleOf(t, levee) }

// sampleOf is a sample mission as a tree.
func sampleOf(t testing.TB, file string) map[string]any {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "testdata", "missions", file))
	require.NoError(t, err)
	var body map[string]any
	require.NoError(t, json.Unmarshal(text, &body))
	return body
}

// decoded makes a request of a tree.
func decoded(t testing.TB, body map[string]any) *Request {
	t.Helper()
	text, err := json.Marshal(body)
	require.NoError(t, err)
	request := &Request{}
	require.NoError(t, json.Unmarshal(text, request))
	return request
}

// put sets the member at a pointer, making objects and lists of one item on the way.
func put(body map[string]any, pointer string, value any) {
	tokens := strings.Split(strings.TrimPrefix(pointer, "/"), "/")
	var at any = body
	for i, token := range tokens {
		last := i == len(tokens)-1
		switch node := at.(type) {
		case map[string]any:
			if last {
				node[token] = value
				return
			}
			if _, ok := node[token]; !ok {
				if _, err := strconv.Atoi(tokens[i+1]); err == nil {
					node[token] = []any{map[string]any{}}
				} else {
					node[token] = map[string]any{}
				}
			}
			at = node[token]
		case []any:
			n, _ := strconv.Atoi(token)
			if last {
				node[n] = value
				return
			}
			at = node[n]
		}
	}
}

// drop removes the member at a pointer.
func drop(body map[string]any, pointer string) {
	tokens := strings.Split(strings.TrimPrefix(pointer, "/"), "/")
	at := body
	for _, token := range tokens[:len(tokens)-1] {
		next, ok := at[token].(map[string]any)
		if !ok {
			return
		}
		at = next
	}
	delete(at, tokens[len(tokens)-1])
}

// edit is one change of the levee mission; a nil value removes the member.
type edit struct {
	pointer string
	value   any
}

func of(value float64, unit string) map[string]any {
	return map[string]any{"value": value, "unit": unit}
}

// readEdited reads the levee mission with changes.
func readEdited(t testing.TB, endpoint Endpoint, edits ...edit) (feasibility.Mission, []Fault) {
	t.Helper()
	body := sampleBody(t)
	for _, e := range edits {
		if e.value == nil {
			drop(body, e.pointer)
		} else {
			put(body, e.pointer, e.value)
		}
	}
	return decoded(t, body).Mission(endpoint)
}

// brief writes faults as pointer and code, sorted.
func brief(faults []Fault) []string {
	out := []string{}
	for _, f := range faults {
		out = append(out, f.Pointer+" "+string(f.Code))
	}
	slices.Sort(out)
	return out
}
