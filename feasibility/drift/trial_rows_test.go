package drift

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// 7, air induction: fields of coarse spray lie below the airblast curve from 5 to 50 m (Herbst et al.
// 2023; Butler Ellis et al. 2025), by the mean over heights and winds.
func TestTrials_airInductionBelowTheAirblastCurve(t *testing.T) {
	t.Parallel()
	for _, x := range distances[3:10] {
		mean := 0.0
		for _, wind := range []float64{2, 3, 4, 5} {
			for _, height := range []float64{2, 2.5, 3} {
				mean += line(height, wind, 450).land(200, fine).deposit(x.SI(), 40) / 12
			}
		}
		airblast := BasicDrift(OrchardAirblast, x).SI()
		t.Logf("%v: %.2f of airblast", x, mean/airblast)
		assert.Less(t, mean, airblast, "%v", x)
	}
}

// Xue et al. (2014): 28 and 26 % of the spray were found on the upper and lower canopy. What comes down
// in the field, on leaves and between them, is never less than what was found.
func TestTrials_canopyDeposit(t *testing.T) {
	t.Parallel()
	found := trial(t, "xue-2014", "deposit on the upper canopy") + trial(t, "xue-2014", "deposit on the lower canopy")
	for _, dv05 := range []float64{200, 250, 300} {
		for _, length := range []float64{25, 50, 100} {
			assert.Greater(t, 100*(1-helicopter(dv05).land(1100, fine).beyond(length)), found, "%v um, %v m", dv05, length)
		}
	}
}

// Drones 6:204 (2022), hovering in a tunnel: the swath shifts up to 2 m in 1.5 to 4.5 m/s. The height
// and the weight are not given: 15 and 40 kg, 1.5 to 3 m up, even wind.
func TestTrials_swathShiftInTheTunnel(t *testing.T) {
	t.Parallel()
	want := trial(t, "tunnel-2022", "largest shift of the swath")
	least, most := math.Inf(1), 0.0
	for _, kg := range []float64{15, 40} {
		for _, height := range []float64{1.5, 2, 3} {
			for _, wind := range []float64{1.5, 3, 4.5} {
				f := line(height, wind, 300)
				f.medium.wind = func(float64) float64 { return wind }
				f.rotor.thrust, f.rotor.disc, f.rotor.speed = kg*9.80665, kg/15, 0
				shift := shiftOf(t, f.land(200, fine)).SI()
				least, most = min(least, shift), max(most, shift)
			}
		}
	}
	t.Logf("%.2f to %.2f m", least, most)
	assert.Less(t, least, want)
	assert.Greater(t, most, want)
	assert.Less(t, most, 2.5*want)
}

// Wang J. et al. (2018): the swath moves 2 to 4 m as wind rises. Over the plausible span of a 12 L
// helicopter (1.5 to 3.5 m up, 1 to 5 m/s) both are met, and the shift grows with wind at each height.
func TestTrials_swathMovesWithWind(t *testing.T) {
	t.Parallel()
	from, to := trial(t, "wang-2018", "swath displacement as wind rises from"), trial(t, "wang-2018", "swath displacement as wind rises to")
	least, most := math.Inf(1), 0.0
	for _, height := range []float64{1.5, 2.5, 3.5} {
		last := 0.0
		for _, wind := range []float64{1, 2, 3, 4, 5} {
			f := line(height, wind, 300)
			f.rotor = rotor{thrust: 30 * 9.80665, disc: 3.5, speed: 4, captured: capturedOnBoom, assumed: assumedWake}
			shift := shiftOf(t, f.land(200, fine)).SI()
			assert.GreaterOrEqual(t, shift, last, "%v m up, %v m/s", height, wind)
			last = shift
			least, most = min(least, shift), max(most, shift)
		}
	}
	t.Logf("%.2f to %.2f m", least, most)
	assert.Less(t, least, from)
	assert.Greater(t, most, to)
}

// Wang G. et al. (2020, from memory): one pass at 50 m lay under what could be detected, 0.0002 uL/cm2.
// The rate is not known: at 10 L/ha (0.1 uL/cm2) the ends of the span of heights, winds and sizes lie on
// both sides of it. At the 15 m proposed as buffer every one lies over its own deposit at 50 m.
func TestTrials_centrifugalNozzlesAt50Meters(t *testing.T) {
	t.Parallel()
	limit := trial(t, "wang-g-2020", "deposit at 50 m under the detection limit (from memory)")
	buffer := trial(t, "wang-g-2020", "buffer proposed (from memory)")
	const rate, swath = 0.1, 5.0 // uL/cm2, m
	least, most := math.Inf(1), 0.0
	for _, height := range []float64{1.5, 2, 3} {
		for _, wind := range []float64{0.76, 2, 5.5} {
			for _, dv05 := range []float64{100, 150, 200} {
				l := line(height, wind, dv05).land(300, fine)
				at50 := rate * l.deposit(50, swath)
				assert.Greater(t, rate*l.deposit(buffer, swath), at50)
				least, most = min(least, at50), max(most, at50)
			}
		}
	}
	t.Logf("%.6f to %.6f uL/cm2", least, most)
	assert.Less(t, least, limit)
	assert.Greater(t, most, limit)
}

// IJIAAR 8210: single drops were seen out to 40 m, 1.5 to 2.5 m up, Dv0.5 about 355 um, 10 to 30 L/ha.
// Wind and card are not given: in 3 to 5 m/s a card of 26 x 76 mm there must meet a drop of the 60 um that
// reach so far, or more of them.
func TestTrials_farthestDroplets(t *testing.T) {
	t.Parallel()
	at := trial(t, "turkey-2022", "farthest droplets seen")
	const card, drop = 2.6 * 7.6, math.Pi / 6 * 60 * 60 * 60 * 1e-9 // cm2; uL, a um3 being 1e-9 uL
	least := math.Inf(1)
	for _, height := range []float64{1.5, 2, 2.5} {
		for _, wind := range []float64{3, 5} {
			for _, rate := range []float64{0.1, 0.3} { // uL/cm2
				least = min(least, rate*line(height, wind, 355).land(200, fine).deposit(at, 5)*card/drop)
			}
		}
	}
	t.Logf("%.1f drops on a card at %v m at the least", least, at)
	assert.Greater(t, least, 1.0)
}
