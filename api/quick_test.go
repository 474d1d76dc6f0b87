//go:build unix

package api

import (
	"encoding/json"
	"maps"
	"math"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// processorTime is what this process has used of the processors, the collection of garbage included.
// Unlike the time on the clock it does not run while other processes have their turn.
func processorTime(t testing.TB) time.Duration {
	t.Helper()
	var used syscall.Rusage
	require.NoError(t, syscall.Getrusage(syscall.RUSAGE_SELF, &used))
	return time.Duration(used.Utime.Nano() + used.Stime.Nano())
}

// A fortnight of hours is read, judged and written in under 60 ms. A neighbor on the same core still slows
// the processor down, so one run of many has to keep to it; none does where the work has grown.
func TestAFortnightOfHoursIsQuick(t *testing.T) {
	if raceDetector || testing.CoverMode() != "" {
		t.Skip("what is added to the program slows everything down")
	}
	const limit, runs = 60 * time.Millisecond, 40
	desk, err := NewDesk("test")
	require.NoError(t, err)
	for name, body := range map[string][]byte{"two sides": fortnight(t), "150 corners": onTheMap(t, fortnight(t), 150)} {
		least := time.Hour
		for range runs {
			start := processorTime(t)
			reply, err := desk.SprayHours(body)
			took := processorTime(t) - start
			require.NoError(t, err)
			require.NotEmpty(t, reply.Body)
			if least = min(least, took); least < limit {
				break
			}
		}
		t.Logf("%s: 336 hours in %v of processor time", name, least)
		assert.Less(t, least, limit, name)
	}
}

// Hours that differ in one reading only, over a boundary of many corners, take no longer each than others:
// none is compared with all before it.
func TestHoursNearlyAlikeAreQuick(t *testing.T) {
	if raceDetector || testing.CoverMode() != "" {
		t.Skip("what is added to the program slows everything down")
	}
	var alike struct {
		Mission any              `json:"mission"`
		Hours   []map[string]any `json:"hours"`
	}
	require.NoError(t, json.Unmarshal(onTheMap(t, fortnight(t), 1500), &alike))
	noon := alike.Hours[12]
	for i, hour := range alike.Hours {
		at := hour["at"]
		alike.Hours[i] = maps.Clone(noon)
		alike.Hours[i]["at"] = at
		alike.Hours[i]["pressure"] = map[string]any{"value": 100 + float64(i)/1000, "unit": "kPa"}
	}
	desk, err := NewDesk("test")
	require.NoError(t, err)
	body := []byte(jsonOf(t, alike))
	least := time.Hour
	for range 5 {
		start := processorTime(t)
		_, err := desk.SprayHours(body)
		require.NoError(t, err)
		least = min(least, processorTime(t)-start)
	}
	t.Logf("336 hours in %v of processor time", least)
	assert.Less(t, least, 250*time.Millisecond)
}

// onTheMap puts a request's field on the map, as a ring of a number of corners with a wavy edge.
func onTheMap(t testing.TB, body []byte, corners int) []byte {
	t.Helper()
	var of map[string]any
	require.NoError(t, json.Unmarshal(body, &of))
	field := of["mission"].(map[string]any)["field"].(map[string]any)
	delete(field, "length")
	delete(field, "width")
	ring := make([][2]float64, corners+1)
	for i := range ring {
		angle := 2 * math.Pi * float64(i%corners) / float64(corners)
		reach := 0.002 + 0.0001*math.Sin(9*angle)
		ring[i] = [2]float64{-91 + reach*math.Cos(angle), 33.4 + reach*math.Sin(angle)}
	}
	field["boundary"] = map[string]any{"type": "Polygon", "coordinates": [][][2]float64{ring}}
	return []byte(jsonOf(t, of))
}
