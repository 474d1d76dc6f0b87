package feasibility_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility"
	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/tract"
	"tractcheck/feasibility/units"
)

// said finds what an answer says under a code.
func said(t *testing.T, m feasibility.Mission, code finding.Code) (finding.Finding, bool) {
	t.Helper()
	answer, err := feasibility.Assess(m)
	require.NoError(t, err)
	for _, f := range answer.Findings {
		if f.Code == code {
			return f, true
		}
	}
	return finding.Finding{}, false
}

// Equipment that is there is not spoken of; what is not there or not stated is a caution, in its own
// words.
func TestEquipmentTheTractCallsFor(t *testing.T) {
	t.Parallel()
	radar, laser, none := feasibility.RadarHeight, feasibility.LaserHeight, feasibility.NoHeight
	for name, tc := range map[string]struct {
		change func(*feasibility.Mission)
		code   finding.Code
		want   string // "": nothing is said
	}{
		"obstacles sensed": {func(m *feasibility.Mission) { m.Aircraft.Sensing.Obstacle = new(true) }, feasibility.CodeObstacleSensing, ""},
		"obstacles not sensed": {func(m *feasibility.Mission) {
			m.Field.Neighbors = []drift.Neighbor{}
			m.Aircraft.Sensing.Obstacle = new(false)
		}, feasibility.CodeObstacleSensing, "does not sense obstacles. Walk"},
		"not sensed beside a house": {func(m *feasibility.Mission) {
			m.Aircraft.Sensing.Obstacle = new(false)
			m.Field.Neighbors = []drift.Neighbor{{Kind: "dwelling", Distance: 900, Bearing: m.Weather.WindFrom}}
		}, feasibility.CodeObstacleSensing, "a house nearby, with the lines and trees"},
		"not stated beside keep-outs": {func(m *feasibility.Mission) {
			m.Field.Ground = tract.Field{Boundary: block(), KeepOuts: []tract.Polygon{}}
			m.Field.Ground.KeepOuts = block()
			m.Aircraft.Sensing.Obstacle = nil
		}, feasibility.CodeObstacleSensing, "was not stated, and there are keep-outs"},
		"not stated in a tall crop": {func(m *feasibility.Mission) {
			m.Aircraft.Sensing.Obstacle, m.Field.CropHeight = nil, new(20*units.Foot)
		}, feasibility.CodeObstacleSensing, "was not stated, and the crop is tall"},
		"radar":             {func(m *feasibility.Mission) { m.Aircraft.Sensing.Height = &radar }, feasibility.CodeHeightSensing, ""},
		"no height sensing": {func(m *feasibility.Mission) { m.Aircraft.Sensing.Height = &none }, feasibility.CodeHeightSensing, "does not sense its height"},
		"height not stated": {func(m *feasibility.Mission) { m.Aircraft.Sensing.Height = nil }, feasibility.CodeHeightSensing, "was not stated"},
		"laser over a low crop": {func(m *feasibility.Mission) {
			m.Aircraft.Sensing.Height, m.Field.CropHeight = &laser, new(2*units.Foot)
		}, feasibility.CodeHeightSensing, ""},
		"laser over trees": {func(m *feasibility.Mission) {
			m.Aircraft.Sensing.Height, m.Field.CropHeight = &laser, new(15*units.Foot)
		}, feasibility.CodeHeightSensing, "a crop 15 ft tall"},
		"laser, crop not stated": {func(m *feasibility.Mission) {
			m.Aircraft.Sensing.Height, m.Field.CropHeight = &laser, nil
		}, feasibility.CodeHeightSensing, "height of the crop was not stated"},
		"stops at an empty tank": {func(m *feasibility.Mission) { m.Aircraft.Sensing.TankLevel = new(true) }, feasibility.CodeTankLevelStop, ""},
		"does not stop":          {func(m *feasibility.Mission) { m.Aircraft.Sensing.TankLevel = new(false) }, feasibility.CodeTankLevelStop, "does not stop at an empty tank"},
		"may not stop":           {func(m *feasibility.Mission) { m.Aircraft.Sensing.TankLevel = nil }, feasibility.CodeTankLevelStop, "was not stated whether the aircraft stops"},
		"resumes":                {func(m *feasibility.Mission) { m.Aircraft.Sensing.Resume = new(true) }, feasibility.CodeResumePoint, ""},
		"does not resume":        {func(m *feasibility.Mission) { m.Aircraft.Sensing.Resume = new(false) }, feasibility.CodeResumePoint, "does not go back"},
		"one load needs no stop": {func(m *feasibility.Mission) {
			m.Aircraft.Sensing = feasibility.Sensing{}
			m.Field.Ground = tract.Field{Area: new(0.5 * units.Acre)}
		}, feasibility.CodeTankLevelStop, ""},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			m := leveeStrip()
			tc.change(&m)
			got, ok := said(t, m, tc.code)
			require.Equal(t, tc.want != "", ok, got.Message)
			if ok {
				assert.Equal(t, finding.Caution, got.Severity)
				assert.Contains(t, got.Message, tc.want)
				assert.True(t, got.Source.Cited())
			}
		})
	}
}

// A day's acres are a note where they cover the tract, and a caution, with other machines named,
// where they do not.
func TestADaysWork(t *testing.T) {
	t.Parallel()
	m := leveeStrip()
	got, ok := said(t, m, feasibility.CodeWorkRate)
	require.True(t, ok)
	assert.Equal(t, finding.Note, got.Severity)
	_, ok = said(t, m, feasibility.CodeOtherMachine)
	assert.False(t, ok)
	_, ok = said(t, m, feasibility.CodeAccessNotStated)
	assert.True(t, ok)

	m.Field.Ground = tract.Field{Area: new(400 * units.Acre)}
	got, ok = said(t, m, feasibility.CodeWorkRate)
	require.True(t, ok)
	assert.Equal(t, finding.Caution, got.Severity)
	assert.Negative(t, got.Margin.SI())
	_, ok = said(t, m, feasibility.CodeOtherMachine)
	assert.True(t, ok)

	m.Field.Ground = tract.Field{Area: new(20 * units.Acre), FerryDistance: new(400 * units.Foot)}
	m.Crew.RefillTime = new(10 * units.Minute)
	got, ok = said(t, m, feasibility.CodeTimeNotSpraying)
	require.True(t, ok)
	assert.Less(t, got.Measured.SI(), 1.0/3)
}

// Large tracts are said in figures that a grower reads, never as 1.5e+03.
func TestWorkRateOfALargeTractIsPlain(t *testing.T) {
	m := leveeStrip()
	area := 1500 * units.Acre
	m.Field.Ground = tract.Field{Area: &area}
	plan, err := feasibility.AssessSortiePlan(m)
	require.NoError(t, err)
	said := ""
	for _, f := range plan.Findings {
		if f.Code == feasibility.CodeWorkRate {
			said = f.Message
		}
	}
	assert.Contains(t, said, "the tract has 1500 to spray")
}
