package feasibility_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/takeoff"
	"tractcheck/feasibility/units"
)

// hotMesa is the levee strip's job high up in the heat, with a fill past what thin air is estimated to leave.
func hotMesa() feasibility.Mission {
	m := leveeStrip()
	m.Aircraft.MaxTakeoffWeight = 54 * units.Pound
	m.Field.Elevation = new(1500 * units.Foot)
	m.Weather.Temperature = units.FromFahrenheit(95)
	return m
}

func TestAFillPastThinAirIsSettledByLess(t *testing.T) {
	m := hotMesa()
	a := assess(t, m)
	require.Equal(t, []finding.Code{takeoff.CodeOverDensityAltitudeLimit}, points(a))
	assert.Equal(t, feasibility.YesIf, a.Verdict)
	require.NotEmpty(t, a.Remedies)
	best := a.Remedies[0]
	assert.Equal(t, []finding.Code{takeoff.CodeOverDensityAltitudeLimit}, best.Lifts)
	require.Len(t, best.Changes, 1)
	fill := best.Changes[0].To.(units.Volume)
	assert.True(t, units.AtMost(fill, a.TakeoffWeight.LargestFill.Volume))
	assert.Contains(t, a.Headline, "fill no more than")
	assert.Empty(t, feasibility.Unlevered(m))

	m.MayChange = []feasibility.Knob{}
	assert.Contains(t, assess(t, m).Headline, "settle 1 more point (Takeoff weight is 51.19 lb, and by our estimate air as thin as at")
}

// Whatever the mission, nothing is left settled whose fill passes its own largest fill, or whose nozzles
// are outside the range that the answer gives.
func TestWhatIsSettledKeepsItsOwnLimits(t *testing.T) {
	r, wanted := draws(t, 300)
	settled := 0
	for range wanted {
		m := leveeStrip()
		m.Weather.Temperature = units.FromFahrenheit(60 + 40*r.Float64())
		m.Field.Elevation = new(units.Length(4000*r.Float64()) * units.Foot)
		m.Aircraft.MaxTakeoffWeight = units.Mass(52+8*r.Float64()) * units.Pound
		m.Load.Fill = new(units.Volume(1.4+r.Float64()) * units.Gallon)
		m.SpraySystem.System.Pump.MaxFlow = units.Flow(0.5+r.Float64()) * units.GallonPerMinute
		if r.IntN(2) == 0 {
			m.SpraySystem.System.Hydraulic.MinPressure, m.SpraySystem.System.Hydraulic.MaxPressure = nil, nil
			m.Flight.Speed = units.Speed(9+5*r.Float64()) * units.MilePerHour
		}
		m.MayChange = []feasibility.Knob{} // remedies have tests of their own
		a := assess(t, m)
		if len(points(a)) > 0 {
			continue
		}
		settled++
		assert.True(t, units.AtMost(a.TakeoffWeight.Fill, a.TakeoffWeight.LargestFill.Volume), "fill %v, largest %v", a.TakeoffWeight.Fill, a.TakeoffWeight.LargestFill)
		assert.True(t, a.RatePressure.WithinRange, "%v", a.RatePressure.Pressure)
	}
	t.Logf("%d of %d settled", settled, wanted)
	assert.Greater(t, settled, wanted/10)
}

// A speed that a remedy asks for lies where the finding says that the rate is held.
func TestARemedyAgreesWithTheSpeedsOfTheFinding(t *testing.T) {
	m := leveeStrip()
	m.SpraySystem.System.Hydraulic.MinPressure = nil
	m.Flight.Speed = 8 * units.MilePerHour
	a := assess(t, m)
	require.Contains(t, points(a), spray.CodeRateNotHeld)
	checked := 0
	for _, r := range a.Remedies {
		then := assess(t, applied(t, m, r))
		if len(points(then)) == 0 {
			checked++
			assert.True(t, then.RatePressure.WithinRange, "%v", r.Changes)
		}
	}
	assert.Positive(t, checked)
}

// What costs nothing comes before what does: discs turn slower for nothing, a higher speed or rate has its price.
func TestWhatCostsNothingComesFirst(t *testing.T) {
	m := leveeStrip()
	m.SpraySystem = &feasibility.SpraySystem{System: spray.System{
		Atomizer: spray.RotaryAtomizer, Count: 4, Pump: &spray.Pump{MaxFlow: 1.8 * units.GallonPerMinute, MaxPressure: 40 * units.PoundPerSquareInch},
		Rotary: &spray.Rotary{
			DiscDiameter: 7 * units.Centimeter, Rotation: 9000 * units.RevolutionPerMinute,
			MinRotation: new(4000 * units.RevolutionPerMinute), MaxRotation: new(16000 * units.RevolutionPerMinute),
		},
	}, UnderRotors: new(true)}
	m.Load.ApplicationRate, m.Flight.Speed = 3*units.GallonPerAcre, 8*units.MilePerHour
	m.Load.Label.DropletClassMin = new(spray.Fine)
	a := assess(t, m)
	require.Greater(t, len(a.Remedies), 1, "%v", a.Remedies)
	assert.Equal(t, "/spray_system/rotary/rotation", a.Remedies[0].Changes[0].Pointer, "%v", a.Remedies)
	assert.Equal(t, "no change in sorties, hours or drift grade", a.Remedies[0].Costs)
	assert.Contains(t, a.Headline, "turn the discs at ")
}
