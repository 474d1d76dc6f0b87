package wire_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/api/wire"
	"tractcheck/feasibility"
)

// answerHours and answerComparison answer a body as the service does.
func answerHours(t testing.TB, reader *wire.Reader, body []byte) any {
	t.Helper()
	request, mission, hours, digest, faults := reader.ReadSprayHours(body)
	require.Empty(t, faults)
	answer, err := feasibility.AssessHours(mission, hours)
	require.NoError(t, err)
	return wire.NewSprayHours(wire.Identity{Digest: digest, Engine: exampleEngine}, request, answer)
}

func answerComparison(t testing.TB, reader *wire.Reader, body []byte) any {
	t.Helper()
	setUps, digest, faults := reader.ReadComparison(body)
	require.Empty(t, faults)
	assessed := make([]feasibility.SetUp, len(setUps))
	for i, s := range setUps {
		answer, err := feasibility.Assess(s.Mission)
		require.NoError(t, err)
		assessed[i] = feasibility.SetUp{Label: s.Label, Answer: answer}
	}
	return wire.NewComparison(wire.Identity{Digest: digest, Engine: exampleEngine}, setUps, feasibility.Compare(assessed))
}

// The answers printed in the contract for many hours and for many set-ups are the program's own, cut short.
func TestDecisionAnswerExamplesAreTrue(t *testing.T) {
	document := documentOf(t)
	reader, err := wire.NewReader(exampleEngine)
	require.NoError(t, err)
	for _, e := range []struct {
		request, replies string
		answer           func(testing.TB, *wire.Reader, []byte) any
	}{
		{"SprayHoursMorning", "SprayHoursAnswer", answerHours},
		{"ComparisonOfThree", "ComparisonAnswer", answerComparison},
	} {
		body, err := json.Marshal(document[e.request].Value)
		require.NoError(t, err)
		text, err := json.Marshal(e.answer(t, reader, body))
		require.NoError(t, err)
		want := shorten(t, text)
		if *updateExamples {
			replaceExample(t, e.replies, want)
			continue
		}
		got, err := json.Marshal(document[e.replies].Value)
		require.NoError(t, err)
		again, err := json.Marshal(plain(want))
		require.NoError(t, err)
		assert.JSONEq(t, string(again), string(got), "%s: run go test ./api/wire -run AnswerExamples -update-examples", e.replies)
	}
}
