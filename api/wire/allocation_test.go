package wire

import (
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
