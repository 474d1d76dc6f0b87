package api

import (
	"context"
	"fmt"

	"tractcheck/api/wire"
	"tractcheck/feasibility"
)

// Compare ranks set-ups of one mission, as POST /v1/comparisons does. The error is a *Problem where the
// body is at fault.
func (d *Desk) Compare(body []byte) (Reply, error) { return d.compare(context.Background(), body) }

// compare assesses set-up by set-up; between two it looks whether there is time left.
func (d *Desk) compare(ctx context.Context, body []byte) (Reply, error) {
	setUps, digest, faults := d.reader.ReadComparison(body)
	if len(faults) > 0 {
		return Reply{}, faulty(faults)
	}
	var sharing feasibility.SetUps
	assessed := make([]feasibility.SetUp, len(setUps))
	for i, s := range setUps {
		if err := ctx.Err(); err != nil {
			return Reply{}, err
		}
		answer, err := sharing.Assess(s.Mission)
		if err != nil {
			return Reply{}, fmt.Errorf("assessing set-up %d: %w", i, err)
		}
		assessed[i] = feasibility.SetUp{Label: s.Label, Answer: answer}
	}
	comparison := feasibility.Compare(assessed)
	identity := wire.Identity{Digest: digest, Engine: d.engine}
	counted := feasibility.Answer{Findings: comparison.Findings}
	if len(comparison.Ranked) > 0 {
		counted.Verdict = comparison.Ranked[0].Verdict
	}
	return written(wire.Comparisons, wire.NewComparison(identity, setUps, comparison), counted)
}
