package feasibility_test

import (
	"math"
	"strings"
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

// The strip that the computed drift asks for is shown with what it costs and is drawn, and the plan
// is left as it was: the tract is flown before the drift is known.
func TestTheDriftsOwnBufferIsShownAsAStrip(t *testing.T) {
	t.Parallel()
	m := leveeStrip()
	m.Field.Ground = tract.Field{Boundary: block()}
	m.Field.Neighbors = []drift.Neighbor{{
		Kind: "organic", Distance: 30 * units.Foot, Bearing: m.Weather.WindFrom.Opposite(), Tolerance: new(units.Proportion(0.02)),
	}}
	a := assess(t, m)
	require.Greater(t, a.DriftRisk.Buffer.Distance, 30*units.Foot)
	require.Len(t, a.SetBack.Strips, 1)
	strip := a.SetBack.Strips[0]
	width := a.DriftRisk.Buffer.Distance - 30*units.Foot
	assert.InDelta(t, width.SI(), strip.Clear.Width().SI(), 1e-6)
	// The wind blows to the northeast: the strip lies along the north and the east side of 300 m.
	assert.InEpsilon(t, 2*300*width.SI()-width.SI()*width.SI(), strip.Area.SI(), 3e-3, "the block is placed on a sphere")
	assert.Equal(t, strip.Area, a.SetBack.Area)
	said := finding.Finding{}
	for _, f := range a.Findings {
		if f.Code == feasibility.CodeDriftStrip {
			said = f
		}
	}
	assert.Equal(t, "/field/neighbors/0", said.Subject)
	assert.Equal(t, finding.Note, said.Severity)
	assert.Contains(t, said.Message, "another day")

	alone := m
	alone.Field.Neighbors = []drift.Neighbor{}
	assert.Equal(t, assess(t, alone).SortiePlan.Accounting, a.SortiePlan.Accounting, "the plan still sprays the strip")
	d, ok := m.Draw(a)
	require.True(t, ok)
	require.NotEmpty(t, d.Later)
	require.NotEmpty(t, d.DriftZone)

	// Drawn as a keep-out the strip is left, and the drift zone begins at the sprayed edge.
	m.Field.Ground.KeepOuts = d.Later
	without := assess(t, m)
	assert.InEpsilon(t, strip.Area.SI(), without.SortiePlan.Accounting.KeepOuts.SI(), 1e-3)

	// With the wind turned nobody lies downwind, and there is nothing to leave.
	m.Weather.WindFrom = m.Weather.WindFrom.Opposite()
	assert.Empty(t, assess(t, m).SetBack.Strips)
}

// Where the drift asks for most of the tract, the answer says to bring the drift down instead.
func TestAStripThatIsMostOfTheTract(t *testing.T) {
	t.Parallel()
	m := leveeStrip()
	m.Field.Ground = tract.Field{Boundary: block()}
	m.Field.Neighbors = []drift.Neighbor{{
		Kind: "organic", Distance: 1 * units.Foot, Bearing: m.Weather.WindFrom.Opposite(), Tolerance: new(units.Proportion(0.0001)),
	}}
	for _, f := range assess(t, m).Findings {
		if f.Code == feasibility.CodeDriftStrip {
			assert.Contains(t, f.Message, "bring the drift down first")
			return
		}
	}
	assert.Fail(t, "no strip")
}

// Passes round the edge are asked for in the mission, flown, and shown beside the job without them.
func TestHeadlandPassesOfAMission(t *testing.T) {
	t.Parallel()
	m := leveeStrip()
	m.Field.Ground = tract.Field{Boundary: block()}
	m.Flight.Course, m.Flight.Swath = new(20*units.BearingDegree), 40*units.Foot
	bare := assess(t, m)
	assert.Zero(t, bare.SortiePlan.Headland.Passes)
	assert.NotZero(t, bare.SortiePlan.Headland.Length, "on a slanted course one is offered")
	m.Flight.Headlands = new(units.Count(1))
	a := assess(t, m)
	assert.Equal(t, units.Count(1), a.SortiePlan.Headland.Passes)
	require.Len(t, a.SortiePlan.Headland.Costs, 2)
	assert.InDelta(t, 0, a.SortiePlan.SprayedPastEdge.SI(), 1)
	assert.Greater(t, bare.SortiePlan.SprayedPastEdge.SI(), 100.0)
}

// Strips that were too much work to lay are not there on the map, which says so: no strip is no sign of none.
func TestStripsThatAreNotDrawnAreSaid(t *testing.T) {
	t.Parallel()
	m := leveeStrip()
	m.Field.Ground = tract.Field{Boundary: block()}
	m.Field.Neighbors = nil
	a, err := feasibility.Assess(m)
	require.NoError(t, err)
	notes := func() string {
		d, ok := m.Draw(a)
		require.True(t, ok)
		return strings.Join(d.Notes, "\n")
	}
	assert.NotContains(t, notes(), "another day")
	a.SetBack.Left = 1
	assert.Contains(t, notes(), "another day are not drawn")
	assert.Contains(t, notes(), "fewer corners")
}
