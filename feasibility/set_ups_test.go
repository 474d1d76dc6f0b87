package feasibility_test

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility"
	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/tract"
	"tractcheck/feasibility/units"
)

// spiked is a star in Mississippi whose corners lie at two distances from the middle in turn, in meters.
func spiked(corners int, near, far float64) []tract.Polygon {
	ring := make(tract.Ring, 0, corners+1)
	for i := range corners {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(corners))
		radius, latitude := near, 33.41*math.Pi/180
		if i%2 == 1 {
			radius = far
		}
		ring = append(ring, tract.Position{
			Longitude: units.Angle(-90.86*math.Pi/180 + radius*cos/(6378137*math.Cos(latitude))),
			Latitude:  units.Angle(latitude + radius*sin/6378137),
		})
	}
	return []tract.Polygon{{append(ring, ring[0])}}
}

// setUpsOf makes set-ups of one mission on a field, each troubled in its own way, so that changes are looked for.
func setUpsOf(ground tract.Field) []feasibility.Mission {
	out := make([]feasibility.Mission, 7)
	for i := range out {
		m := leveeStrip()
		m.Field.Ground = ground
		m.Load.Label.DownwindBuffer = new(100 * units.Foot)
		m.Field.Neighbors = []drift.Neighbor{
			{Kind: "dwelling", Distance: 60 * units.Foot, Bearing: m.Weather.WindFrom.Opposite()},
			{Kind: "crop", Distance: 90 * units.Foot, Bearing: 30 * units.BearingDegree, Tolerance: new(units.Proportion(0.001))},
		}
		switch i {
		case 1, 4:
			m.Load.Fill = new(1.5 * units.Gallon)
		case 2:
			m.Flight.Swath = 16 * units.Foot
		case 3:
			m.Aircraft.Battery.Energy = 150 * units.WattHour
		case 5:
			m.Flight.Crosswind, m.Flight.Headlands = nil, new(units.Count(1))
		case 6:
			m.Aircraft.MaxTakeoffWeight = 45 * units.Pound
		}
		out[i] = m
	}
	return out
}

// undrawn is a plan with what it states, without what it is drawn from.
func undrawn(p tract.Plan) (stated tract.Plan) {
	from, to := reflect.ValueOf(p), reflect.ValueOf(&stated).Elem()
	for i := range to.NumField() {
		if to.Field(i).CanSet() {
			to.Field(i).Set(from.Field(i))
		}
	}
	return stated
}

// TestASetUpIsAnsweredAsIfItWereAlone: whatever was assessed on the field before, also where the work on it is
// given up or a search ends early.
func TestASetUpIsAnsweredAsIfItWereAlone(t *testing.T) {
	t.Parallel()
	ended, ragged := 0, 0
	for name, ground := range map[string]tract.Field{
		"off the map": {Area: new(40 * units.Acre), FerryDistance: new(250 * units.Foot)},
		"a block":     {Boundary: block()},
		"spikes":      {Boundary: spiked(9900, 60, 540), FerryDistance: new(250 * units.Foot)},
	} {
		var sharing feasibility.SetUps
		for i, m := range setUpsOf(ground) {
			what := fmt.Sprintf("%s, set-up %d", name, i)
			alone, err := feasibility.Assess(m)
			require.NoError(t, err)
			shared, err := sharing.Assess(m)
			require.NoError(t, err)
			if len(ground.Boundary) == 0 || len(ground.Boundary[0][0]) < 100 {
				wantMap, wantOK := m.Draw(alone)
				gotMap, gotOK := m.Draw(shared)
				assert.Equal(t, wantOK, gotOK, what)
				assert.Equal(t, wantMap, gotMap, what)
			}
			alone.SortiePlan, shared.SortiePlan = undrawn(alone.SortiePlan), undrawn(shared.SortiePlan)
			assert.Equal(t, alone, shared, what)
			for _, f := range alone.Findings {
				switch f.Code {
				case feasibility.CodeSearchEnded:
					ended++
				case tract.CodeOutlineTooRagged:
					ragged++
				}
			}
		}
	}
	assert.Positive(t, ended, "searches that ended early")
	assert.Positive(t, ragged, "outlines too ragged to plan")
}

// TestSetUpsOnAnotherFieldBeginAnew: a mission on another field is not answered with what is known of the first.
func TestSetUpsOnAnotherFieldBeginAnew(t *testing.T) {
	t.Parallel()
	var sharing feasibility.SetUps
	for _, acres := range []units.Area{40, 20, 40} {
		m := leveeStrip()
		m.Field.Ground.Area = new(acres * units.Acre)
		a, err := sharing.Assess(m)
		require.NoError(t, err)
		assert.InEpsilon(t, acres.SI(), a.SortiePlan.Area.In(units.Acre), 1e-9)
	}
	_, err := sharing.Assess(feasibility.Mission{})
	assert.Error(t, err)
}

func BenchmarkSetUps(b *testing.B) {
	setUps := make([]feasibility.Mission, 50)
	for i := range setUps {
		setUps[i] = leveeStrip()
		setUps[i].Field.Ground = tract.Field{Boundary: spiked(2500, 60, 540), FerryDistance: new(250 * units.Foot)}
		setUps[i].Load.Fill = new(units.Volume(1+0.02*float64(i)) * units.Gallon)
	}
	for name, assess := range map[string]func() func(feasibility.Mission) (feasibility.Answer, error){
		"each alone": func() func(feasibility.Mission) (feasibility.Answer, error) { return feasibility.Assess },
		"together": func() func(feasibility.Mission) (feasibility.Answer, error) {
			return new(feasibility.SetUps).Assess
		},
	} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				work := assess()
				for _, m := range setUps {
					if _, err := work(m); err != nil {
						b.Fatal(err)
					}
				}
			}
		})
	}
}
