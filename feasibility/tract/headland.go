package tract

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"tractcheck/feasibility/units"
)

// mostHeadlands is the most passes round the edge that are laid. Own choice.
const mostHeadlands = 4

// Headland is the passes round the edge: those that are flown, or what one pass, half a swath inside
// every outer side, would cost.
type Headland struct {
	Passes units.Count    // flown; 0: an offer of one pass, not a part of the plan
	Length units.Length   // of the passes
	Time   units.Duration // at the job's speed, with a turn at every sharp corner
	Volume units.Volume   // at the job's rate; of an offer, what the lines save where they end a swath earlier is not taken off
	Missed units.Area     // ground that no swath reaches, at the edge and beside keep-outs
	Costs  []HeadlandCost // of the job with and without the passes; empty for an offer
}

// HeadlandCost is what the whole job costs with a number of passes round the edge.
type HeadlandCost struct {
	Passes     units.Count
	Length     units.Length // of all lines and passes
	Turns      units.Count
	FlightTime units.Duration // of the way not flown, with the sorties and ferries of the way that is
	Volume     units.Volume
	Missed     units.Area // ground that no swath reaches
	PastEdge   units.Area // swath outside of the tract
	Twice      units.Area // ground under more than one swath
}

// sharp is the turn from which a corner of the pass costs a turn. Own choice.
const sharp = 30 * units.Degree

// headland reports the passes round the edge. Where none are flown it is an offer of one, where the lines
// leave ragged ends or break; empty where they do not, or where there is no map.
func headland(on *laid, b *rivals, p *path, plan *Plan, job *Job, t turning) Headland {
	g := on.ground
	if g.band.width > 0 {
		return flownHeadland(on, b, p, plan, job, t)
	}
	missed := plan.Accounting.Unsprayed - plan.Accounting.Strips
	ragged := units.Proportion(missed.SI()/g.area) > shareOfGround || units.Proportion(plan.SprayedPastEdge.SI()/g.area) > shareOfGround
	if !g.mapped || (!ragged && p.gaps == 0) {
		return Headland{}
	}
	length, corners := offered(g, t.swath)
	if !(length > 0) {
		return Headland{}
	}
	return Headland{
		Length: units.Length(length),
		Time:   units.Duration(length/t.speed + float64(corners)*t.turn),
		Volume: job.Rate.Over(units.Length(length).By(job.Swath)),
		Missed: missed,
	}
}

// flownHeadland reports the passes that are flown, beside the job without them.
func flownHeadland(on *laid, b *rivals, p *path, plan *Plan, job *Job, t turning) Headland {
	g := on.ground
	h := Headland{
		Passes: units.Count(math.Round(g.band.width / t.swath)),
		Length: units.Length(g.band.length),
		Volume: job.Rate.Over(units.Length(g.band.length).By(job.Swath)),
		Missed: plan.Accounting.Unsprayed - plan.Accounting.Strips,
	}
	for _, leg := range p.legs[len(on.layout.runs):] {
		h.Time += units.Duration(p.long(leg)/t.speed + leg.hop)
	}
	with := headlandCost(p, job)
	with.Passes, with.FlightTime, with.Missed, with.PastEdge = h.Passes, plan.FlightTime, h.Missed, plan.SprayedPastEdge
	with.Twice = max(0, plan.Treated-plan.SprayedPastEdge-plan.Accounting.Sprayed)
	h.Costs = append(h.Costs, with)
	if b.flat == nil {
		return h
	}
	flat := join(b.flat, t, nil)
	without := headlandCost(&flat, job)
	without.PastEdge = units.Area(b.outside)
	without.Twice = max(0, units.Area(b.flat.length*b.flat.swath-b.outside-b.sprayed))
	without.Missed = max(0, plan.Accounting.Tract-plan.Accounting.KeepOuts-plan.Accounting.Strips-units.Area(b.sprayed))
	if plan.Feasible {
		// The ferries and climbs of the plan stand for those of the other way too.
		spare := plan.FlightTime.SI() - p.seconds(t)
		without.FlightTime = units.Duration(max(0, flat.seconds(t)+spare))
	}
	h.Costs = append(h.Costs, without)
	return h
}

// headlandCost counts a path.
func headlandCost(p *path, job *Job) HeadlandCost {
	length := units.Length(p.length)
	return HeadlandCost{Length: length, Turns: units.Count(max(0, len(p.legs)-1)), Volume: job.Rate.Over(length.By(job.Swath))}
}

// seconds reports how long a path takes from end to end, with its turns.
func (p *path) seconds(t turning) float64 {
	sum := p.length / t.speed
	for _, leg := range p.legs {
		sum += leg.hop
	}
	return sum
}

// offered reports the length of one pass round the outer sides, and its sharp corners.
//
// The length of a ring moved inward by half a swath is its perimeter less swath x tan(turn/2) at every
// corner, turns to the right counted negative: for a rectangle the perimeter less 4 swaths.
func offered(g *ground, swath float64) (length float64, corners int) {
	outers, _ := g.tract.sorted()
	for _, ring := range outers {
		ringLength, turns := inset(ring, swath)
		length, corners = length+ringLength, corners+turns
	}
	return length, corners
}

// inset reports the length of a counter-clockwise ring moved inward by half a swath, and its sharp
// corners. It is never less than nothing.
func inset(ring orb.Ring, swath float64) (length float64, corners int) {
	n := len(ring) - 1
	for i := range n {
		a, b, c := ring[i], ring[(i+1)%n], ring[(i+2)%n]
		x0, y0, x1, y1 := b[0]-a[0], b[1]-a[1], c[0]-b[0], c[1]-b[1]
		turn := math.Atan2(x0*y1-y0*x1, x0*x1+y0*y1)
		length += planar.Distance(a, b) - swath*math.Tan(max(-1.5, min(1.5, turn/2))) // own bound at a spike
		if math.Abs(turn) >= sharp.SI() {
			corners++
		}
	}
	return max(0, length), corners
}
