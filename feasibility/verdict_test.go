package feasibility_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/takeoff"
	"tractcheck/feasibility/units"
)

func TestVerdictFollowsFindingsAndRemedies(t *testing.T) {
	for name, tc := range map[string]struct {
		change func(*feasibility.Mission)
		want   feasibility.Verdict
	}{
		"papers to confirm": {func(*feasibility.Mission) {}, feasibility.YesIf},
		"no papers at all":  {func(m *feasibility.Mission) { m.Operation.Holds = nil }, feasibility.YesIf},
		"too heavy for the maker, less fill helps": {func(m *feasibility.Mission) {
			m.Aircraft.MaxTakeoffWeight = 48 * units.Pound
		}, feasibility.YesIf},
		"too heavy even empty": {func(m *feasibility.Mission) {
			m.Aircraft.MaxTakeoffWeight = 30 * units.Pound
		}, feasibility.No},
		"inversion": {func(m *feasibility.Mission) {
			m.Weather.InversionObserved = new(true)
		}, feasibility.No},
		"wind over the label": {func(m *feasibility.Mission) {
			m.Weather.WindSpeed = 12 * units.MilePerHour
			m.Weather.Gust = nil
		}, feasibility.No},
		"label forbids aerial use": {func(m *feasibility.Mission) {
			m.Load.Label.AerialAllowed = new(false)
		}, feasibility.No},
		"too fast for the nozzles": {func(m *feasibility.Mission) {
			m.Flight.Speed = 18 * units.MilePerHour
		}, feasibility.YesIf},
		"under the label's volume": {func(m *feasibility.Mission) {
			m.Load.Label.MinRate = new(2.2 * units.GallonPerAcre)
		}, feasibility.YesIf},
	} {
		t.Run(name, func(t *testing.T) {
			m := leveeStrip()
			tc.change(&m)
			a := assess(t, m)
			assert.Equal(t, tc.want, a.Verdict, "stops %v, remedies %+v", codes(a, finding.Stop), a.Remedies)
			switch a.Verdict {
			case feasibility.No:
				assert.True(t, strings.HasPrefix(a.Headline, "No, "), a.Headline)
			case feasibility.YesIf:
				assert.True(t, strings.HasPrefix(a.Headline, "Yes, if you "), a.Headline)
			default:
				assert.True(t, strings.HasPrefix(a.Headline, "Yes. "), a.Headline)
			}
			t.Log(a.Headline)
		})
	}
}

func TestHeavyFillIsRemediedByTheLargestLegalFill(t *testing.T) {
	m := leveeStrip()
	m.Load.Fill = new(2.6 * units.Gallon)
	a := assess(t, m)
	assert.False(t, a.TakeoffWeight.Small)
	require.NotEmpty(t, a.Remedies)
	remedy := a.Remedies[0]
	assert.Contains(t, remedy.Lifts, takeoff.CodeOverSmallLimit)
	assert.Equal(t, "/load/fill", remedy.Changes[0].Pointer)
	fill := remedy.Changes[0].To.(units.Volume)
	assert.InDelta(t, 2.45, fill.In(units.Gallon), 1e-7, "2.4566 gal, on a figure that can be read off a tank")
	m.Load.Fill = &fill
	assert.True(t, assess(t, m).TakeoffWeight.Small, "the remedy, applied, must do what it says")
}

func TestRemediesAppliedGiveTheAnswerTheyPromise(t *testing.T) {
	for _, speed := range []units.Speed{15, 18, 22, 30} {
		m := leveeStrip()
		m.Flight.Speed = speed * units.MilePerHour
		a := assess(t, m)
		for _, r := range a.Remedies {
			changed := applied(t, m, r)
			then := assess(t, changed)
			assert.Equal(t, r.AnswerThen, then.Verdict, "%v", r.Changes)
			for _, code := range r.Lifts {
				assert.NotContains(t, codes(then, finding.Stop), code)
			}
		}
	}
}

// applied changes a mission as a remedy says.
func applied(t testing.TB, m feasibility.Mission, r feasibility.Remedy) feasibility.Mission {
	t.Helper()
	for _, c := range r.Changes {
		m = set(t, m, c, c.To)
	}
	return m
}

// set puts one changed fact into a mission, with a figure of its own where it has one.
func set(t testing.TB, m feasibility.Mission, c feasibility.Change, to units.Quantity) feasibility.Mission {
	t.Helper()
	aircraft, flight, system, weather := *m.Aircraft, *m.Flight, *m.SpraySystem, *m.Weather
	if system.System.Hydraulic != nil {
		nozzle := *system.System.Hydraulic
		system.System.Hydraulic = &nozzle
	}
	if system.System.Rotary != nil {
		disc := *system.System.Rotary
		system.System.Rotary = &disc
	}
	operation := *m.Operation
	m.Aircraft, m.Flight, m.SpraySystem, m.Weather, m.Operation = &aircraft, &flight, &system, &weather, &operation
	nozzle := system.System.Hydraulic
	switch c.Pointer {
	case "/load/fill":
		m.Load.Fill = new(to.(units.Volume))
	case "/load/application_rate":
		m.Load.ApplicationRate = to.(units.ApplicationRate)
	case "/flight/speed":
		flight.Speed = to.(units.Speed)
	case "/flight/height":
		flight.Height = to.(units.Length)
	case "/flight/swath":
		flight.Swath = to.(units.Length)
	case "/flight/course":
		flight.Course = new(to.(units.Bearing))
	case "/aircraft/count":
		aircraft.Count = new(to.(units.Count))
	case "/weather/at":
		at, err := time.Parse(time.RFC3339, c.ToWord)
		require.NoError(t, err)
		weather.At = &at
	case "/operation/over_people":
		operation.OverPeople = *c.ToFact
	case "/spray_system/nozzle/type":
		nozzle.Type = spray.NozzleType(c.ToWord)
	case "/spray_system/nozzle/rated_flow":
		nozzle.RatedFlow = to.(units.Flow)
	case "/spray_system/nozzle/rated_pressure":
		nozzle.RatedPressure = to.(units.Pressure)
	case "/spray_system/nozzle/min_pressure":
		nozzle.MinPressure = nil
	case "/spray_system/nozzle/max_pressure":
		nozzle.MaxPressure = nil
	case "/spray_system/nozzle/fan_angle":
		nozzle.FanAngle = nil
	case "/spray_system/nozzle/spectra":
		nozzle.Spectra = nil
	case "/spray_system/nozzle/classes":
		nozzle.Classes = nil
	case "/spray_system/rotary/rotation":
		system.System.Rotary.Rotation = to.(units.RotationRate)
	default:
		t.Fatalf("remedy changes %s, which no test knows", c.Pointer)
	}
	return m
}

func TestSeveralStopsAreLiftedTogether(t *testing.T) {
	m := leveeStrip()
	m.Aircraft.MaxTakeoffWeight = 48 * units.Pound
	m.Flight.Speed = 18 * units.MilePerHour
	a := assess(t, m)
	assert.Equal(t, feasibility.YesIf, a.Verdict, "stops %v", codes(a, finding.Stop))
	require.NotEmpty(t, a.Remedies)
	assert.GreaterOrEqual(t, len(a.Remedies[0].Changes), 2)
	t.Log(a.Headline)
}

func TestUnknownIsNeverBetterThanKnown(t *testing.T) {
	known := assess(t, leveeStrip())
	m := leveeStrip()
	m.Weather.At, m.Weather.CloudCover, m.Weather.InversionObserved = nil, nil, nil
	m.Operation.State, m.Operation.Hazmat = nil, nil
	m.Operation.Airspace = "unknown"
	unknown := assess(t, m)
	assert.Greater(t, len(codes(unknown, finding.Needed)), len(codes(known, finding.Needed)))
}

func TestRotaryMissionRuns(t *testing.T) {
	m := leveeStrip()
	m.SpraySystem = &feasibility.SpraySystem{System: spray.System{
		Atomizer: spray.RotaryAtomizer, Count: 4,
		Rotary: &spray.Rotary{DiscDiameter: 7 * units.Centimeter, Rotation: 9000 * units.RevolutionPerMinute},
	}}
	a := assess(t, m)
	assert.Nil(t, a.RatePressure.Pressure)
	assert.Positive(t, a.RatePressure.Droplet.Spectrum.Dv05)
}
