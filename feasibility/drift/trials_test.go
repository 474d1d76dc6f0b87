package drift

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/units"
)

// The brackets of this file are set wide around what could be read of the trials, whose set-ups
// are only partly known; nothing is tuned to a trial. trial reads one figure.
func trial(t *testing.T, id, quantity string) float64 {
	t.Helper()
	for _, row := range published(t, "unmanned-drift-trials.csv") {
		if row["id"] == id && row["quantity"] == quantity {
			return number(t, row, "value")
		}
	}
	require.Fail(t, "no such row", "%s: %s", id, quantity)
	return 0
}

// helicopter is the set-up of Xue et al. (2014) as far as known: 5 m up, 3 m/s wind and flight; of
// a small unmanned helicopter of the time, 25 kg on a rotor of 2 m.
func helicopter(dv05 float64) *flightPlan {
	f := line(5, 3, dv05)
	f.rotor = rotor{thrust: 25 * 9.80665, disc: 3.14, speed: 3, captured: capturedOnBoom, assumed: assumedWake}
	return f
}

// distanceHolding is the distance from the edge that holds 90 % of what lands beyond it within 100 m.
func distanceHolding(l *landing, length float64) float64 {
	deposit := func(x float64) float64 { return l.deposit(x, length) }
	whole := integral(deposit, 100)
	for x := 0.25; x < 100; x += 0.25 {
		if integral(deposit, x) >= 0.9*whole {
			return x
		}
	}
	return 100
}

// 1. Off-target share at 5 m, 3 m/s wind, 3 m/s flight within 5-30 %: 12.9 % (Xue 2014), 15-56 %
// in worse cases (Wang 2018).
func TestTrials_offTargetShare(t *testing.T) {
	t.Parallel()
	want := trial(t, "xue-2014", "off-target share of all spray")
	require.InDelta(t, 12.9, want, 0.05)
	lowest, highest := 100.0, 0.0
	for _, dv05 := range []float64{200, 250, 300} {
		for _, length := range []float64{25, 50, 100} {
			got := 100 * helicopter(dv05).land(1100, fine).beyond(length)
			lowest, highest = min(lowest, got), max(highest, got)
		}
	}
	assert.LessOrEqual(t, lowest, want)
	assert.GreaterOrEqual(t, highest, want)
	middle := 100 * helicopter(250).land(1100, fine).beyond(50)
	assert.Greater(t, middle, 5.0)
	assert.Less(t, middle, 30.0)
}

// 2. 90 % of what drifts lands within 3-10 m in light wind and under 50 m in the worst case: 8 m
// (Xue 2014), 3.7 and 46.5 m (Wang 2018).
func TestTrials_distanceHolding90Percent(t *testing.T) {
	t.Parallel()
	// The set-ups are not given: the plausible span of a light wind is run, and judged by its ends. The
	// drop sizes are those reported for what appears to be the same machine, 270 to 380 um.
	light, most := 100.0, 0.0
	for _, height := range []float64{1.5, 2, 2.5, 3} {
		for _, dv05 := range []float64{270, 380} {
			held := distanceHolding(line(height, 2, dv05).land(600, fine), 20)
			light, most = min(light, held), max(most, held)
			// Nearer to calm a field loses next to nothing, and of that little the mist has the larger part.
			calmer := distanceHolding(line(height, 1, dv05).land(600, fine), 20)
			assert.Less(t, calmer, trial(t, "wang-2018", "distance holding 90 % of drift worst case"))
		}
	}
	t.Logf("light wind: 90 %% within %.2f to %.2f m", light, most)
	assert.LessOrEqual(t, light, trial(t, "wang-2018", "distance holding 90 % of drift best case"))
	assert.GreaterOrEqual(t, most, 3.0)
	assert.Less(t, most, 10.0)
	// 5 m up in 3 m/s of wind; drop size and passes are not given.
	least, farthest := 100.0, 0.0
	for _, dv05 := range []float64{250, 400} {
		for _, length := range []float64{5, 15, 50} {
			held := distanceHolding(helicopter(dv05).land(600, fine), length)
			least, farthest = min(least, held), max(farthest, held)
		}
	}
	t.Logf("5 m up, 3 m/s: 90 %% within %.2f to %.2f m, measured 8 m", least, farthest)
	assert.LessOrEqual(t, least, trial(t, "xue-2014", "distance holding 90 % of drift from the edge"))
	assert.Less(t, farthest, trial(t, "wang-2018", "distance holding 90 % of drift worst case"))
	worst := distanceHolding(unaided(4, 5, 250).land(600, fine), 20)
	assert.Less(t, worst, trial(t, "wang-2018", "distance holding 90 % of drift worst case")+3.5)
	assert.Greater(t, worst, light)
}

// 3. At 50 m under 1 % of the rate for Fine or coarser at 3 m/s: Xue 2014 ("almost 0"), Butler
// Ellis 2025.
func TestTrials_littleAt50Meters(t *testing.T) {
	t.Parallel()
	for _, dv05 := range []float64{200, 250, 350, 450} {
		for _, length := range []float64{30, 150, 400} {
			assert.Less(t, 100*line(3, 3, dv05).land(600, fine).deposit(50, length), 1.0, "%v um, %v m of field", dv05, length)
			assert.Less(t, 100*helicopter(dv05).land(600, fine).deposit(50, min(length, 30)), 1.0, "%v um", dv05)
		}
	}
}

// 4. The swath shifts 0-4 m, more with more wind: largest 4 m (Wang 2018), 2 m at 4.5 m/s in a
// tunnel (Drones 6:204). The shift is the distance within which half of the spray has landed.
func TestTrials_swathShift(t *testing.T) {
	t.Parallel()
	last := 0.0
	for _, wind := range []float64{1.5, 3, 4.5} {
		l := line(2, wind, 300).land(200, fine)
		shift := 0.0
		for l.within(shift) < 0.5 {
			shift += 0.05
		}
		assert.Less(t, shift, trial(t, "wang-2018", "largest shift of the start of the swath"))
		assert.GreaterOrEqual(t, shift, last, "wind %v", wind)
		last = shift
	}
}

// 5. Air induction (Coarse and coarser) under a standard fan at every distance, and at least half
// as much at 10 m: Herbst et al. (2023).
func TestTrials_coarseBelowFine(t *testing.T) {
	t.Parallel()
	for _, wind := range []float64{2, 3, 5} {
		for _, height := range []float64{2, 3} {
			coarse, fan := line(height, wind, 450).land(600, fine), line(height, wind, 230).land(600, fine)
			for _, x := range distances[3:] {
				assert.Less(t, coarse.deposit(x.SI(), 100), fan.deposit(x.SI(), 100), "%v", x)
			}
			assert.Less(t, coarse.deposit(10, 100), fan.deposit(10, 100)/2)
		}
	}
	// Below the ground sprayer's value in vines, late: 44.769 x^-1.5643 percent (Rautmann et al. 2001,
	// constants from memory). The vineyard's heights and plots are not known: the usual ones are run,
	// and their mean judged.
	heights := []float64{1.5, 2, 2.5, 3}
	for _, x := range []float64{5, 10, 20} {
		mean := 0.0
		for _, height := range heights {
			mean += line(height, 3, 450).land(200, fine).deposit(x, 30) / float64(len(heights))
		}
		assert.Less(t, 100*mean, 44.769*math.Pow(x, -1.5643), "at %v m", x)
	}
}

// 6. Wind weighs more than nozzle class, nozzle class more than payload: Drones 6:204 (2022), wind
// 1.5 to 4.5 m/s, fine to coarse, payload 2 to 10 L.
func TestTrials_orderOfEffects(t *testing.T) {
	t.Parallel()
	at := func(f *flightPlan) float64 { return f.land(300, fine).deposit(5, 50) }
	heavy := line(2, 3, 300)
	light := line(2, 3, 300)
	light.rotor.thrust -= 8 * 9.80665
	wind := at(line(2, 4.5, 300)) / at(line(2, 1.5, 300))
	nozzle := at(line(2, 3, 200)) / at(line(2, 3, 350))
	payload := at(light) / at(heavy)
	assert.Greater(t, wind, nozzle)
	assert.Greater(t, nozzle, payload)
}

// 7. Fields of 4 or more passes at 5-50 m lie around the orchard airblast curve, a factor of 4
// either way, and never above the manned aerial curve: Butler Ellis et al. (2025), Bonds et al.
// (2024). Winds as of the published curves, up to 5 m/s; Fine to Medium sprays; 2 to 3 m up.
func TestTrials_aroundTheAirblastCurve(t *testing.T) {
	t.Parallel()
	for _, captured := range []float64{capturedUnderRotors, capturedOnBoom} {
		for _, x := range distances[3:10] {
			airblast, aerial := BasicDrift(OrchardAirblast, x).SI(), BasicDrift(MannedAerial, x).SI()
			mean := meanOverConditions(x.SI(), captured)
			t.Logf("%v of the spray in the wake, %v: %.3f %%, %.2f of airblast", captured, x, 100*mean, mean/airblast)
			assert.Greater(t, mean, airblast/4, "%v", x)
			assert.Less(t, mean, airblast*4, "%v", x)
			assert.Less(t, mean, aerial, "%v", x)
		}
	}
}

// meanOverConditions is the mean deposit of a field of about ten passes over 36 conditions.
func meanOverConditions(x, captured float64) float64 {
	var sum float64
	cases := 0
	for _, wind := range []float64{2, 3, 4, 5} {
		for _, height := range []float64{2, 2.5, 3} {
			for _, dv05 := range []float64{200, 250, 300} {
				f := line(height, wind, dv05)
				f.rotor.captured = captured
				sum += f.land(200, fine).deposit(x, 40)
				cases++
			}
		}
	}
	return sum / float64(cases)
}

// Wang J. et al. (2018): total drift share 15.42 to 55.76 % of the spray of one line, 90 % of it within
// 3.7 to 46.5 m. Heights, winds and weights are not given: the plausible span of a 12 L helicopter is
// run (22 and 35 kg, 1.5 to 3.5 m up, 1 to 5 m/s, Dv0.5 of 270 and 380 um, drift being what lands or
// flies beyond half the swath of 4.44 m), and must hold both ends of the share.
func TestTrials_totalDriftOfOneLine(t *testing.T) {
	t.Parallel()
	least, most := 100.0, 0.0
	for _, kg := range []float64{22, 35} {
		for _, height := range []float64{1.5, 2.5, 3.5} {
			for _, wind := range []float64{1, 3, 5} {
				for _, dv05 := range []float64{270, 380} {
					f := line(height, wind, dv05)
					f.rotor = rotor{thrust: kg * units.StandardGravity, disc: 3.5, speed: 3, captured: capturedOnBoom, assumed: assumedWake}
					share := 100 * (1 - f.land(1100, fine).within(4.44/2))
					least, most = min(least, share), max(most, share)
				}
			}
		}
	}
	t.Logf("%.1f to %.1f %% beyond the swath", least, most)
	assert.Less(t, least, trial(t, "wang-2018", "total drift share lowest case"))
	assert.Greater(t, most, trial(t, "wang-2018", "total drift share highest case"))
}

// Wang G. et al. (2020, from memory): at 12 m a tenth of the deposit in the swath, Dv0.5 of 100 to
// 200 um, wind 0.76 to 5.5 m/s; height and passes not known, so the span of one pass is run.
func TestTrials_centrifugalNozzlesAt12Meters(t *testing.T) {
	t.Parallel()
	want := trial(t, "wang-g-2020", "deposit at 12 m over that in the swath (from memory)")
	least, most := 1.0, 0.0
	for _, height := range []float64{1.5, 2, 3} {
		for _, wind := range []float64{0.76, 2, 5.5} {
			for _, dv05 := range []float64{100, 150, 200} {
				l := line(height, wind, dv05).land(300, fine)
				ratio := (l.within(12.5) - l.within(11.5)) / (l.within(5) / 5)
				least, most = min(least, ratio), max(most, ratio)
			}
		}
	}
	t.Logf("%.4f to %.3f of the swath's deposit", least, most)
	assert.Less(t, least, want)
	assert.Greater(t, most, want)
}

// factor reads the span of a published effect.
func factor(t *testing.T, effect string) (low, high float64) {
	t.Helper()
	for _, row := range published(t, "drift-factors.csv") {
		if row["effect"] == effect {
			return number(t, row, "low"), number(t, row, "high")
		}
	}
	require.Fail(t, "no such effect", effect)
	return 0, 0
}

// shiftOf is how far down the wind half of a line's spray has landed.
func shiftOf(t *testing.T, l *landing) units.Length {
	t.Helper()
	shift, lands := swathShift(l)
	require.True(t, lands)
	return shift
}

// The published factors of ground booms, without rotors: University of Nebraska review, Klein.
func TestFactors_windAndHeightOfGroundBooms(t *testing.T) {
	t.Parallel()
	const ninetyFeet = 27.4
	at := func(height, wind float64) float64 {
		return unaided(height, wind, 250).land(300, fine).deposit(ninetyFeet, 100)
	}
	for effect, got := range map[string]float64{
		"wind doubled at 90 ft":   at(0.9, 8) / at(0.9, 4),
		"height doubled at 90 ft": at(0.9, 5) / at(0.45, 5),
	} {
		low, high := factor(t, effect)
		t.Logf("%s: x %.2f", effect, got)
		assert.Greater(t, got, low, effect)
		assert.Less(t, got, high, effect)
	}
}

// Doubling the distance from 100 ft: published a fifth. The model falls more slowly, which errs toward
// more deposit far out; its span over winds of 2 to 6 m/s and fields of 15 to 100 m is judged.
func TestFactors_distanceDoubled(t *testing.T) {
	t.Parallel()
	low, high := factor(t, "distance doubled from 100 ft")
	least, most := 1.0, 0.0
	for _, wind := range []float64{2, 4, 6} {
		for _, length := range []float64{15, 100} {
			l := unaided(0.9, wind, 250).land(300, fine)
			ratio := l.deposit(61, length) / l.deposit(30.5, length)
			least, most = min(least, ratio), max(most, ratio)
		}
	}
	t.Logf("%.2f to %.2f; published 0.20", least, most)
	assert.Greater(t, least, low)
	assert.Less(t, least, 1.5*low)
	assert.Less(t, most, high)
}

// Air induction (Dv0.5 twice the fan's) against a standard fan at 10 m, and the shift of the swath.
func TestFactors_airInductionAndShift(t *testing.T) {
	t.Parallel()
	low, high := factor(t, "air induction over standard fan at 10 m")
	nearest, farthest := factor(t, "swath shift")
	for _, wind := range []float64{2, 3, 5} {
		fan := line(2.5, wind, 230).land(300, fine)
		ratio := line(2.5, wind, 460).land(300, fine).deposit(10, 100) / fan.deposit(10, 100)
		t.Logf("%v m/s: air induction x %.2f, shift %v", wind, ratio, shiftOf(t, fan))
		assert.Greater(t, ratio, low)
		assert.Less(t, ratio, high)
		assert.GreaterOrEqual(t, shiftOf(t, fan).SI(), nearest)
		assert.LessOrEqual(t, shiftOf(t, fan).SI(), farthest)
	}
}
