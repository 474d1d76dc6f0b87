package spray

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// fan is an invented system: four flat fans of size 015 and a pump with room to spare.
func fan() System {
	return System{
		Atomizer: HydraulicAtomizer, Count: 4,
		Hydraulic: &Hydraulic{Type: FlatFan, RatedFlow: 0.15 * gpm, RatedPressure: fortyPSI},
		Pump:      &Pump{MaxFlow: 9 * gpm, MaxPressure: 150 * psi},
	}
}

// twoGallons is 2 gal/ac of water over a 13 ft swath.
func twoGallons(mph float64) Job {
	return Job{
		Rate: 2 * units.GallonPerAcre, Speed: units.Speed(mph) * units.MilePerHour,
		Swath: 13 * units.Foot, Density: RatingDensity,
	}
}

// found returns the finding of a code, or stops the test.
func found(t *testing.T, r Result, code finding.Code) finding.Finding {
	t.Helper()
	for _, f := range r.Findings {
		if f.Code == code {
			return f
		}
	}
	require.Fail(t, "no finding", "%s among %v", code, codes(r.Findings))
	return finding.Finding{}
}

func TestHoldInsideTheRange(t *testing.T) {
	t.Parallel()
	r := Hold(fan(), twoGallons(10))
	assert.InDelta(t, 0.5253, r.FlowTotal.In(gpm), 0.00005)
	assert.InDelta(t, 30.7, r.Pressure.In(psi), 0.05)
	assert.Equal(t, r.Pressure, r.PressureUsed)
	assert.True(t, r.WithinRange)
	assert.Equal(t, 2*units.GallonPerAcre, r.RateDelivered)
	assert.Equal(t, Fine, r.Droplet.Class)
	assert.Equal(t, r.Droplet.Spectrum.VolumeBelow(150*um), r.Droplet.Fines)
	assert.Equal(t, []finding.Code{CodeFinesHigh, CodeCatchTest, CodeLowVolumeCoverage}, codes(r.Findings))
	assert.Contains(t, found(t, r, CodeCatchTest).Message, "30.7 psi and catch each nozzle for one minute: each should give 16.8 fl oz")
}

// pressure is one job against limits, and what must come out.
type pressureCase struct {
	name      string
	change    func(*System)
	mph       float64
	used      float64 // psi
	delivered float64 // gal/ac
	severity  map[finding.Code]finding.Severity
}

func TestHoldAtItsLimits(t *testing.T) {
	t.Parallel()
	stated := func(low, high units.Pressure) func(*System) {
		return func(s *System) { s.Hydraulic.MinPressure, s.Hydraulic.MaxPressure = &low, &high }
	}
	pump := func(flow units.Flow, p units.Pressure) func(*System) {
		return func(s *System) { s.Pump = &Pump{flow, p} }
	}
	family := func(of NozzleType) func(*System) { return func(s *System) { s.Hydraulic.Type = of } }
	// Pressures by the square law: 10 mph needs 30.654 psi; p = 30.654 (mph/10)^2. Rates held at a
	// pressure: 2 gal/ac x sqrt(used/needed). Arithmetic beside each.
	for _, tc := range []pressureCase{
		{"stated range, far above", stated(15*psi, 60*psi), 20, 60, 1.3990, map[finding.Code]finding.Severity{
			CodePressureAboveRange: finding.Stop, CodeRateNotHeld: finding.Stop}}, // 122.62 -> 60
		{"stated range, a little above", stated(15*psi, 30*psi), 10, 30, 1.9785, map[finding.Code]finding.Severity{
			CodePressureAboveRange: finding.Stop}}, // 1.1 % under
		{"stated range, below", stated(35*psi, 60*psi), 10, 35, 2.1371, map[finding.Code]finding.Severity{
			CodePressureBelowRange: finding.Stop, CodeRateNotHeld: finding.Stop}}, // 6.9 % over
		{"default range, a little above", nil, 14.1, 60, 1.9845, map[finding.Code]finding.Severity{
			CodePressureAboveRange: finding.Needed}}, // 60.94
		{"default range, far above all flat fans", nil, 20, 60, 1.3990, map[finding.Code]finding.Severity{
			CodePressureAboveRange: finding.Stop, CodeRateNotHeld: finding.Stop}},
		{"default range, low, may be extended-range", nil, 9, 30, 2.1984, map[finding.Code]finding.Severity{
			CodePressureBelowRange: finding.Needed, CodeRateNotHeld: finding.Needed}}, // 24.83
		{"default range, below all flat fans", nil, 6, 30, 3.2976, map[finding.Code]finding.Severity{
			CodePressureBelowRange: finding.Stop, CodeRateNotHeld: finding.Stop}}, // 11.04
		{"range from memory stops nothing, above", family(PreOrifice), 20, 60, 1.3990, map[finding.Code]finding.Severity{
			CodePressureAboveRange: finding.Needed, CodeRateNotHeld: finding.Needed}},
		{"range from memory stops nothing, below", family(HollowCone), 9, 40, 2.5385, map[finding.Code]finding.Severity{
			CodePressureBelowRange: finding.Needed, CodeRateNotHeld: finding.Needed}},
		{"pump pressure", pump(3*gpm, 25*psi), 10, 25, 1.8061, map[finding.Code]finding.Severity{
			CodePumpPressureExceeded: finding.Stop, CodeRateNotHeld: finding.Stop, CodeNoSpeedHoldsRate: finding.Needed}},
		{"pump flow, hopeless", pump(0.5*gpm, 150*psi), 10, 22.5, 1.7135, map[finding.Code]finding.Severity{
			CodePumpFlowExceeded: finding.Stop, CodeRateNotHeld: finding.Stop, CodeNoSpeedHoldsRate: finding.Needed}}, // 0.45/0.5253
		{"pump flow, just beyond its reserve", pump(0.57*gpm, 150*psi), 10, 29.2410, 1.9534, map[finding.Code]finding.Severity{
			CodePumpFlowExceeded: finding.Needed, CodeNoSpeedHoldsRate: finding.Needed}}, // 0.513/0.5253
		{"pump within both figures but not on a straight line", pump(0.7*gpm, 60*psi), 10, 30.6545, 2, map[finding.Code]finding.Severity{
			CodePumpCurveUnknown: finding.Caution}},
		{"no pump stated", func(s *System) { s.Pump = nil }, 10, 30.6545, 2, map[finding.Code]finding.Severity{
			CodePumpNotStated: finding.Caution}},
		{"range stated the wrong way round", stated(60*psi, 15*psi), 10, 30.6545, 2, map[finding.Code]finding.Severity{
			CodeRangeReversed: finding.Needed}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			t.Parallel()
			s := fan()
			if tc.change != nil {
				tc.change(&s)
			}
			checkLimits(t, Hold(s, twoGallons(tc.mph)), tc)
		})
	}
}

func checkLimits(t *testing.T, r Result, tc pressureCase) {
	t.Helper()
	assert.InDelta(t, tc.used, r.PressureUsed.In(psi), 0.0006)
	assert.InDelta(t, tc.delivered, r.RateDelivered.In(units.GallonPerAcre), 0.00006)
	got := map[finding.Code]finding.Severity{}
	for _, f := range r.Findings {
		got[f.Code] = f.Severity
		assert.True(t, f.Source.Cited())
		if f.Severity == finding.Stop {
			assert.NotEqual(t, finding.FromMemory, f.Source.Standing, "%s stops from memory", f.Code)
		}
	}
	for _, always := range []finding.Code{CodeFinesHigh, CodeClassNearBoundary, CodeCatchTest, CodeLowVolumeCoverage} {
		delete(got, always)
	}
	assert.Equal(t, tc.severity, got)
}

func TestExactlyAtTheEndsIsInside(t *testing.T) {
	t.Parallel()
	r := Hold(fan(), twoGallons(10))
	for name, v := range map[string]units.Speed{"lowest": r.SpeedRange.Lowest, "highest": r.SpeedRange.Highest} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			at := Hold(fan(), Job{Rate: 2 * units.GallonPerAcre, Speed: v, Swath: 13 * units.Foot, Density: RatingDensity})
			assert.True(t, at.WithinRange)
			assert.Equal(t, 2*units.GallonPerAcre, at.RateDelivered)
			assert.NotContains(t, codes(at.Findings), CodeRateNotHeld)
		})
	}
	over := Hold(fan(), Job{Rate: 2 * units.GallonPerAcre, Speed: r.SpeedRange.Highest * 1.000001, Swath: 13 * units.Foot, Density: RatingDensity})
	assert.False(t, over.WithinRange)
}

func TestFivePercentOffIsHeld(t *testing.T) {
	t.Parallel()
	wanted := 2 * units.GallonPerAcre
	assert.False(t, isOff(wanted*1.05, wanted))
	assert.False(t, isOff(wanted*0.95, wanted))
	assert.True(t, isOff(wanted*1.0501, wanted))
	assert.True(t, isOff(wanted*0.9499, wanted))
}

func TestSpeedRange(t *testing.T) {
	t.Parallel()
	// 30.654 psi at 10 mph: 30 psi at 9.893 mph, 60 psi at 13.990 mph; v ratio sqrt(2) = 1.414.
	r := Hold(fan(), twoGallons(10)).SpeedRange
	assert.InDelta(t, 9.8927, r.Lowest.In(units.MilePerHour), 0.00005)
	assert.InDelta(t, 13.9904, r.Highest.In(units.MilePerHour), 0.00005)
	assert.Equal(t, BoundNozzlePressure, r.LowestBound)
	assert.Equal(t, BoundNozzlePressure, r.HighestBound)
	assert.False(t, r.Empty())

	s := fan()
	s.Pump = &Pump{3 * gpm, 40 * psi}
	r = Hold(s, twoGallons(10)).SpeedRange
	assert.Equal(t, BoundPumpPressure, r.HighestBound)
	assert.InDelta(t, 11.4231, r.Highest.In(units.MilePerHour), 0.00005) // 10 sqrt(40/30.654)

	s.Pump = &Pump{0.65 * gpm, 150 * psi}
	r = Hold(s, twoGallons(10)).SpeedRange
	assert.Equal(t, BoundPumpFlow, r.HighestBound)
	assert.InDelta(t, 11.1375, r.Highest.In(units.MilePerHour), 0.00005) // 10 x 0.585/0.525253

	s.Pump = &Pump{3 * gpm, 20 * psi}
	result := Hold(s, twoGallons(10))
	assert.True(t, result.SpeedRange.Empty())
	assert.Equal(t, BoundPumpPressure, result.SpeedRange.HighestBound)
	assert.Contains(t, found(t, result, CodeRateNotHeld).Message, "No speed holds the rate")
	assert.NotEmpty(t, result.Curve, "the trend still shows")
	s.Hydraulic.MinPressure = new(30 * psi)
	assert.Equal(t, finding.Stop, found(t, Hold(s, twoGallons(10)), CodeNoSpeedHoldsRate).Severity)
}

func TestRateNotHeldTellsWhatToDo(t *testing.T) {
	t.Parallel()
	f := found(t, Hold(fan(), twoGallons(20)), CodeRateNotHeld)
	assert.Equal(t, "At 20 mph the system cannot put on 2 gal/ac. It would really put on 1.4 gal/ac, 30 % less than wanted. "+
		"Fly between 9.9 mph and 13.9 mph, or fit nozzles of ISO size 025, which would run at 44.1 psi.", f.Message)
	assert.Less(t, f.Margin.SI(), 0.0)
	// The speeds advised hold the rate.
	for _, mph := range []float64{9.9, 13.9} {
		assert.True(t, Hold(fan(), twoGallons(mph)).WithinRange)
	}
	// And so does the size advised.
	s := fan()
	s.Hydraulic.RatedFlow = 0.25 * gpm
	assert.True(t, Hold(s, twoGallons(20)).WithinRange)
}

func TestStatedEndOverridesADefaultThatContradictsIt(t *testing.T) {
	t.Parallel()
	s := fan()
	s.Hydraulic.MinPressure = new(70 * psi) // above the family's 60 psi
	r := Hold(s, twoGallons(16))            // 78.5 psi
	assert.Equal(t, finding.Needed, found(t, r, CodePressureAboveRange).Severity)
	s = fan()
	s.Hydraulic.MaxPressure = new(12 * psi) // below the family's 30 psi
	r = Hold(s, twoGallons(5))              // 7.66 psi
	assert.Equal(t, finding.Needed, found(t, r, CodePressureBelowRange).Severity)
}

func TestMissingFacts(t *testing.T) {
	t.Parallel()
	r := Hold(System{}, Job{})
	assert.Len(t, r.Findings, 5)
	for _, f := range r.Findings {
		assert.Equal(t, CodeFactsMissing, f.Code)
		assert.Equal(t, finding.Needed, f.Severity)
	}
	assert.Equal(t, []finding.Source{sourceMission}, r.Sources)

	r = Hold(System{Atomizer: RotaryAtomizer, Count: 2, Rotary: &Rotary{}}, twoGallons(10))
	assert.Equal(t, atDisc, found(t, r, CodeFactsMissing).Subject)
	s := fan()
	s.Pump = &Pump{MaxFlow: gpm}
	assert.Equal(t, atPump, found(t, Hold(s, twoGallons(10)), CodeFactsMissing).Subject)
}

func TestDensityNotStatedIsWater(t *testing.T) {
	t.Parallel()
	job := twoGallons(10)
	want := Hold(fan(), job)
	job.Density = 0
	got := Hold(fan(), job)
	assert.Equal(t, want.Pressure, got.Pressure)
	assert.Equal(t, atDensity, got.Assumptions[0].Subject)
	assert.NotContains(t, want.Assumptions, got.Assumptions[0])
}

func TestHeavierMixNeedsMorePressure(t *testing.T) {
	t.Parallel()
	job := twoGallons(10)
	water := *Hold(fan(), job).Pressure
	job.Density *= 1.28
	assert.InEpsilon(t, 1.28, float64(*Hold(fan(), job).Pressure/water), 1e-12)
	// Catching clean water, the heavier mix's pressure gives more.
	assert.Contains(t, found(t, Hold(fan(), job), CodeCatchTest).Message, "19 fl oz") // 16.81 sqrt(1.28)
}

func TestCoverageNote(t *testing.T) {
	t.Parallel()
	job := twoGallons(5)
	job.Rate = 5 * units.GallonPerAcre
	assert.NotContains(t, codes(Hold(fan(), job).Findings), CodeLowVolumeCoverage)
	job.Rate = 4.9 * units.GallonPerAcre
	f := found(t, Hold(fan(), job), CodeLowVolumeCoverage)
	assert.Equal(t, finding.Note, f.Severity)
	assert.InDelta(t, -0.1, f.Margin.(units.ApplicationRate).In(units.GallonPerAcre), 1e-9)
}

func TestFinesAreJudgedByTheFineMediumBoundary(t *testing.T) {
	t.Parallel()
	log := newLedger()
	judgeDroplet(newDroplet(rosinRammler(anchorDv05), modelScale, 0.25, "x"), calmerNozzles, log)
	assert.Equal(t, []finding.Code{CodeClassNearBoundary}, codes(log.findings), "at the boundary is not above it")
	log = newLedger()
	judgeDroplet(newDroplet(rosinRammler(230*um), modelScale, 0.25, "x"), calmerNozzles, log)
	assert.Equal(t, []finding.Code{CodeFinesHigh, CodeClassNearBoundary}, codes(log.findings))
}

func TestModelBeyondItsSpanIsSaid(t *testing.T) {
	t.Parallel()
	s := fan()
	s.Hydraulic.MaxPressure = new(200 * psi)
	f := found(t, Hold(s, twoGallons(20)), CodeSizeStretched) // 123 psi
	assert.Equal(t, finding.Caution, f.Severity)
	assert.Contains(t, f.Message, "0.15 gal/min at 40 psi, run at 123 psi")
}

func TestHoldDoesNotTouchWhatItIsGiven(t *testing.T) {
	t.Parallel()
	s := fan()
	s.Hydraulic.Spectra = []PressureSpectrum{{Pressure: 4 * units.Bar, Dv05: 200 * um}, {Pressure: 2 * units.Bar, Dv05: 260 * um}}
	s.Hydraulic.Classes = []PressureClass{{40 * psi, Fine}, {20 * psi, Medium}}
	first := Hold(s, twoGallons(10))
	assert.Equal(t, 4*units.Bar, s.Hydraulic.Spectra[0].Pressure)
	assert.Equal(t, 40*psi, s.Hydraulic.Classes[0].FromPressure)
	assert.Equal(t, first, Hold(s, twoGallons(10)))
}
