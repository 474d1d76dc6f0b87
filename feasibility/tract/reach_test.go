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
	holed := Field{Boundary: []Polygon{placed(box(0, 0, 400, 100), box(50, 20, 350, 80))}}
	for _, c := range []struct {
		name    string
		field   Field
		bearing units.Angle
		want    float64
	}{
		{"along the strip", strip, 90 * units.Degree, 400},
		{"back along the strip", strip, 270 * units.Degree, 400},
		{"across the strip", strip, 0, 100},
		{"slanting, corner to corner", strip, 45 * units.Degree, 500 / math.Sqrt2},
		{"the gap between two parcels counts", parted, 90 * units.Degree, 400},
		{"a hole counts", holed, 90 * units.Degree, 400},
	} {
		got, ok := c.field.Reach(units.Bearing(c.bearing))
		require.True(t, ok, c.name)
		assert.InDelta(t, c.want, got.SI(), 0.05, c.name)
		plan := Fly(c.field, tankJob(1))
		planned, ok := plan.Reach(units.Bearing(c.bearing))
		require.True(t, ok, c.name)
		assert.InDelta(t, c.want, planned.SI(), 0.05, c.name)
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
