package tract

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"tractcheck/feasibility/units"
)

// Headland is what one pass round the edge would cost: half a swath inside every outer side. It is an
// offer, not a part of the plan.
type Headland struct {
	Length units.Length
	Time   units.Duration // at the job's speed, with a turn at every sharp corner
	Volume units.Volume   // at the job's rate; what the lines save where they end a swath earlier is not taken off
	Missed units.Area     // ground that no swath reaches now, at the edge and beside keep-outs
}

// sharp is the turn from which a corner of the pass costs a turn. Own choice.
const sharp = 30 * units.Degree

// headland reports the pass round the edge, where the lines leave ragged ends or break; nil where
// they do not, or where there is no map.
//
// The length of a ring moved inward by half a swath is its perimeter less swath x tan(turn/2) at every
// corner, turns to the right counted negative: for a rectangle the perimeter less 4 swaths.
func headland(g ground, plan Plan, job Job, t turning, gaps int) *Headland {
	missed := plan.Accounting.Unsprayed - plan.Accounting.Strips
	ragged := units.Proportion(missed.SI()/g.area) > shareOfGround || units.Proportion(plan.SprayedPastEdge.SI()/g.area) > shareOfGround
	if !g.mapped || (!ragged && gaps == 0) {
		return nil
	}
	length, corners := 0.0, 0
	outers, _ := g.tract.sorted()
	for _, ring := range outers {
		ringLength, turns := inset(ring, t.swath)
		length, corners = length+ringLength, corners+turns
	}
	if !(length > 0) {
		return nil
	}
	return &Headland{
		Length: units.Length(length),
		Time:   units.Duration(length/t.speed + float64(corners)*t.turn),
		Volume: job.Rate.Over(units.Length(length).By(job.Swath)),
		Missed: missed,
	}
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
