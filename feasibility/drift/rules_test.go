package drift

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/air"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/units"
)

const none finding.Severity = ""

func TestWindRules(t *testing.T) {
	t.Parallel()
	mph := units.MilePerHour
	for _, tc := range []struct {
		name string
		in   func(*Input)
		code finding.Code
		want finding.Severity
	}{
		{"at the label's limit", func(in *Input) { in.WindSpeed, in.Label.MaxWind = 10*mph, new(10*mph) }, CodeWindOverLabel, none},
		{"over the label's limit", func(in *Input) { in.WindSpeed, in.Label.MaxWind = 10.01*mph, new(10*mph) }, CodeWindOverLabel, finding.Stop},
		{"over the label's limit, not a pesticide", func(in *Input) { in.WindSpeed, in.Label.MaxWind, in.Pesticide = 11*mph, new(10*mph), false }, CodeWindOverLabel, finding.Stop},
		{"15 mph, no label", func(in *Input) { in.WindSpeed = 15 * mph }, CodeWindOverCommonPractice, none},
		{"15 mph is strong", func(in *Input) { in.WindSpeed = 15 * mph }, CodeWindStrong, finding.Caution},
		{"over 15 mph, no label", func(in *Input) { in.WindSpeed = 15.1 * mph }, CodeWindOverCommonPractice, finding.Stop},
		{"over 15 mph, water only", func(in *Input) { in.WindSpeed, in.Pesticide = 15.1*mph, false }, CodeWindOverCommonPractice, finding.Caution},
		{"over 15 mph, label allows 18", func(in *Input) { in.WindSpeed, in.Label.MaxWind = 16*mph, new(18*mph) }, CodeWindOverCommonPractice, none},
		{"under 10 mph", func(in *Input) { in.WindSpeed = 9.9 * mph }, CodeWindStrong, none},
		{"gust over the label's limit", func(in *Input) { in.Gust, in.Label.MaxWind = new(12*mph), new(10*mph) }, CodeGustOverLabel, finding.Stop},
		{"gust at the label's limit", func(in *Input) { in.Gust, in.Label.MaxWind = new(10*mph), new(10*mph) }, CodeGustOverLabel, none},
		{"gust over 15 mph", func(in *Input) { in.Gust = new(16 * mph) }, CodeGustOverCommonPractice, finding.Stop},
		{"gust not stated", func(in *Input) { in.Gust = nil }, CodeGustOverCommonPractice, none},
		{"gust not stated, light wind", func(in *Input) { in.WindSpeed, in.Gust = 10*mph, nil }, CodeGustNotStated, none},
		{"gust not stated, usual gusts over 15 mph", func(in *Input) { in.WindSpeed, in.Gust = 10.1*mph, nil }, CodeGustNotStated, finding.Caution},
		{"gust not stated, usual gusts over the label", func(in *Input) { in.WindSpeed, in.Gust, in.Label.MaxWind = 8*mph, nil, new(10*mph) }, CodeGustNotStated, finding.Caution},
		{"gust not stated, wind over the label", func(in *Input) { in.WindSpeed, in.Gust, in.Label.MaxWind = 11*mph, nil, new(10*mph) }, CodeGustNotStated, none},
		{"gust not stated, water only", func(in *Input) { in.WindSpeed, in.Gust, in.Pesticide = 12*mph, nil, false }, CodeGustNotStated, none},
		{"gust stated", func(in *Input) { in.WindSpeed, in.Gust = 12*mph, new(13*mph) }, CodeGustNotStated, none},
		{"under the label's least", func(in *Input) { in.WindSpeed, in.Label.MinWind = 3.9*mph, new(4*mph) }, CodeWindUnderLabel, finding.Stop},
		{"at the label's least", func(in *Input) { in.WindSpeed, in.Label.MinWind = 4*mph, new(4*mph) }, CodeWindUnderLabel, none},
		{"3 mph is not calm", func(in *Input) { in.WindSpeed = 3 * mph }, CodeWindCalm, none},
		{"calm, inversion ruled out", func(in *Input) { in.WindSpeed, in.Air.Inversion = 2*mph, air.InversionAbsent }, CodeWindCalm, finding.Caution},
		{"calm, inversion possible", func(in *Input) { in.WindSpeed, in.Air.Inversion = 2*mph, air.InversionPossible }, CodeWindCalm, finding.Stop},
		{"calm, nothing known of inversions", func(in *Input) { in.WindSpeed, in.Air.Inversion = 2*mph, "" }, CodeWindCalm, finding.Stop},
	} {
		t.Run(tc.name, func(t *testing.T) {
			t.Parallel()
			in := job(fairDay())
			tc.in(&in)
			r := Assess(in)
			f := found(r, tc.code)
			assert.Equal(t, tc.want, f.Severity)
			if tc.want == finding.Stop {
				assert.Equal(t, Severe, r.Grade)
				assert.Less(t, f.Margin.SI(), 0.0, "on the wrong side")
			}
		})
	}
}

func TestDryingRules(t *testing.T) {
	t.Parallel()
	for _, tc := range []struct {
		kelvin float64
		code   finding.Code
		want   finding.Severity
	}{
		{1.9, CodeDeltaTLow, finding.Caution}, {2, CodeDeltaTLow, none}, {5, CodeDeltaTHigh, none},
		{8, CodeDeltaTHigh, none}, {8.1, CodeDeltaTHigh, finding.Caution}, {10, CodeDeltaTHigh, finding.Caution},
		{10, CodeDeltaTTooHigh, none}, {10.1, CodeDeltaTTooHigh, finding.Stop},
	} {
		in := job(fairDay())
		in.Air.Depression = units.TemperatureDifference(tc.kelvin)
		r := Assess(in)
		assert.Equal(t, tc.want, found(r, tc.code).Severity, "%v K", tc.kelvin)
		assert.Equal(t, tc.want == finding.Stop, r.Grade == Severe)
	}
}

func TestReleaseRules(t *testing.T) {
	t.Parallel()
	for _, tc := range []struct {
		name string
		in   func(*Input)
		code finding.Code
		want finding.Severity
	}{
		{"at the label's height", func(in *Input) { in.Label.MaxHeight = new(8 * units.Foot) }, CodeReleaseHeightOverLabel, none},
		{"over the label's height", func(in *Input) { in.Label.MaxHeight = new(7.9 * units.Foot) }, CodeReleaseHeightOverLabel, finding.Stop},
		{"12 ft, no label", func(in *Input) { in.Release.Height = 12 * units.Foot }, CodeReleaseHeightHigh, finding.Caution},
		{"12 ft, allowed", func(in *Input) { in.Release.Height, in.Label.MaxHeight = 12*units.Foot, new(12*units.Foot) }, CodeReleaseHeightHigh, none},
		{"finer than the label", func(in *Input) { in.Label.DropletClassMin = new(spray.Coarse) }, CodeDropletTooFine, finding.Stop},
		{"the label's class", func(in *Input) { in.Label.DropletClassMin = new(spray.Medium) }, CodeDropletTooFine, none},
		{"coarser than the label", func(in *Input) { in.Label.DropletClassMax = new(spray.Fine) }, CodeDropletTooCoarse, finding.Stop},
		{"may be finer", func(in *Input) {
			in.Spray.Droplet.ClassOther, in.Label.DropletClassMin = spray.Fine, new(spray.Medium)
		}, CodeDropletNearLabelLimit, finding.Caution},
		{"may be coarser", func(in *Input) {
			in.Spray.Droplet.ClassOther, in.Label.DropletClassMax = spray.Coarse, new(spray.Medium)
		}, CodeDropletNearLabelLimit, finding.Caution},
		{"clear of the boundary", func(in *Input) { in.Label.DropletClassMin = new(spray.Medium) }, CodeDropletNearLabelLimit, none},
		{"too fast for the wake", func(in *Input) { in.Release.Speed = 40 * units.MilePerHour }, CodeWakeSweptBack, finding.Caution},
		{"slow enough", func(*Input) {}, CodeWakeSweptBack, none},
		{"too high to compute", func(in *Input) { in.Release.Height = 300 * units.Foot }, CodeOutsideModel, finding.Caution},
		{"too windy to compute", func(in *Input) { in.WindSpeed = 200 * units.MilePerHour }, CodeOutsideModel, finding.Caution},
		{"within the model", func(*Input) {}, CodeOutsideModel, none},
	} {
		t.Run(tc.name, func(t *testing.T) {
			t.Parallel()
			in := job(fairDay())
			tc.in(&in)
			assert.Equal(t, tc.want, found(Assess(in), tc.code).Severity)
		})
	}
}

func TestPatternRules(t *testing.T) {
	t.Parallel()
	in := job(fairDay())
	across := found(Assess(in), CodeCrosswindPattern)
	assert.Equal(t, finding.Note, across.Severity)
	calmer := fairDay()
	calmer.wind = 3.5 * units.MilePerHour
	assert.Greater(t, across.Measured.SI(), found(Assess(job(calmer)), CodeCrosswindPattern).Measured.SI(), "more wind, more shift")
	in.Release.Crosswind = new(false)
	r := Assess(in)
	assert.Equal(t, finding.Note, found(r, CodeHeadwindPattern).Severity)
	assert.Equal(t, none, found(r, CodeCrosswindPattern).Severity)
	in.Release.Crosswind = nil
	assert.Equal(t, finding.Note, found(Assess(in), CodePatternCourseNotStated).Severity)
	in.Release.Course = new(0 * units.BearingDegree)
	assert.Equal(t, finding.Note, found(Assess(in), CodeCrosswindPattern).Severity, "course north, wind from the west")
}

func TestNeighborRules(t *testing.T) {
	t.Parallel()
	for _, tc := range []struct {
		name      string
		neighbor  Neighbor
		pesticide bool
		code      finding.Code
		want      finding.Severity
		downwind  bool
	}{
		{"crop close, tolerance stated", Neighbor{Kind: "crop", Distance: 5 * units.Foot, Bearing: 90 * units.BearingDegree, Tolerance: new(1 * units.Percent)}, true, CodeDepositOverTolerance, finding.Stop, true},
		{"crop close, tolerance not stated", Neighbor{Kind: "crop", Distance: 5 * units.Foot, Bearing: 90 * units.BearingDegree}, true, CodeDepositOverAssumedTolerance, finding.Needed, true},
		{"crop far", Neighbor{Kind: "crop", Distance: 900 * units.Foot, Bearing: 90 * units.BearingDegree}, true, CodeDepositOverAssumedTolerance, none, true},
		{"within the high estimate", Neighbor{Kind: "crop", Distance: 10 * units.Meter, Bearing: 90 * units.BearingDegree, Tolerance: new(2 * units.Percent)}, true, CodeDepositMayExceedTolerance, finding.Caution, true},
		{"bees close", Neighbor{Kind: "apiary", Distance: 20 * units.Foot, Bearing: 100 * units.BearingDegree}, true, CodeWindTowardSensitiveNeighbor, finding.Stop, true},
		{"bees close, not a pesticide", Neighbor{Kind: "apiary", Distance: 20 * units.Foot, Bearing: 100 * units.BearingDegree}, false, CodeWindTowardSensitiveNeighbor, finding.Needed, true},
		{"bees within the high estimate, not a pesticide", Neighbor{Kind: "apiary", Distance: 150 * units.Foot, Bearing: 100 * units.BearingDegree}, false, CodeWindTowardSensitiveNeighbor, finding.Caution, true},
		{"tolerates nothing", Neighbor{Kind: "other", Distance: 60 * units.Foot, Bearing: 90 * units.BearingDegree, Tolerance: new(units.Proportion(0))}, false, CodeWindTowardSensitiveNeighbor, finding.Stop, true},
		{"tolerates next to nothing", Neighbor{Kind: "other", Distance: 60 * units.Foot, Bearing: 90 * units.BearingDegree, Tolerance: new(0.001 * units.Percent)}, false, CodeWindTowardSensitiveNeighbor, finding.Stop, true},
		{"at the edge of the sector", Neighbor{Kind: "dwelling", Distance: 20 * units.Foot, Bearing: 135 * units.BearingDegree}, true, CodeWindTowardSensitiveNeighbor, finding.Stop, true},
		{"a shift away", Neighbor{Kind: "water", Distance: 20 * units.Foot, Bearing: 150 * units.BearingDegree}, true, CodeNeighborNearDownwind, finding.Caution, false},
		{"a road a shift away", Neighbor{Kind: "road", Distance: 10 * units.Foot, Bearing: 20 * units.BearingDegree}, true, CodeNeighborNearDownwind, finding.Caution, false},
		{"upwind", Neighbor{Kind: "organic", Distance: 20 * units.Foot, Bearing: 270 * units.BearingDegree}, true, CodeNeighborNearDownwind, none, false},
	} {
		t.Run(tc.name, func(t *testing.T) {
			t.Parallel()
			in := job(fairDay())
			in.Neighbors, in.Pesticide = []Neighbor{tc.neighbor}, tc.pesticide
			r := Assess(in)
			f := found(r, tc.code)
			assert.Equal(t, tc.want, f.Severity, "%v", r.Findings)
			require.Len(t, r.AtNeighbors, 1)
			assert.Equal(t, tc.downwind, r.AtNeighbors[0].Downwind)
			assert.Equal(t, tc.downwind, r.AtNeighbors[0].PercentOfRate.Best > 0)
			if tc.code == CodeWindTowardSensitiveNeighbor && tc.want == finding.Stop {
				assert.Equal(t, Severe, r.Grade)
			}
		})
	}
}

func TestNeighbors_calmAirGoesAnywhere(t *testing.T) {
	t.Parallel()
	day := fairDay()
	day.wind = 2 * units.MilePerHour
	in := job(day)
	in.Neighbors = []Neighbor{{Kind: "dwelling", Distance: 30 * units.Foot, Bearing: 270 * units.BearingDegree}}
	assert.True(t, Assess(in).AtNeighbors[0].Downwind)
}

func TestBuffer(t *testing.T) {
	t.Parallel()
	in := job(fairDay())
	r := Assess(in)
	require.Equal(t, "deposit", r.Buffer.BoundBy)
	// The high estimate meets the tolerance there and not a meter nearer.
	l, length := landed(in), extent(in)
	assert.LessOrEqual(t, uncertainty*l.deposit(r.Buffer.Distance.SI(), length), 0.0201)
	assert.Greater(t, uncertainty*l.deposit(r.Buffer.Distance.SI()-1, length), 0.02)

	in.Label.DownwindBuffer = new(500 * units.Foot)
	labeled := Assess(in)
	assert.Equal(t, Buffer{Distance: 500 * units.Foot, PercentOfRate: 2 * units.Percent, BoundBy: "label"}, labeled.Buffer)
	assert.Equal(t, finding.Stop, found(labeled, CodeInsideLabelBuffer).Severity, "the neighbor is 300 ft away")
	in.Neighbors[0].Distance = 500 * units.Foot
	assert.Equal(t, none, found(Assess(in), CodeInsideLabelBuffer).Severity)

	in.Label.DownwindBuffer = new(1 * units.Foot)
	in.Neighbors[0].Tolerance = new(0.5 * units.Percent)
	stricter := Assess(in)
	assert.Equal(t, "deposit", stricter.Buffer.BoundBy)
	assert.Greater(t, stricter.Buffer.Distance, r.Buffer.Distance)

	in.Neighbors[0].Tolerance = nil
	common := Assess(in)
	assert.Equal(t, 1*units.Percent, common.Buffer.PercentOfRate)
	unknown := in
	unknown.Neighbors = nil
	nobody := Assess(unknown)
	assert.Equal(t, 0.5*units.Percent, nobody.Buffer.PercentOfRate, "unknown neighbors may be sensitive")
	assert.Greater(t, nobody.Buffer.Distance, common.Buffer.Distance)

	in.Neighbors[0].Tolerance = new(units.Proportion(0))
	in.Release.Mass = nil
	beyond := Assess(sized(in, 120))
	assert.Equal(t, units.Length(farthestBuffer), beyond.Buffer.Distance)
	assert.Equal(t, leastTolerance, beyond.Buffer.PercentOfRate)
	assert.Equal(t, finding.Caution, found(beyond, CodeDriftBuffer).Severity)
}

func TestGradeOf(t *testing.T) {
	t.Parallel()
	boom, airblast := BasicDrift(GroundBoom, gradeDistance), BasicDrift(OrchardAirblast, gradeDistance)
	for _, tc := range []struct {
		deposit units.Proportion
		want    Grade
	}{
		{0, Low}, {boom, Low}, {1.001 * boom, Moderate}, {5 * boom, Moderate}, {5.001 * boom, High},
		{airblast, High}, {1.001 * airblast, Severe}, {BasicDrift(MannedAerial, gradeDistance), Severe}, {units.Whole, Severe},
	} {
		assert.Equal(t, tc.want, gradeOf(tc.deposit), "%v", tc.deposit)
	}
	// The plain words carry the table's own figures.
	assert.InDelta(t, 0.29, boom.In(units.Percent), 0.005)
	assert.InDelta(t, 1.5, 5*boom.In(units.Percent), 0.05)
	assert.InDelta(t, 3.6, airblast.In(units.Percent), 0.05)
}

func TestGrade_raisedByFinesAndForcedByInversion(t *testing.T) {
	t.Parallel()
	in := job(fairDay())
	plain := Assess(in)
	in.Spray.Droplet.Fines = 26 * units.Percent
	fines := Assess(in)
	assert.Equal(t, raised(plain.Grade), fines.Grade)
	assert.Equal(t, finding.Note, found(fines, CodeGradeRaisedByFines).Severity)
	for state, want := range map[air.InversionState]bool{
		air.InversionObserved: true, air.InversionPresumed: true, air.InversionPossible: false, air.InversionAbsent: false,
	} {
		in := job(fairDay())
		in.Air.Inversion = state
		assert.Equal(t, want, Assess(in).Grade == Severe, "%s", state)
	}
	assert.Equal(t, Severe, raised(High))
	assert.Equal(t, Severe, raised(Severe))
	assert.Equal(t, High, raised(Moderate))
}

func TestGrade_severeSaysWhereAndWhatNext(t *testing.T) {
	t.Parallel()
	in := job(fairDay())
	in.Release.Mass, in.Neighbors = nil, nil
	in = sized(in, 200)
	f := found(Assess(in), CodeDriftSevere)
	assert.Equal(t, finding.Needed, f.Severity)
	assert.Contains(t, f.Message, "33 ft downwind of the field")
	assert.Contains(t, f.Message, "nearest thing that lies downwind")
	in.Neighbors = []Neighbor{{Kind: "road", Distance: 20 * units.Foot, Bearing: 90 * units.BearingDegree, Tolerance: new(units.Whole)}}
	assert.Contains(t, found(Assess(in), CodeDriftSevere).Message, "on a downwind neighbor")
	in.Pesticide = false
	assert.Equal(t, finding.Caution, found(Assess(in), CodeDriftSevere).Severity)
}

func TestGrade_worstDownwindNeighbor(t *testing.T) {
	t.Parallel()
	in := job(fairDay())
	in.Neighbors = []Neighbor{
		{Kind: "road", Distance: 2000 * units.Foot, Bearing: 90 * units.BearingDegree},
		{Kind: "road", Distance: 15 * units.Foot, Bearing: 80 * units.BearingDegree, Tolerance: new(units.Whole)},
	}
	assert.Equal(t, Severe, Assess(in).Grade, "15 ft away")
	in.Neighbors[1].Bearing = 270 * units.BearingDegree
	assert.Equal(t, Low, Assess(in).Grade, "2,000 ft away, the near one upwind")
	in.Neighbors = nil
	unknown := Assess(in)
	assert.Equal(t, gradeOf(depositAtTen(unknown)), unknown.Grade, "at 10 m")
}

func TestText(t *testing.T) {
	t.Parallel()
	assert.Equal(t, "1640 ft", inFeet(1640*units.Foot))
	assert.Equal(t, "45 ft", inFeetUp(13.5*units.Meter), "44.3 ft")
	assert.Equal(t, "100 ft", inFeetUp(100*units.Foot))
	assert.Equal(t, "0.85 %", inPercent(0.851*units.Percent))
	assert.Equal(t, "1e+12", figure(1e12))
	assert.Equal(t, "1e-09 %", inPercent(1e-9*units.Percent))
	assert.Equal(t, "0", figure(0))
	assert.Equal(t, "14.8 mph", inMPH(14.8*units.MilePerHour))
	assert.Equal(t, "18 F (10 C)", inDegreesTo(10, 0))
	assert.Equal(t, "17.96 F (9.98 C)", inDegreesTo(9.98, 1))
	for kind, want := range map[string]string{"crop": "neighbor's crop", "organic": "organic land", "apiary": "bee yard", "dwelling": "house", "water": "water", "road": "road", "": "neighbor"} {
		assert.Equal(t, want, Neighbor{Kind: kind}.Words())
	}
}

// A disc has no nozzle to change and no pressure to set, and a nozzle no speed to turn at.
func TestAdviceOnDropsNamesWhatMakesThem(t *testing.T) {
	t.Parallel()
	for code, breaks := range map[finding.Code]func(*Input){
		CodeDropletTooFine:   func(in *Input) { in.Label.DropletClassMin = new(spray.Coarse) },
		CodeDropletTooCoarse: func(in *Input) { in.Label.DropletClassMax = new(spray.Fine) },
		CodeDropletNearLabelLimit: func(in *Input) {
			in.Spray.Droplet.ClassOther, in.Label.DropletClassMin = spray.Fine, new(spray.Medium)
		},
		CodeDropletUnknown: func(in *Input) { in.Spray.Droplet = spray.Droplet{} },
	} {
		for atomizer, words := range map[spray.Atomizer][2]string{
			spray.HydraulicAtomizer: {"nozzle", "disc"}, spray.RotaryAtomizer: {"disc", "nozzle"},
		} {
			in := job(fairDay())
			in.Spray.Atomizer = atomizer
			breaks(&in)
			message := found(Assess(in), code).Message
			assert.Contains(t, message, words[0], "%s, %s", atomizer, code)
			assert.NotContains(t, message, words[1], "%s, %s", atomizer, code)
		}
	}
}
