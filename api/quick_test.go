//go:build unix

package api

import (
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
	body := fortnight(t)
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
	t.Logf("336 hours in %v of processor time", least)
	assert.Less(t, least, limit)
}
