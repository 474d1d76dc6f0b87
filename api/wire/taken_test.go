package wire

import (
	"math"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/units"
)

// every is one quantity of each type of the house.
var every = []units.Quantity{
	2 * units.Kilogram, 2 * units.Newton, 2 * units.KilogramPerLiter, 2 * units.Foot, 2 * units.Acre, 2 * units.Gallon,
	2 * units.Degree, units.Bearing(2), 2 * units.Knot, 2 * units.Minute, 2 * units.RevolutionPerMinute, 2 * units.AcrePerHour,
	2 * units.GallonPerMinute, 2 * units.GallonPerAcre, 2 * units.Bar, units.AbsolutePressure(2e5), 2 * units.MillinewtonPerMeter,
	2 * units.WattHour, 2 * units.Watt, 2 * units.Percent, units.FromCelsius(2), 2 * units.KelvinDifference, 2 * units.Dollar,
	2 * units.DollarPerAcre, units.Count(2),
}

func TestEveryTypeOfQuantityIsTakenApart(t *testing.T) {
	t.Parallel()
	for _, q := range every {
		d, si := taken(q)
		require.NotNil(t, d, "%T", q)
		assert.Equal(t, q.Dimension(), d.name, "%T", q)
		assert.Equal(t, q.SI(), si, "%T", q)
	}
	types := map[string]bool{}
	for _, file := range files(t, "../../feasibility/units/*.go") {
		for _, method := range dimensionMethod.FindAllStringSubmatch(file, -1) {
			types[method[1]] = true
		}
	}
	assert.Len(t, every, len(types), "of %v", types)
}

var dimensionMethod = regexp.MustCompile(`(?m)^func \(q (\w+)\) Dimension\(\) Dimension`)

// files reads the files of a pattern.
func files(t *testing.T, pattern string) []string {
	t.Helper()
	names, err := filepath.Glob(pattern)
	require.NoError(t, err)
	texts := make([]string, len(names))
	for i, name := range names {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		texts[i] = string(text)
	}
	return texts
}

// strange is a quantity of no type of the house.
type strange struct{ units.Length }

// A quantity that cannot be written is a failure, never a figure that says something else.
func TestAQuantityOfAnUnknownTypeIsNoFigure(t *testing.T) {
	t.Parallel()
	w := &writer{}
	for _, q := range []*Quantity{w.in(strange{1}), w.as(strange{1}, "ft"), w.down(strange{1}), w.downAs(strange{1}, "ft")} {
		assert.True(t, math.IsNaN(*q.Value))
		_, err := (&Answer{Findings: []Finding{{Measured: q}}}).AppendJSON(nil)
		assert.Error(t, err)
	}
}
