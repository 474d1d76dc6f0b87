package feasibility_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility"
	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/tract"
	"tractcheck/feasibility/units"
)

// block is a square tract of 300 m a side in Mississippi.
func block() []tract.Polygon {
	corner := func(x, y float64) tract.Position {
		latitude := 33.41 * math.Pi / 180
		return tract.Position{
			Longitude: units.Angle(-90.86*math.Pi/180 + x/(6378137*math.Cos(latitude))),
			Latitude:  units.Angle(latitude + y/6378137),
		}
	}
	return []tract.Polygon{{{corner(0, 0), corner(300, 0), corner(300, 300), corner(0, 300), corner(0, 0)}}}
}

// A house inside the label's buffer stops a job whose tract has no place; on the map the strip is
// left unsprayed, the buffer is kept, and the answer says how much ground that costs.
func TestTheLabelsBufferIsTakenOffTheTract(t *testing.T) {
	t.Parallel()
	m := leveeStrip()
	m.Load.Label.DownwindBuffer = new(100 * units.Foot)
	m.Field.Neighbors = []drift.Neighbor{{
		Kind: "dwelling", Distance: 60 * units.Foot, Bearing: m.Weather.WindFrom.Opposite(), Tolerance: new(units.Proportion(1)),
	}}
	has := func(a feasibility.Answer, code finding.Code) bool {
		for _, f := range a.Findings {
			if f.Code == code {
				return true
			}
		}
		return false
	}
	without, err := feasibility.Assess(m)
	require.NoError(t, err)
	require.True(t, has(without, drift.CodeInsideLabelBuffer))
	require.False(t, has(without, tract.CodeStripUnsprayed))

	m.Field.Ground = tract.Field{Boundary: block()}
	with, err := feasibility.Assess(m)
	require.NoError(t, err)
	assert.False(t, has(with, drift.CodeInsideLabelBuffer))
	assert.True(t, has(with, tract.CodeStripUnsprayed))
	assert.Greater(t, with.SortiePlan.Accounting.Strips.In(units.Acre), 40*0.3048*300/4046.86*0.99)
	assert.LessOrEqual(t, with.SortiePlan.Accounting.Strips, with.SortiePlan.Accounting.Unsprayed)
	assert.InDelta(t, 100, with.DriftRisk.AtNeighbors[0].Distance.In(units.Foot), 1e-6, "the drift counts from the last swath")
	assert.Equal(t, 60*units.Foot, m.Field.Neighbors[0].Distance, "the mission is not touched")

	m.Weather.WindFrom = m.Weather.WindFrom.Opposite()
	upwind, err := feasibility.Assess(m)
	require.NoError(t, err)
	assert.Zero(t, upwind.SortiePlan.Accounting.Strips)
}
