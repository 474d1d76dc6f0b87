package drift

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/air"
	"tractcheck/feasibility/units"
)

// Briggs (1973) at 100 m, worked out beside the formula in the research notes: D 7.96 m, F 3.98 m.
func TestFanOut_briggsAt100Meters(t *testing.T) {
	t.Parallel()
	for class, want := range map[air.Stability]float64{air.Neutral: 7.96, air.Stable: 3.98} {
		assert.InEpsilon(t, want, 100*fanOut(class), 0.01, class)
	}
	assert.Equal(t, fanOut(air.Stable), fanOut(""), "unknown air keeps a plume together")
}

// The deposit opposite the middle of a strip against the sum over its area of plumes that are normal
// across the wind, by quadrature over the field in both directions.
func TestDeposit_ofAStripIsTheSumOverItsArea(t *testing.T) {
	t.Parallel()
	const length, fan = 200.0, 0.08
	for _, width := range []float64{5, 20, 100} {
		f := line(3, 4, 250)
		f.width, f.fan = width, fan
		l := f.land(1200, fine)
		wide := line(3, 4, 250).land(1200, fine)
		for _, x := range []float64{10, 50, 150} {
			sum := 0.0
			const rows, columns = 4000, 400
			for i := range rows {
				at := x + (float64(i)+0.5)*length/rows
				landed := wide.within(at+length/rows/2) - wide.within(at-length/rows/2)
				across, sigma := 0.0, fan*at
				for j := range columns {
					y := ((float64(j)+0.5)/columns - 0.5) * width
					across += math.Exp(-y*y/(2*sigma*sigma)) / (sigma * math.Sqrt(2*math.Pi)) * width / columns
				}
				sum += landed * across
			}
			require.InEpsilon(t, sum, l.deposit(x, length), 0.02, "%v m wide, at %v m", width, x)
		}
	}
}

// A narrower field never lays down more, and one as wide as a county as much as one without ends.
func TestDeposit_narrowerIsNeverMore(t *testing.T) {
	t.Parallel()
	without := line(3, 4, 250).land(1200, fine)
	last := without
	for _, width := range []float64{50e3, 800, 200, 50, 10, 2} {
		f := line(3, 4, 250)
		f.width, f.fan = width, fanOut(air.Neutral)
		l := f.land(1200, fine)
		for _, x := range distances {
			assert.LessOrEqual(t, l.deposit(x.SI(), 300), last.deposit(x.SI(), 300), "%v m wide", width)
			if width == 50e3 {
				assert.InEpsilon(t, without.deposit(x.SI(), 300), l.deposit(x.SI(), 300), 1e-6)
			}
		}
		assert.InDelta(t, without.beyond(300), l.beyond(300), 1e-12, "what leaves the field leaves it all the same")
		last = l
	}
}

// A width that is not known, not a number or nothing counts as one without ends.
func TestWidthOf(t *testing.T) {
	t.Parallel()
	nothing, unsure, some := units.Length(0), units.Length(math.NaN()), 30*units.Meter
	assert.Zero(t, widthOf(Ground{}))
	assert.Zero(t, widthOf(Ground{Across: &nothing}))
	assert.Zero(t, widthOf(Ground{Across: &unsure}))
	assert.InDelta(t, 30, widthOf(Ground{Across: &some}), 1e-9)
}
