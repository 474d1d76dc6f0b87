package drift

import (
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// A figure that breaks its limit by a hair does not read like it.
func TestFiguresReadApartFromTheirLimits(t *testing.T) {
	t.Parallel()
	mph := units.MilePerHour
	for _, tc := range []struct {
		code finding.Code
		says string
		in   func(*Input)
	}{
		{CodeDeltaTLow, `is 3\.58 F \(1\.99 C\), under 3\.6 F \(2 C\)`, func(in *Input) { in.Air.Depression = 1.99 }},
		{CodeDeltaTHigh, `is 14\.401 F \(8\.001 C\), over the preferred 14\.4 F \(8 C\)`, func(in *Input) { in.Air.Depression = 8.0008 }},
		{CodeDeltaTTooHigh, `is 18\.04 F \(10\.02 C\), over 18 F \(10 C\)`, func(in *Input) { in.Air.Depression = 10.02 }},
		{CodeWindOverLabel, `wind is 10\.01 mph and the label allows at most 10 mph`, func(in *Input) { in.WindSpeed, in.Label.MaxWind = 10.01*mph, new(10*mph) }},
		{CodeWindOverCommonPractice, `wind is 15\.04 mph\. .* over 15 mph`, func(in *Input) { in.WindSpeed = 15.04 * mph }},
		{CodeGustOverLabel, `reach 10\.003 mph and the label allows at most 10 mph`, func(in *Input) { in.Gust, in.Label.MaxWind = new(10.003*mph), new(10*mph) }},
		{CodeGustOverCommonPractice, `reach 15\.02 mph\. .* over 15 mph`, func(in *Input) { in.Gust = new(15.02 * mph) }},
		{CodeGustNotStated, `gusts of 15\.03 mph are usual, over the limit of 15 mph`, func(in *Input) { in.WindSpeed, in.Gust = 10.02*mph, nil }},
		{CodeWindUnderLabel, `wind is 3\.99 mph and the label asks for at least 4 mph`, func(in *Input) { in.WindSpeed, in.Label.MinWind = 3.99*mph, new(4*mph) }},
		{CodeWindCalm, `only 2\.98 mph, so`, func(in *Input) { in.WindSpeed = 2.98 * mph }},
		{CodeReleaseHeightOverLabel, `from 9\.02 ft above the crop and the label allows at most 9 ft`, func(in *Input) { in.Release.Height, in.Label.MaxHeight = 9.02*units.Foot, new(9*units.Foot) }},
		{CodeReleaseHeightHigh, `from 10\.1 ft above the crop\. Labels often allow at most 10 ft`, func(in *Input) { in.Release.Height = 10.1 * units.Foot }},
		{CodeInsideLabelBuffer, `lies 299\.6 ft downwind, inside the label's buffer of 300 ft`, func(in *Input) {
			in.Neighbors[0].Distance, in.Label.DownwindBuffer = 299.6*units.Foot, new(300*units.Foot)
		}},
	} {
		t.Run(string(tc.code), func(t *testing.T) {
			in := job(fairDay())
			tc.in(&in)
			f := found(Assess(in), tc.code)
			require.NotEmpty(t, f.Code)
			assert.Regexp(t, tc.says, f.Message)
		})
	}
}

// What lands and what is tolerated read apart, whichever of the two binds and however near they are.
func TestDepositsReadApartFromTolerances(t *testing.T) {
	t.Parallel()
	figures := regexp.MustCompile(`[0-9.]+ %`)
	in := job(fairDay())
	estimate := Assess(in).AtNeighbors[0].PercentOfRate
	for _, tc := range []struct {
		code      finding.Code
		tolerance units.Proportion
	}{
		{CodeDepositOverTolerance, estimate.Best},
		{CodeDepositMayExceedTolerance, estimate.High},
	} {
		for _, nearly := range []units.Proportion{0.9, 0.97, 0.996, 0.9999, 0.999999} {
			in.Neighbors[0].Tolerance = new(nearly * tc.tolerance)
			f := found(Assess(in), tc.code)
			require.NotEmpty(t, f.Code)
			said := figures.FindAllString(f.Message, -1)
			require.Len(t, said, 2, f.Message)
			assert.NotEqual(t, said[0], said[1], f.Message)
		}
	}
}
