package api

import (
	"context"
	"fmt"

	"tractcheck/api/wire"
	"tractcheck/feasibility"
)

// SprayHours answers which hours let a mission be flown, as POST /v1/spray-hours does. The error is a
// *Problem where the body is at fault.
func (d *Desk) SprayHours(body []byte) (Reply, error) {
	return d.sprayHours(context.Background(), body)
}

func (d *Desk) sprayHours(ctx context.Context, body []byte) (Reply, error) {
	request, mission, hours, digest, faults := d.reader.ReadSprayHours(body)
	if len(faults) > 0 {
		return Reply{}, faulty(faults)
	}
	if err := ctx.Err(); err != nil {
		return Reply{}, err
	}
	answer, err := feasibility.AssessHours(mission, hours)
	if err != nil {
		return Reply{}, fmt.Errorf("judging the hours: %w", err)
	}
	identity := wire.Identity{Digest: digest, Engine: d.engine}
	return written(wire.SprayHours, wire.NewSprayHours(identity, request, answer), feasibility.Answer{Findings: answer.Findings})
}
