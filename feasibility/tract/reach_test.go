package tract

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tractcheck/feasibility/units"
)

// To 5 cm: the plane of a field has its north at the middle of the field.
func TestReach(t *testing.T) {
	t.Parallel()
	strip := Field{Boundary: []Polygon{placed(box(0, 0, 400, 100))}}
	parted := Field{Boundary: []Polygon{placed(box(0, 0, 100, 100)), placed(box(300, 0, 400, 100))}}
	aside := Field{Boundary: []Polygon{placed(box(0, 0, 100, 100)), placed(box(300, 150, 420, 250))}}
	holed := Field{Boundary: []Polygon{placed(box(0, 0, 400, 100), box(50, 20, 350, 80))}}
	for _, c := range []struct {
		name          string
		field         Field
		bearing       units.Angle
		along, across float64
		longest       float64
	}{
		{"along the strip", strip, 90 * units.Degree, 400, 100, math.Hypot(400, 100)},
		{"back along the strip", strip, 270 * units.Degree, 400, 100, math.Hypot(400, 100)},
		{"across the strip", strip, 0, 100, 400, math.Hypot(400, 100)},
		{"slanting over the strip", strip, 45 * units.Degree, 100 * math.Sqrt2, 500 / math.Sqrt2, math.Hypot(400, 100)},
		{"corner to corner", strip, units.Angle(math.Atan2(400, 100)), math.Hypot(400, 100), 2 * 400 * 100 / math.Hypot(400, 100), math.Hypot(400, 100)},
		{"the gap between two parcels in line counts", parted, 90 * units.Degree, 400, 100, math.Hypot(400, 100)},
		{"parcels side by side are one outline", aside, 0, 156.25, 420, math.Hypot(420, 250)},
		{"a hole counts", holed, 90 * units.Degree, 400, 100, math.Hypot(400, 100)},
	} {
		got, ok := c.field.Reach(units.Bearing(c.bearing))
		require.True(t, ok, c.name)
		assert.InDelta(t, c.along, got.Along.SI(), 0.05, c.name)
		assert.InDelta(t, c.across, got.Across.SI(), 0.05, c.name)
		assert.GreaterOrEqual(t, got.Longest.SI(), c.longest-0.05, c.name)
		assert.LessOrEqual(t, got.Longest.SI(), math.Sqrt2*c.longest+0.05, c.name)
		planned, ok := Fly(c.field, tankJob(1)).Reach(units.Bearing(c.bearing))
		require.True(t, ok, c.name)
		assert.Equal(t, got, planned, c.name)
	}
}

// On random ragged ground the outline reaches no less far on any line than the ground does, as the slabs of
// the map find it, and as far across.
func TestReach_holdsTheGround(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		var g ground
		for range rapid.IntRange(1, 3).Draw(t, "parcels") {
			x, y := rapid.Float64Range(-900, 900).Draw(t, "x"), rapid.Float64Range(-900, 900).Draw(t, "y")
			ring := orb.Ring(star(t, "parcel", x, y, 20, 300))
			g.tract = append(g.tract, append(ring, ring[0]))
		}
		g.outline = outline(g.tract)
		bearing := rapid.Float64Range(0, 2*math.Pi).Draw(t, "bearing")
		got, ok := g.reach(units.Bearing(bearing))
		require.True(t, ok)
		longest, first, last := 0.0, math.Inf(1), math.Inf(-1)
		sin, cos := math.Sincos(bearing)
		whole := func(inside, _, out []interval) []interval { return append(out, inside...) }
		slabs(newFrame(math.Atan2(cos, sin)), g.tract, nil, whole, func(bottom, top []interval, low, high float64) {
			first, last = min(first, low), max(last, high)
			for _, line := range [2][]interval{bottom, top} {
				if n := len(line); n > 0 {
					longest = max(longest, line[n-1].to-line[0].from)
				}
			}
		})
		require.GreaterOrEqual(t, got.Along.SI(), longest-1e-6)
		require.InDelta(t, last-first, got.Across.SI(), 1e-6)
		require.GreaterOrEqual(t, got.Longest, got.Along)
		around := ground{outline: g.outline, tract: region{append(orb.Ring(g.outline), g.outline[0])}}
		again, ok := around.reach(units.Bearing(bearing))
		require.True(t, ok)
		require.Equal(t, got, again)
		require.True(t, len(g.outline) < 4 || convex(around.tract[0]))
	})
}

// What has no place on the map reaches nowhere that is known.
func TestReach_notKnown(t *testing.T) {
	t.Parallel()
	side := 200 * units.Meter
	for name, f := range map[string]Field{"sides only": {Length: &side, Width: &side}, "nothing": {}} {
		_, ok := f.Reach(0)
		assert.False(t, ok, name)
		_, ok = Fly(f, tankJob(1)).Reach(0)
		assert.False(t, ok, name)
	}
}
