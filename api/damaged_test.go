package api

import (
	"bytes"
	"encoding/json"
	"fmt"
	"log/slog"
	"math"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/require"
)

// This file throws damaged requests at the service: whatever comes in, what comes back is an answer
// or a problem document of the contract, and never a failure of the service.

// judge holds one exchange to the contract; it says what is wrong with it, or nothing.
type judge struct {
	server  *Server
	problem *jsonschema.Schema
	answers map[string]*jsonschema.Schema // by path
}

func newJudge(t testing.TB) *judge {
	t.Helper()
	j := &judge{
		server:  newServer(t, Config{Logger: slog.New(slog.DiscardHandler)}),
		problem: schema(t, "Problem"), answers: map[string]*jsonschema.Schema{},
	}
	for _, r := range resources() {
		post := contractPaths()[r.path()]["post"].(map[string]any)
		ref := at(post, "responses", "200", "content", mediaJSON, "schema")["$ref"].(string)
		j.answers[r.path()] = schema(t, filepath.Base(ref))
	}
	return j
}

// try posts a body and reports the status and what is wrong with the reply.
func (j *judge) try(path string, body []byte) (status int, wrong string) {
	r := httptest.NewRequest(http.MethodPost, path, bytes.NewReader(body))
	r.Header.Set("Content-Type", mediaJSON)
	w := httptest.NewRecorder()
	j.server.ServeHTTP(w, r)
	var value any
	err := json.Unmarshal(w.Body.Bytes(), &value)
	switch {
	case w.Code >= 500:
		return w.Code, "the service failed: " + w.Body.String()
	case err != nil:
		return w.Code, "the reply is not JSON: " + err.Error()
	case w.Code == http.StatusOK:
		if err := j.answers[path].Validate(value); err != nil {
			return w.Code, "the answer breaks the contract: " + err.Error()
		}
	default:
		if err := j.problem.Validate(value); err != nil {
			return w.Code, "the problem breaks the contract: " + err.Error()
		}
		faults, _ := value.(map[string]any)["faults"].([]any)
		if len(faults) == 0 {
			return w.Code, "the problem names no fault: " + w.Body.String()
		}
	}
	return w.Code, ""
}

// samples reads every sample mission.
func samples(t testing.TB) []map[string]any {
	t.Helper()
	files, err := filepath.Glob("../testdata/missions/*.json")
	require.NoError(t, err)
	var bodies []map[string]any
	for _, file := range files {
		var body map[string]any
		require.NoError(t, json.Unmarshal(sample(t, filepath.Base(file)), &body))
		bodies = append(bodies, body)
	}
	require.GreaterOrEqual(t, len(bodies), 8)
	return bodies
}

// raceDetector is true where the race detector slows everything down.
var raceDetector = false

func TestDamagedBodies(t *testing.T) {
	t.Parallel()
	total := 50_000
	if testing.Short() || raceDetector {
		total = 2_000
	}
	j, bodies := newJudge(t), samples(t)
	paths := []string{}
	for _, r := range resources() {
		paths = append(paths, r.path())
	}
	var next atomic.Int64
	var statuses [600]atomic.Int64
	var workers sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		workers.Go(func() {
			for !t.Failed() {
				n := next.Add(1)
				if n > int64(total) {
					return
				}
				chance := rand.New(rand.NewPCG(20261125, uint64(n)))
				body := damaged(chance, bodies[chance.IntN(len(bodies))])
				status, wrong := j.try(paths[chance.IntN(len(paths))], body)
				statuses[status].Add(1)
				if wrong != "" {
					t.Errorf("body %d: %s\n%s", n, wrong, body)
				}
			}
		})
	}
	workers.Wait()
	t.Logf("200: %d, 400: %d, 422: %d", statuses[200].Load(), statuses[400].Load(), statuses[422].Load())
	for _, status := range []int{200, 400, 422} {
		require.Greater(t, statuses[status].Load(), int64(total/50), "the damage must reach every way a body can go")
	}
}

// FuzzAssessments looks for a body that makes the service fail.
func FuzzAssessments(f *testing.F) {
	for _, body := range samples(f) {
		f.Add(encoded(body))
		chance := rand.New(rand.NewPCG(1, uint64(len(body))))
		for range 10 {
			f.Add(damaged(chance, body))
		}
	}
	j := newJudge(f)
	f.Fuzz(func(t *testing.T, body []byte) {
		if len(body) > DefaultMaxBody {
			t.Skip()
		}
		if _, wrong := j.try("/v1/assessments", body); wrong != "" {
			t.Fatal(wrong)
		}
	})
}

// damaged makes one to three slips in a body: in its members, in its bytes, or in both.
func damaged(chance *rand.Rand, sound map[string]any) []byte {
	slips := 1 + chance.IntN(3)
	root, bytesToo := copied(sound).(map[string]any), chance.IntN(5) < 2
	if !bytesToo || chance.IntN(2) == 0 {
		for range slips {
			damageMember(chance, root)
		}
	}
	body := bytes.ReplaceAll(encoded(root), []byte(`"@1e400"`), []byte(`1e400`))
	if bytesToo {
		for range slips {
			body = damageBytes(chance, body)
		}
	}
	return body
}

func encoded(value any) []byte {
	out, err := json.Marshal(value)
	if err != nil {
		panic(err)
	}
	return out
}

// damageMember changes one member, anywhere in the body.
func damageMember(chance *rand.Rand, root map[string]any) {
	holders := objects(root, nil)
	holder := holders[chance.IntN(len(holders))]
	names := make([]string, 0, len(holder))
	for name := range holder {
		names = append(names, name)
	}
	if len(names) == 0 {
		holder["surprise"] = 1
		return
	}
	slices.Sort(names)
	name := names[chance.IntN(len(names))]
	switch chance.IntN(7) {
	case 0:
		delete(holder, name)
	case 1:
		holder[strings.ToUpper(name[:1])+name[1:]] = holder[name]
		delete(holder, name)
	case 2:
		holder[name] = oddValue(chance)
	case 3:
		other := holders[chance.IntN(len(holders))]
		holder[name] = copied(other[names[chance.IntN(len(names))]])
	default:
		if number, ok := holder["value"].(float64); ok {
			holder["value"] = scaled(chance, number)
			return
		}
		if number, ok := holder[name].(float64); ok {
			holder[name] = scaled(chance, number)
			return
		}
		holder[name] = oddValue(chance)
	}
}

// scaled makes a number a little off, or absurdly large, small or negative.
func scaled(chance *rand.Rand, number float64) any {
	if math.Abs(number) > 1e100 { // scaled before; once more could leave float64
		return "@1e400"
	}
	if chance.IntN(2) == 0 {
		return number * (0.2 + 2*chance.Float64())
	}
	return []any{
		number * 1e9, number * 1e-9, -number, 0, number * 10, number / 10,
		1e308, -1e308, 5e-324, 1e12, 1e-12, "@1e400",
	}[chance.IntN(12)]
}

func oddValue(chance *rand.Rand) any {
	return []any{
		nil, true, false, "", "x", "mph", "2026-06-03T07:30:00-05:00", []any{}, []any{1, "x", nil}, map[string]any{}, 0, -1, 1.5,
		1e308, "@1e400", strings.Repeat("long", 500), map[string]any{"value": 1, "unit": "kg"}, map[string]any{"value": 1},
	}[chance.IntN(18)]
}

// copied makes a copy that shares nothing with the value, so that no body becomes a circle.
func copied(value any) any {
	switch v := value.(type) {
	case map[string]any:
		out := make(map[string]any, len(v))
		for name, member := range v {
			out[name] = copied(member)
		}
		return out
	case []any:
		out := make([]any, len(v))
		for i, item := range v {
			out[i] = copied(item)
		}
		return out
	default:
		return value
	}
}

// objects lists the objects of a body, in a fixed order.
func objects(value any, found []map[string]any) []map[string]any {
	switch v := value.(type) {
	case map[string]any:
		found = append(found, v)
		names := make([]string, 0, len(v))
		for name := range v {
			names = append(names, name)
		}
		slices.Sort(names)
		for _, name := range names {
			found = objects(v[name], found)
		}
	case []any:
		for _, item := range v {
			found = objects(item, found)
		}
	}
	return found
}

// damageBytes changes the text of a body.
func damageBytes(chance *rand.Rand, body []byte) []byte {
	if len(body) == 0 {
		return []byte("{")
	}
	out := slices.Clone(body)
	i := chance.IntN(len(out))
	switch chance.IntN(6) {
	case 0:
		return out[:i]
	case 1:
		out[i] ^= 1 << chance.IntN(8)
	case 2:
		return slices.Insert(out, i, []byte(`{}[]":,\0e-`)[chance.IntN(11)])
	case 3:
		return slices.Delete(out, i, min(len(out), i+1+chance.IntN(20)))
	case 4:
		// A member twice: what stands between two commas is repeated.
		if j := bytes.IndexByte(out[i:], ','); j >= 0 {
			if k := bytes.IndexByte(out[i+j+1:], ','); k >= 0 {
				return slices.Insert(out, i+j, slices.Clone(out[i+j:i+j+1+k])...)
			}
		}
	default:
		return fmt.Appendf(out, "%c", chance.IntN(256))
	}
	return out
}
