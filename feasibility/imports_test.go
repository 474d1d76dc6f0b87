package feasibility_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// rooms lists what each room may import of the house, beside units and finding.
var rooms = map[string][]string{
	"units":    {},
	"finding":  {},
	"daylight": {},
	"air":      {"daylight"},
	"takeoff":  {"air"},
	"spray":    {"air", "takeoff"},
	"drift":    {"air", "spray"},
	"flight":   {"air", "takeoff"},
	"tract":    {"takeoff", "flight"},
	"crew":     {"takeoff", "flight", "tract"},
	"permits":  {"daylight", "takeoff", "spray", "drift"},
}

func TestImportsPointOneWay(t *testing.T) {
	for room, allowed := range rooms {
		files, err := filepath.Glob(filepath.Join(room, "*.go"))
		require.NoError(t, err)
		require.NotEmpty(t, files, room)
		for _, file := range files {
			if strings.HasSuffix(file, "_test.go") {
				continue
			}
			for _, path := range importsOf(t, file) {
				inside, ours := strings.CutPrefix(path, "tractcheck/")
				if !ours {
					assert.NotContains(t, []string{"os", "net", "net/http", "io/fs", "log", "log/slog", "math/rand", "os/exec"}, path, "%s is pure", file)
					continue
				}
				other, isRoom := strings.CutPrefix(inside, "feasibility/")
				require.True(t, isRoom, "%s imports %s", file, path)
				if other == "units" && room != "units" || other == "finding" && room != "finding" && room != "units" {
					continue
				}
				assert.True(t, slices.Contains(allowed, other), "%s imports %s", file, path)
			}
		}
	}
}

func TestTheStoryImportsRoomsOnly(t *testing.T) {
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		for _, path := range importsOf(t, file) {
			inside, ours := strings.CutPrefix(path, "tractcheck/feasibility/")
			if ours {
				assert.Contains(t, rooms, inside, file)
				continue
			}
			assert.NotContains(t, path, ".", "%s: the story needs the standard library only", file)
		}
	}
}

// Nothing here runs beside anything else, so there is nothing to race.
func TestNothingRunsBesideAnythingElse(t *testing.T) {
	files := []string{}
	for _, pattern := range []string{"*.go", "*/*.go"} {
		found, err := filepath.Glob(pattern)
		require.NoError(t, err)
		files = append(files, found...)
	}
	require.Greater(t, len(files), 100)
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		assert.NotContains(t, importsOf(t, file), "sync", file)
		parsed, err := parser.ParseFile(token.NewFileSet(), file, nil, 0)
		require.NoError(t, err)
		ast.Inspect(parsed, func(n ast.Node) bool {
			_, beside := n.(*ast.GoStmt)
			assert.False(t, beside, "%s starts a goroutine", file)
			return true
		})
	}
}

func importsOf(t *testing.T, file string) []string {
	t.Helper()
	parsed, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.ImportsOnly)
	require.NoError(t, err)
	var paths []string
	for _, spec := range parsed.Imports {
		paths = append(paths, strings.Trim(spec.Path.Value, `"`))
	}
	return paths
}
