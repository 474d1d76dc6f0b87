package wire

import (
	"encoding/json"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tractcheck/feasibility/tract"
	"tractcheck/feasibility/units"
)

// ring is a closed ring of positions in degrees.
func ring(positions ...[2]float64) []any {
	out := []any{}
	for _, p := range append(positions, positions[0]) {
		out = append(out, []any{p[0], p[1]})
	}
	return out
}

func squareRing(west, south, side float64) []any {
	return ring([2]float64{west, south}, [2]float64{west + side, south}, [2]float64{west + side, south + side}, [2]float64{west, south + side})
}

func polygon(rings ...[]any) map[string]any {
	return map[string]any{"type": "Polygon", "coordinates": rings}
}

func square(west, south, side float64) map[string]any { return polygon(squareRing(west, south, side)) }

// withBoundary reads the levee mission with a boundary in the place of its length and width.
func withBoundary(t testing.TB, boundary any, more ...edit) (tract.Field, []Fault) {
	t.Helper()
	edits := append([]edit{{"/field/length", nil}, {"/field/width", nil}, {"/field/boundary", boundary}}, more...)
	m, faults := readEdited(t, Assessments, edits...)
	return m.Field.Ground, faults
}

func TestGeometryIsRead(t *testing.T) {
	t.Parallel()
	ground, faults := withBoundary(t, square(-91, 33.4, 0.01))
	require.Empty(t, faults)
	require.Len(t, ground.Boundary, 1)
	first := ground.Boundary[0][0][0]
	assert.InDelta(t, -91, first.Longitude.In(units.Degree), 1e-12)
	assert.InDelta(t, 33.4, first.Latitude.In(units.Degree), 1e-12)

	clockwise := polygon(ring([2]float64{-91, 33.4}, [2]float64{-91, 33.41}, [2]float64{-90.99, 33.41}, [2]float64{-90.99, 33.4}))
	_, faults = withBoundary(t, clockwise)
	assert.Empty(t, faults, "either winding")

	high := polygon([]any{[]any{-91.0, 33.4, 40.0}, []any{-90.99, 33.4, 41.0}, []any{-90.99, 33.41, 42.0}, []any{-91.0, 33.4, 40.0}})
	_, faults = withBoundary(t, high)
	assert.Empty(t, faults, "a height is left out")

	ground, faults = withBoundary(t, map[string]any{"type": "MultiPolygon", "coordinates": []any{
		[]any{squareRing(-91, 33.4, 0.01), squareRing(-90.997, 33.403, 0.002)}, []any{squareRing(-91.1, 33.4, 0.01)},
	}})
	require.Empty(t, faults)
	require.Len(t, ground.Boundary, 2)
	assert.Len(t, ground.Boundary[0], 2, "a hole")

	ground, faults = withBoundary(t, square(-91, 33.4, 0.01),
		edit{"/field/keep_outs", square(-90.997, 33.403, 0.002)},
		edit{"/field/launch_point", map[string]any{"type": "Point", "coordinates": []any{-91.001, 33.4}}})
	require.Empty(t, faults)
	assert.Len(t, ground.KeepOuts, 1)
	require.NotNil(t, ground.LaunchPoint)
	assert.InDelta(t, -91.001, ground.LaunchPoint.Longitude.In(units.Degree), 1e-12)
}

func TestBadGeometry(t *testing.T) {
	t.Parallel()
	open := squareRing(-91, 33.4, 0.01)
	open = open[:4]
	bow := ring([2]float64{-91, 33.4}, [2]float64{-90.99, 33.41}, [2]float64{-90.99, 33.4}, [2]float64{-91, 33.41})
	for name, tc := range map[string]struct {
		boundary any
		want     string
	}{
		"open ring":            {polygon(open), "/field/boundary/coordinates/0 bad_geometry"},
		"two corners":          {polygon(ring([2]float64{-91, 33.4}, [2]float64{-91, 33.5})), "/field/boundary/coordinates/0 bad_geometry"},
		"crossing itself":      {polygon(bow), "/field/boundary/coordinates bad_geometry"},
		"hole across the edge": {polygon(squareRing(-91, 33.4, 0.01), squareRing(-90.995, 33.405, 0.01)), "/field/boundary/coordinates bad_geometry"},
		"hole outside":         {polygon(squareRing(-91, 33.4, 0.01), squareRing(-90.97, 33.4, 0.005)), "/field/boundary/coordinates bad_geometry"},
		"hole in a hole":       {polygon(squareRing(-91, 33.4, 0.01), squareRing(-90.998, 33.402, 0.006), squareRing(-90.996, 33.404, 0.002)), "/field/boundary/coordinates bad_geometry"},
		"one polygon twice":    {map[string]any{"type": "MultiPolygon", "coordinates": []any{[]any{squareRing(-91, 33.4, 0.01)}, []any{squareRing(-91, 33.4, 0.01)}}}, "/field/boundary/coordinates bad_geometry"},
		"polygons overlap":     {map[string]any{"type": "MultiPolygon", "coordinates": []any{[]any{squareRing(-91, 33.4, 0.01)}, []any{squareRing(-90.995, 33.4, 0.01)}}}, "/field/boundary/coordinates bad_geometry"},
		"latitude first":       {square(33.4, -91.5, 0.01), "/field/boundary/coordinates/0/0 bad_geometry"},
		"longitude over 180":   {square(180.5, 33.4, 0.01), "/field/boundary/coordinates/0/0 bad_geometry"},
		"across the meridian":  {polygon(ring([2]float64{179.99, 33.4}, [2]float64{-179.99, 33.4}, [2]float64{-179.99, 33.41}, [2]float64{179.99, 33.41})), "/field/boundary/coordinates/0 bad_geometry"},
		"no ground":            {polygon(ring([2]float64{-91, 33.4}, [2]float64{-91, 33.41}, [2]float64{-91, 33.42})), "/field/boundary/coordinates/0 bad_geometry"},
		"one point":            {polygon(ring([2]float64{-91, 33.4}, [2]float64{-91, 33.4}, [2]float64{-91, 33.4})), "/field/boundary/coordinates/0 bad_geometry"},
		"a county":             {square(-91, 33.4, 0.6), "/field/boundary/coordinates bad_geometry"},
		"position of one":      {polygon([]any{[]any{-91.0}, []any{-90.0, 33.0}, []any{-90.0, 34.0}, []any{-91.0}}), "/field/boundary/coordinates/0/0 bad_geometry"},
		"position of four":     {polygon([]any{[]any{-91.0, 33.4, 0, 0}, []any{-90.0, 33.0}, []any{-90.0, 34.0}, []any{-91.0, 33.4}}), "/field/boundary/coordinates/0/0 bad_geometry"},
		"no rings":             {polygon(), "/field/boundary/coordinates bad_geometry"},
		"an empty ring":        {polygon([]any{}), "/field/boundary/coordinates/0 bad_geometry"},
		"no polygons":          {map[string]any{"type": "MultiPolygon", "coordinates": []any{}}, "/field/boundary/coordinates bad_geometry"},
		"an empty polygon":     {map[string]any{"type": "MultiPolygon", "coordinates": []any{[]any{}}}, "/field/boundary/coordinates/0 bad_geometry"},
		"too deep":             {map[string]any{"type": "Polygon", "coordinates": []any{[]any{squareRing(-91, 33.4, 0.01)}}}, "/field/boundary/coordinates bad_geometry"},
		"not deep enough":      {map[string]any{"type": "MultiPolygon", "coordinates": []any{squareRing(-91, 33.4, 0.01)}}, "/field/boundary/coordinates bad_geometry"},
		"a null":               {polygon([]any{[]any{nil, 33.4}, []any{-90.99, 33.4}, []any{-90.99, 33.41}, []any{nil, 33.4}}), "/field/boundary/coordinates bad_geometry"},
		"a text in a position": {polygon([]any{[]any{"-91", 33.4}, []any{-90.99, 33.4}, []any{-90.99, 33.41}, []any{"-91", 33.4}}), "/field/boundary/coordinates bad_geometry"},
		"text":                 {map[string]any{"type": "Polygon", "coordinates": "here"}, "/field/boundary/coordinates bad_geometry"},
		"a line":               {map[string]any{"type": "LineString", "coordinates": squareRing(-91, 33.4, 0.01)}, "/field/boundary/type not_in_list"},
		"no type":              {map[string]any{"coordinates": []any{squareRing(-91, 33.4, 0.01)}}, "/field/boundary/type missing_member"},
		"no coordinates":       {map[string]any{"type": "Polygon"}, "/field/boundary/coordinates missing_member"},
		"second of two":        {map[string]any{"type": "MultiPolygon", "coordinates": []any{[]any{squareRing(-91, 33.4, 0.01)}, []any{bow}}}, "/field/boundary/coordinates/1 bad_geometry"},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			ground, faults := withBoundary(t, tc.boundary)
			assert.Equal(t, []string{tc.want}, brief(faults))
			assert.Nil(t, ground.Boundary)
			_, err := json.Marshal(faults)
			assert.NoError(t, err)
		})
	}
}

func TestGeometryAgainstTheOtherFacts(t *testing.T) {
	t.Parallel()
	// A square of a hundredth of a degree at 33.4 degrees north: about 103.3 ha.
	for name, tc := range map[string]struct {
		more []edit
		want []string
	}{
		"area agrees":        {[]edit{{"/field/area", of(103, "ha")}}, []string{}},
		"area of the net":    {[]edit{{"/field/keep_outs", square(-90.998, 33.402, 0.005)}, {"/field/area", of(77.5, "ha")}}, []string{}},
		"area far off":       {[]edit{{"/field/area", of(103, "ac")}}, []string{"/field/area conflict"}},
		"launch point near":  {[]edit{{"/field/launch_point", map[string]any{"type": "Point", "coordinates": []any{-90.9, 33.5}}}}, []string{}},
		"launch point far":   {[]edit{{"/field/launch_point", map[string]any{"type": "Point", "coordinates": []any{-90.0, 33.4}}}}, []string{"/field/launch_point conflict"}},
		"launch point wrong": {[]edit{{"/field/launch_point", map[string]any{"type": "Point", "coordinates": []any{33.4, -91.0}}}}, []string{"/field/launch_point/coordinates bad_geometry"}},
		"weather near":       {[]edit{{"/weather/longitude", of(-90.2, "deg")}}, []string{}},
		"weather far off":    {[]edit{{"/weather/longitude", of(91, "deg")}}, []string{"/weather/longitude conflict"}},
		"launch point short": {[]edit{{"/field/launch_point", map[string]any{"type": "Point", "coordinates": []any{33.4}}}}, []string{"/field/launch_point/coordinates too_long_or_short"}},
	} {
		_, faults := withBoundary(t, square(-91, 33.4, 0.01), tc.more...)
		assert.Equal(t, tc.want, brief(faults), name)
	}
}

// circle is a ring of n positions around a point.
func circle(n int, radius float64) []any {
	positions := make([][2]float64, n)
	for i := range positions {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		positions[i] = [2]float64{-91 + radius*cos, 33.4 + radius*sin}
	}
	return ring(positions...)
}

func TestPositionsAreCapped(t *testing.T) {
	t.Parallel()
	_, faults := withBoundary(t, polygon(circle(9999, 0.05)))
	assert.Empty(t, faults, "10,000 positions with the closing one")
	_, faults = withBoundary(t, polygon(circle(10000, 0.05)))
	assert.Equal(t, []string{"/field/boundary/coordinates bad_geometry"}, brief(faults))
	_, faults = withBoundary(t, polygon(circle(6000, 0.05)), edit{"/field/keep_outs", polygon(circle(6000, 0.01))})
	assert.Equal(t, []string{"/field/keep_outs/coordinates bad_geometry"}, brief(faults))
}

// comb is the worst case of the sweep: long teeth side by side, all overlapping from west to east.
func comb(n int) tract.Polygon {
	var out tract.Ring
	for i := range n / 2 {
		y := units.Angle(i) * 1e-6
		x := units.Angle(i%2) * 0.005
		out = append(out, tract.Position{Longitude: x, Latitude: y}, tract.Position{Longitude: 0.005 - x, Latitude: y})
	}
	out = append(out, tract.Position{Longitude: -0.001, Latitude: out[len(out)-1].Latitude}, tract.Position{Longitude: -0.001, Latitude: 0}, out[0])
	return tract.Polygon{out}
}

func TestCrossingIsBounded(t *testing.T) {
	t.Parallel()
	start := time.Now()
	_, _, crossed := crossing(comb(mostPositions - 4))
	assert.False(t, crossed)
	assert.Less(t, time.Since(start), time.Minute, "0.2 s on an idle processor; a busy one may be tens of times slower")
}

func BenchmarkCrossing(b *testing.B) {
	polygon := comb(mostPositions - 4)
	b.ReportAllocs()
	for b.Loop() {
		crossing(polygon)
	}
}

// A star-shaped ring never crosses itself; exchanging two corners that are not neighbors of a
// convex ring always makes it cross.
func TestCrossingFindsWhatCrosses(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(5, 60).Draw(t, "corners")
		star, convex := make(tract.Ring, n), make(tract.Ring, n)
		for i := range n {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			r := units.Angle(rapid.Float64Range(1e-5, 1e-4).Draw(t, "radius"))
			star[i] = tract.Position{Longitude: r * units.Angle(cos), Latitude: r * units.Angle(sin)}
			convex[i] = tract.Position{Longitude: 1e-4 * units.Angle(cos), Latitude: 1e-4 * units.Angle(sin)}
		}
		if a, b, crossed := crossing(tract.Polygon{append(star, star[0])}); crossed {
			t.Fatalf("a star crosses at %v and %v", a, b)
		}
		i := rapid.IntRange(0, n-3).Draw(t, "exchanged")
		convex[i], convex[i+1] = convex[i+1], convex[i]
		if _, _, crossed := crossing(tract.Polygon{append(convex, convex[0])}); !crossed {
			t.Fatal("a bow was not found")
		}
	})
}

func TestTouchingIsNotCrossing(t *testing.T) {
	t.Parallel()
	degrees := func(positions ...[2]float64) tract.Ring {
		var out tract.Ring
		for _, p := range append(positions, positions[0]) {
			out = append(out, tract.Position{Longitude: units.Angle(p[0]) * units.Degree, Latitude: units.Angle(p[1]) * units.Degree})
		}
		return out
	}
	for name, p := range map[string]tract.Polygon{
		"a spike out and back":     {degrees([2]float64{0, 0}, [2]float64{1, 0}, [2]float64{1, 1}, [2]float64{2, 2}, [2]float64{1, 1}, [2]float64{0, 1})},
		"a hole touching a corner": {degrees([2]float64{0, 0}, [2]float64{2, 0}, [2]float64{2, 2}, [2]float64{0, 2}), degrees([2]float64{0, 0}, [2]float64{1, 0.5}, [2]float64{0.5, 1})},
		"a corner on a side":       {degrees([2]float64{0, 0}, [2]float64{4, 0}, [2]float64{4, 2}, [2]float64{2, 0}, [2]float64{0, 2})},
		"a corner sent twice":      {degrees([2]float64{0, 0}, [2]float64{0, 0}, [2]float64{1, 0}, [2]float64{1, 1})},
	} {
		_, _, crossed := crossing(p)
		assert.False(t, crossed, name)
	}
}

func TestGroundMeasures(t *testing.T) {
	t.Parallel()
	// One degree of a great circle is pi R / 180.
	degree := math.Pi * earthRadius / 180
	a := tract.Position{Longitude: 0, Latitude: 0}
	b := tract.Position{Longitude: 0, Latitude: 1 * units.Degree}
	assert.InEpsilon(t, degree, float64(distance(a, b)), 1e-9)
	c := tract.Position{Longitude: 1 * units.Degree, Latitude: 0}
	assert.InEpsilon(t, degree, float64(distance(a, c)), 1e-9)
	// A cell between two meridians and two parallels: R2 (lambda2-lambda1) (sin phi2 - sin phi1).
	cell := tract.Polygon{{a, c, {Longitude: c.Longitude, Latitude: b.Latitude}, b, a}}
	want := earthRadius * earthRadius * (math.Pi / 180) * math.Sin(math.Pi/180)
	assert.InEpsilon(t, want, float64(areaOf([]tract.Polygon{cell})), 1e-9)
	assert.Zero(t, areaOf(nil))
	assert.Zero(t, ringArea(nil))
	box := boxOf([]tract.Polygon{cell})
	assert.InEpsilon(t, degree, float64(box.height()), 1e-9)
	assert.InEpsilon(t, degree, float64(box.width()), 1e-9)
}
