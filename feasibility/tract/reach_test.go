package tract

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

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
		{"parcels side by side do not add up", aside, 90 * units.Degree, 120, 250, math.Hypot(420, 250)},
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
