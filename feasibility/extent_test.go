package feasibility_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility"
	"tractcheck/feasibility/tract"
	"tractcheck/feasibility/units"
)

// eastward is an invented strip, about 930 m from west to east and 40 m from south to north.
func eastward() []tract.Polygon {
	at := func(longitude, latitude units.Angle) tract.Position {
		return tract.Position{Longitude: longitude * units.Degree, Latitude: latitude * units.Degree}
	}
	return []tract.Polygon{{{at(-90.86, 33.42), at(-90.85, 33.42), at(-90.85, 33.42036), at(-90.86, 33.42036), at(-90.86, 33.42)}}}
}

// The drift is that of all swaths up the wind: more of them lie one behind the other where the wind
// blows along a strip than where it blows across.
func TestTheFieldReachesAlongTheWindAsItsBoundaryDoes(t *testing.T) {
	t.Parallel()
	m := leveeOnTheMap()
	m.Weather.WindFrom = 270 * units.BearingDegree
	along := assess(t, m)
	m.Weather.WindFrom = 180 * units.BearingDegree
	across := assess(t, m)
	far := len(along.DriftRisk.Deposit) - 1
	assert.Greater(t, along.DriftRisk.Deposit[far].PercentOfRate.Best, across.DriftRisk.Deposit[far].PercentOfRate.Best)
	for _, x := range assumed(along) {
		assert.NotContains(t, x, "along the wind")
	}

	part, err := feasibility.AssessDriftRisk(m)
	require.NoError(t, err)
	assert.Equal(t, across.DriftRisk.Deposit, part.DriftRisk.Deposit, "the part reads the same boundary")
}

// How two sides lie to the wind is not known: the longer one is taken along it, and that is said. It then
// lays down what a strip on the map does that lies so.
func TestTheLongerSideOfARectangleIsTakenAlongTheWind(t *testing.T) {
	t.Parallel()
	m := leveeStrip()
	m.Field.Ground = tract.Field{Length: new(40 * units.Meter), Width: new(929.5 * units.Meter)}
	rectangle := assess(t, m)
	assert.Contains(t, assumed(rectangle), "for drift, the field's longer side lies along the wind")

	m = leveeOnTheMap()
	m.Weather.WindFrom = 270 * units.BearingDegree
	mapped := assess(t, m)
	for i, d := range mapped.DriftRisk.Deposit {
		assert.InEpsilon(t, d.PercentOfRate.Best.SI(), rectangle.DriftRisk.Deposit[i].PercentOfRate.Best.SI(), 0.02)
	}

	m.Field.Ground = tract.Field{Area: new(units.Area(40 * 929.5))}
	assert.Contains(t, assumed(assess(t, m)), "for drift, the field reaches as far along the wind as a square of its area does")
}

func leveeOnTheMap() feasibility.Mission {
	m := leveeStrip()
	m.Field.Ground = tract.Field{Boundary: eastward()}
	return m
}

// assumed is what was taken for the drift's extent, word for word.
func assumed(a feasibility.Answer) []string {
	var out []string
	for _, x := range a.DriftRisk.Assumptions {
		out = append(out, x.Assumed)
	}
	return out
}
