package tract

import (
	"testing"
	"time"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"

	"tractcheck/feasibility/units"
)

// comb makes a ring of many teeth along x.
func comb(teeth int, x0, y0, width, height float64) []orb.Point {
	out := []orb.Point{{x0, y0}}
	for i := range teeth {
		x := x0 + width*float64(i)/float64(teeth)
		step := width / float64(teeth)
		out = append(out, orb.Point{x + step*0.3, y0 + height}, orb.Point{x + step*0.6, y0 + height*0.1})
	}
	return append(out, orb.Point{x0 + width, y0 + height*0.05}, orb.Point{x0 + width, y0})
}

// TestTangledGroundIsBounded: thousands of positions, in two combs that cross
// each other thousands of times.
func TestTangledGroundIsBounded(t *testing.T) {
	t.Parallel()
	field := Field{
		Boundary: []Polygon{placed(comb(1500, 0, 0, 5000, 3000))},
		KeepOuts: []Polygon{placed(comb(700, 100, 100, 4500, 2000))},
	}
	job := tankJob(1)
	job.Swath = 30 * units.Centimeter
	start := time.Now()
	plan := Fly(field, job)
	// Generous, for a busy machine; the point is that it ends.
	assert.Less(t, time.Since(start), time.Minute)
	t.Log(time.Since(start))
	a := plan.Accounting
	assert.InEpsilon(t, a.Tract.SI(), (a.Sprayed + a.Unsprayed + a.KeepOuts).SI(), 1e-9)
}
