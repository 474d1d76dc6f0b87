package feasibility

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"tractcheck/feasibility/units"
)

func TestOrdersStayInsideTheLimitTheyWereFoundBy(t *testing.T) {
	for _, tc := range []struct {
		quantity units.Quantity
		want     string
	}{
		{2.45656 * units.Gallon, "2.45 gal"},
		{0.456999 * units.Gallon, "0.456 gal"},
		{0.00598502 * units.Gallon, "0.00598 gal"},
		{12345 * units.Gallon, "12300 gal"},
		{1.37102 * units.MilePerHour, "1.37 mph"},
		{2 * units.GallonPerAcre, "2 gal/ac"},
		{2 * units.Meter, "6.56 ft"},
		{0.3 * units.GallonPerMinute, "0.30 gal/min"},
		{40 * units.PoundPerSquareInch, "40 psi"},
		{4080 * units.RevolutionPerMinute, "4080 rpm"},
	} {
		assert.Equal(t, tc.want, inUS(tc.quantity))
	}
}

func TestTimesAndAreasOfAnySizeAreSaid(t *testing.T) {
	assert.Equal(t, "but the hours cannot be worked out yet", spell(0))
	assert.Equal(t, "about 1 minute", spell(2*units.Second))
	assert.Equal(t, "about 5 minutes", spell(5*units.Minute))
	assert.Equal(t, "about 1.8 hours", spell(108*units.Minute))
	assert.Equal(t, "0.001 acres", acres(0.001*units.Acre))
	assert.Equal(t, "4.7 acres", acres(4.73*units.Acre))
	assert.Equal(t, "25.0 acres", outlook{sprayed: 25 * units.Acre, left: 1 * units.Acre, tract: 26 * units.Acre}.ground())
	assert.Equal(t, "7.3 of the 26.1 acres", outlook{sprayed: 7.27 * units.Acre, left: 18.6 * units.Acre, tract: 26.07 * units.Acre}.ground())
	assert.True(t, math.IsInf(outlook{}.hours(), 1), "a time not known is never the shortest")
}

func TestStepsNameWhatIsOpen(t *testing.T) {
	for _, tc := range []struct {
		change string
		then   outlook
		want   string
	}{
		{"", outlook{papers: []string{"Remote identification"}}, "get or confirm 1 permit or check (Remote identification)"},
		{"", outlook{papers: []string{"A", "B"}}, "get or confirm the 2 permits and checks on the list"},
		{"fly at 9 mph", outlook{papers: []string{"A", "B"}}, "fly at 9 mph, and get or confirm the 2 permits and checks that the changed job needs"},
		{"", outlook{points: []string{"Drift risk is severe"}}, "settle 1 more point (Drift risk is severe)"},
		{"", outlook{points: []string{"One", "Two"}}, "settle 2 more points (first: One)"},
		{"fly at 9 mph", outlook{label: true}, "fly at 9 mph, and make sure that the label allows spraying by air and by drone"},
	} {
		assert.Equal(t, tc.want, steps(tc.change, tc.then))
	}
}
