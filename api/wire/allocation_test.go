package wire

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility"
)

// raceDetector is true where the race detector runs, which asks for memory itself.
var raceDetector = false

// A sound body is read and its answer written with few requests for memory: the request's own members,
// and sheets of quantities.
func TestReadingAndWritingAskForLittleMemory(t *testing.T) {
	if raceDetector {
		t.Skip("the race detector allocates")
	}
	r, body := newReader(t), mission(t, missionFile)
	request, mission, digest, faults := r.Read(Assessments, body)
	require.Empty(t, faults)
	answer, err := feasibility.Assess(mission)
	require.NoError(t, err)
	var page []byte
	write := func() {
		if page, err = AppendAnswer(page[:0], Assessments, Identity{Digest: digest, Engine: "test"}, request, answer); err != nil {
			t.Error(err)
		}
	}
	write()
	reading := testing.AllocsPerRun(20, func() { r.Read(Assessments, body) })
	writing := testing.AllocsPerRun(20, write)
	t.Logf("%.0f allocations to read, %.0f to write", reading, writing)
	assert.LessOrEqual(t, reading, 300.0)
	assert.LessOrEqual(t, writing, 60.0)
}

// A sound body of hours or of set-ups is read as sparingly. An hour has ten quantities.
func TestReadingDecisionsAsksForLittleMemory(t *testing.T) {
	if raceDetector {
		t.Skip("the race detector allocates")
	}
	r := newReader(t)
	hours, err := json.Marshal(decisionBody(t, "spray-hours", "levee-two-days.json"))
	require.NoError(t, err)
	setUps, err := json.Marshal(decisionBody(t, "comparisons", "levee-three-set-ups.json"))
	require.NoError(t, err)
	request, _, _, _, faults := r.ReadSprayHours(hours)
	require.Empty(t, faults)
	merged, _, faults := r.ReadComparison(setUps)
	require.Empty(t, faults)
	forHours := testing.AllocsPerRun(20, func() { r.ReadSprayHours(hours) })
	forSetUps := testing.AllocsPerRun(20, func() { _, _, _ = r.ReadComparison(setUps) })
	t.Logf("%.0f allocations for %d hours, %.0f for %d set-ups", forHours, len(request.Hours), forSetUps, len(merged))
	assert.LessOrEqual(t, forHours, 300+40*float64(len(request.Hours)))
	assert.LessOrEqual(t, forSetUps, 600*float64(len(merged)))
}
