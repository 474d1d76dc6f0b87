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

// A width that is not known counts as one without ends; a swath is the least; in a calm no side is known
// to lie along the wind, so the field counts as lying the long way, without ends.
func TestExtent(t *testing.T) {
	t.Parallel()
	at := func(change func(*Input)) (along, across, turned float64) {
		in := job(fairDay())
		in.Ground = Ground{}
		change(&in)
		return extent(in), extentAcross(in), extentTurned(in)
	}
	swath := job(fairDay()).Release.Swath.SI()
	side := func(m float64) *units.Length { return new(units.Length(m)) }
	for _, c := range []struct {
		name                  string
		change                func(*Input)
		along, across, turned float64
	}{
		{"nothing stated", func(*Input) {}, defaultLength.SI(), 0, 0},
		{"on the map", func(in *Input) { in.Ground = Ground{Along: side(90), Across: side(700), Longest: side(720)} }, 90, 700, 0},
		{"on the map, in a calm", func(in *Input) {
			in.WindSpeed = 1 * units.MilePerHour
			in.Ground = Ground{Along: side(90), Across: side(700), Longest: side(720)}
		}, 720, 0, 0},
		{"two sides", func(in *Input) { in.Ground = Ground{Longest: side(700), Shortest: side(90)} }, 700, 90, 90},
		{"less than a swath", func(in *Input) { in.Ground = Ground{Along: side(0.1), Across: side(0.1)} }, swath, swath, 0},
		{"no number", func(in *Input) { in.Ground = Ground{Along: side(50), Across: side(math.NaN())} }, 50, swath, 0},
	} {
		along, across, turned := at(c.change)
		assert.InDelta(t, c.along, along, 1e-9, c.name)
		assert.InDelta(t, c.across, across, 1e-9, c.name)
		assert.InDelta(t, c.turned, turned, 1e-9, c.name)
	}
}

// A rectangle whose lie is not known never lays down less than with either side along the wind.
func TestDeposit_ofARectangleIsThatOfTheWorseLie(t *testing.T) {
	t.Parallel()
	for _, sides := range [][2]float64{{1000, 10}, {400, 20}, {300, 200}} {
		for _, fan := range []float64{0.04, 0.08, 0.22} {
			lie := func(width, turned float64) *landing {
				f := line(3, 4, 250)
				f.width, f.fan, f.turned = width, fan, turned
				return f.land(1200, fine)
			}
			long, short := sides[0], sides[1]
			either, one, other := lie(short, short), lie(short, 0), lie(long, 0)
			for _, x := range distances {
				assert.GreaterOrEqual(t, either.deposit(x.SI(), long), one.deposit(x.SI(), long))
				assert.GreaterOrEqual(t, either.deposit(x.SI(), long), other.deposit(x.SI(), short))
			}
		}
	}
}
