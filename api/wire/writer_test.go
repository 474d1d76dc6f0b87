package wire

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility"
)

// What an earlier answer left behind is in no later one.
func TestAnswersThatAreWrittenOutInTurnAreThoseThatAreKept(t *testing.T) {
	t.Parallel()
	r := newReader(t)
	for i, body := range sampleBodies(t) {
		request, mission, digest, faults := r.Read(Assessments, body)
		if len(faults) > 0 || testing.Short() && i%4 != 0 {
			continue
		}
		answer, err := feasibility.Assess(mission)
		require.NoError(t, err)
		for _, endpoint := range []Endpoint{Assessments, TakeoffWeights, Assessments, DriftRisks} {
			id := Identity{Digest: digest, Engine: "test"}
			written, err := AppendAnswer([]byte("before"), endpoint, id, request, answer)
			require.NoError(t, err)
			assert.Equal(t, "before"+appended(t, NewAnswer(endpoint, id, request, answer)), string(written))
		}
	}
}
