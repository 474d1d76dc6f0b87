package wire

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// FuzzMission reads whatever decodes to a request, for every endpoint: it never panics, its faults
// can always be written, and a mission without faults holds no number that is not finite.
func FuzzMission(f *testing.F) {
	files, err := filepath.Glob(filepath.Join("..", "..", "testdata", "missions", "*.json"))
	require.NoError(f, err)
	for _, name := range files {
		text, err := os.ReadFile(name)
		require.NoError(f, err)
		f.Add(text)
	}
	for _, text := range []string{
		`{}`, `{"aircraft":{}}`, `{"weather":{"lapse":{}}}`, `{"operation":{"expiries":[{}]}}`,
		`{"spray_system":{"nozzle":{"spectra":[{},{}],"classes":[{}]},"rotary":{"spectra":[{}]}}}`,
		`{"field":{"boundary":{"type":"Polygon","coordinates":[[[0,0],[0,1],[1,1],[0,0]]]},"keep_outs":{},"neighbors":[{}]}}`,
		`{"field":{"boundary":{"type":"MultiPolygon","coordinates":[[[[0,0],[0,0],[0,0],[0,0]]],[]]},"launch_point":{"coordinates":[]}}}`,
		`{"load":{"fill":{"value":1e308,"unit":"gal"},"specific_gravity":-1}}`,
		`{"field":{"boundary":{"type":"Polygon","coordinates":[[[1e999,0],[0,1],[1,1],[0,0]]]}}}`,
	} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		request := &Request{}
		if json.Unmarshal(text, request) != nil {
			return
		}
		for _, endpoint := range allEndpoints {
			mission, faults := request.Mission(endpoint)
			if _, err := json.Marshal(faults); err != nil {
				t.Fatalf("faults cannot be written: %v", err)
			}
			for _, fault := range faults {
				if !strings.HasPrefix(fault.Pointer, "/") || fault.Code == "" || fault.Message == "" || fault.Text() {
					t.Fatalf("bad fault: %+v", fault)
				}
			}
			if len(faults) == 0 {
				finiteThroughout(t, reflect.ValueOf(mission))
			}
		}
	})
}

// finiteThroughout fails on a number in the value that is not finite.
func finiteThroughout(t *testing.T, v reflect.Value) {
	t.Helper()
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			finiteThroughout(t, v.Elem())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			finiteThroughout(t, v.Field(i))
		}
	case reflect.Slice:
		for i := range v.Len() {
			finiteThroughout(t, v.Index(i))
		}
	case reflect.Float64:
		if math.IsNaN(v.Float()) || math.IsInf(v.Float(), 0) {
			t.Fatalf("%s is %v", v.Type(), v.Float())
		}
	}
}
