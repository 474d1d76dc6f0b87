package spray

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tractcheck/feasibility/units"
)

func TestRoundSpeeds(t *testing.T) {
	t.Parallel()
	mph := func(v float64) units.Speed { return units.Speed(v) * units.MilePerHour }
	got := roundSpeeds(mph(9.9), mph(14)) // 8.91 to 15.4, step 0.8
	want := []float64{8.8, 9.6, 10.4, 11.2, 12, 12.8, 13.6, 14.4, 15.2, 16}
	require.Len(t, got, len(want))
	for i, v := range want {
		assert.InDelta(t, v, got[i].In(units.MilePerHour), 1e-9)
	}
	assert.Empty(t, roundSpeeds(0, mph(10)))
	assert.Empty(t, roundSpeeds(mph(10), mph(5)))
	assert.Empty(t, roundSpeeds(mph(10), units.Speed(math.Inf(1))))
}

func TestRoundSpeedsSpanWhatTheyMust(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		lowest := units.Speed(math.Pow(10, rapid.Float64Range(-9, 9).Draw(t, "exponent")))
		highest := lowest * units.Speed(rapid.Float64Range(1, 50).Draw(t, "ratio"))
		got := roundSpeeds(lowest, highest)
		least := 9
		if highest >= 10*lowest {
			least = 8
		}
		if len(got) < least || len(got) > curveMost {
			t.Fatalf("%d speeds for %v to %v", len(got), lowest, highest)
		}
		if last := got[len(got)-1]; last < highest || got[0] > lowest && got[0] > last/8 {
			t.Fatalf("%v to %v does not span %v to %v", got[0], last, lowest, highest)
		}
		for i := 1; i < len(got); i++ {
			if got[i] <= got[i-1] {
				t.Fatal("speeds do not rise")
			}
		}
	})
}

func TestCurveCarriesTheJobAndItsLimits(t *testing.T) {
	t.Parallel()
	r := Hold(fan(), twoGallons(10))
	require.GreaterOrEqual(t, len(r.Curve), 9)
	require.LessOrEqual(t, len(r.Curve), 12)
	assert.False(t, r.Curve[0].WithinRange)
	assert.False(t, r.Curve[len(r.Curve)-1].WithinRange)
	inside := 0
	for i, p := range r.Curve {
		at := Hold(fan(), Job{Rate: 2 * units.GallonPerAcre, Speed: p.Speed, Swath: 13 * units.Foot, Density: RatingDensity})
		assert.InEpsilon(t, at.Pressure.SI(), p.Pressure.SI(), 1e-8)
		assert.InEpsilon(t, at.FlowEach.SI(), p.FlowEach.SI(), 1e-12)
		assert.Equal(t, at.WithinRange, p.WithinRange)
		if p.WithinRange {
			inside++
			assert.Equal(t, at.Droplet.Class, p.Class)
			assert.InDelta(t, at.Droplet.Fines.SI(), p.Fines.SI(), 1e-12)
		}
		if i > 0 {
			assert.Greater(t, p.Fines, r.Curve[i-1].Fines, "faster means more fines")
			assert.Greater(t, *p.Pressure, *r.Curve[i-1].Pressure)
		}
	}
	assert.GreaterOrEqual(t, inside, 3)
}

func TestCurveReachesTheJobUnlessItIsFarOut(t *testing.T) {
	t.Parallel()
	near := Hold(fan(), twoGallons(20)).Curve
	assert.GreaterOrEqual(t, near[len(near)-1].Speed, 20*units.MilePerHour)
	slow := Hold(fan(), twoGallons(6)).Curve
	assert.LessOrEqual(t, slow[0].Speed, 6*units.MilePerHour)
	far := Hold(fan(), twoGallons(500)).Curve
	assert.Less(t, far[len(far)-1].Speed, 20*units.MilePerHour)
}
