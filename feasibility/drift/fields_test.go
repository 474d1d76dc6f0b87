package drift

import (
	"math"
	"math/rand/v2"
	"sort"
	"testing"

	"github.com/stretchr/testify/assert"

	"tractcheck/feasibility/units"
)

// spreadOfConditions is the spread behind the model's percentiles, fixed seed: winds of 1 to 5 m/s as
// of the published curves, 1.5 to 3 m up, Dv0.5 of 150 to 350 um (fine to medium), Delta T 2 to 8 C,
// flight at 3 to 7 m/s, machines of 20 to 50 kg at 128 to 157 N/m2, fields 20 to 150 m along the
// wind (4 passes or more), nozzles under the rotors.
func spreadOfConditions() (plans []*flightPlan, lengths []float64) {
	random := rand.New(rand.NewPCG(3, 3))
	in := func(low, high float64) float64 { return low + (high-low)*random.Float64() }
	for range 300 {
		f := line(in(1.5, 3), in(1, 5), in(150, 350))
		f.medium.depression = in(2, 8)
		f.rotor.speed = in(3, 7)
		kg := in(20, 50)
		f.rotor.thrust, f.rotor.disc = kg*units.StandardGravity, kg/in(13, 16)
		random.IntN(2) // the course of the lines, which the deposit does not depend on
		plans, lengths = append(plans, f), append(lengths, in(20, 150))
	}
	return plans, lengths
}

// percentile is that of the deposits of the spread at distances, percent of the rate.
func percentile(part float64, at []float64) []float64 {
	plans, lengths := spreadOfConditions()
	all := make([][]float64, len(at))
	for i, f := range plans {
		l := f.land(300, fine)
		for j, x := range at {
			all[j] = append(all[j], 100*l.deposit(x, lengths[i]))
		}
	}
	out := make([]float64, len(at))
	for j := range at {
		sort.Float64s(all[j])
		out[j] = all[j][int(part*float64(len(all[j])))]
	}
	return out
}

// curvePercent is a published curve at distances, percent of the rate.
func curvePercent(name Curve, at []float64) []float64 {
	out := make([]float64, len(at))
	for i, x := range at {
		out[i] = BasicDrift(name, units.Length(x)).In(units.Percent)
	}
	return out
}

// agreement is FAC2, fractional bias and NMSE of Chang and Hanna (2004), Meteorol. Atmos. Phys.
// 87:167 (from memory). A negative bias says that the model stands over the measured.
func agreement(measured, model []float64) (fac2, bias, nmse float64) {
	var o, p, square, within float64
	for i := range measured {
		o, p = o+measured[i], p+model[i]
		square += (measured[i] - model[i]) * (measured[i] - model[i])
		if r := model[i] / measured[i]; r >= 0.5 && r <= 2 {
			within++
		}
	}
	n := float64(len(measured))
	return within / n, 2 * (o - p) / (o + p), square / n / (o / n * p / n)
}

var fieldDistances = []float64{5, 7.5, 10, 15, 20, 30, 50}

// The 90th percentile of the model over the spread against the published 90th-percentile curves, as it
// is; judged is only the order: over the ground boom and under manned aircraft at every distance
// (Bonds et al. 2024), and within a factor of 4 of orchard airblast (Butler Ellis et al. 2025).
func TestFields_ninetiethPercentileAgainstPublishedCurves(t *testing.T) {
	t.Parallel()
	model := percentile(0.9, fieldDistances)
	median := percentile(0.5, fieldDistances)
	for _, name := range []Curve{OrchardAirblast, GroundBoom, MannedAerial} {
		fac2, bias, nmse := agreement(curvePercent(name, fieldDistances), model)
		t.Logf("90th percentile against %s: FAC2 %.2f, FB %+.2f, NMSE %.2f", name, fac2, bias, nmse)
	}
	fac2, bias, nmse := agreement(curvePercent(OrchardAirblast, fieldDistances)[2:], model[2:])
	t.Logf("90th percentile against orchard_airblast from 10 m on: FAC2 %.2f, FB %+.2f, NMSE %.2f", fac2, bias, nmse)
	for i, x := range fieldDistances {
		at := units.Length(x)
		boom, airblast, aerial := BasicDrift(GroundBoom, at).In(units.Percent), BasicDrift(OrchardAirblast, at).In(units.Percent), BasicDrift(MannedAerial, at).In(units.Percent)
		t.Logf("%v m: model median %.3f %%, 90th percentile %.3f %%; boom %.3f, airblast %.3f, aerial %.3f", x, median[i], model[i], boom, airblast, aerial)
		assert.Greater(t, model[i], boom, "%v m", x)
		assert.Less(t, model[i], aerial, "%v m", x)
		assert.Greater(t, model[i], airblast/4, "%v m", x)
		assert.Less(t, model[i], airblast*4, "%v m", x)
	}
}

// At equal wind, all three flown by the model: a ground boom 0.5 m up, a multirotor, and an aircraft
// 3.5 m up too fast for a wake to press the spray down. Order of Bonds et al. (2024).
func TestFields_orderOfSprayersAtEqualWind(t *testing.T) {
	t.Parallel()
	for _, wind := range []float64{2, 3.5, 5} {
		boom, multirotor, aerial := unaided(0.5, wind, 250).land(300, fine), line(2.5, wind, 250).land(300, fine), unaided(3.5, wind, 250).land(300, fine)
		for _, x := range fieldDistances {
			assert.Less(t, boom.deposit(x, 100), multirotor.deposit(x, 100), "%v m/s, %v m", wind, x)
			assert.Less(t, multirotor.deposit(x, 100), aerial.deposit(x, 100), "%v m/s, %v m", wind, x)
		}
	}
}

// wakeEnds are the plausible ends of what is assumed of the wake, one at a time.
var wakeEnds = []struct {
	name      string
	low, high func(*rotor)
}{
	{"share of the spray in the wake 0.80 to 0.98", func(r *rotor) { r.captured = 0.98 }, func(r *rotor) { r.captured = 0.80 }},
	{"growth 0.2 to 0.45", func(r *rotor) { r.assumed.growth = 0.2 }, func(r *rotor) { r.assumed.growth = 0.45 }},
	{"swept back from 1.5 to 2.2, or from 0.7 to 1.2", func(r *rotor) { r.assumed.fullHelp, r.assumed.noHelp = 1.5, 2.2 }, func(r *rotor) { r.assumed.fullHelp, r.assumed.noHelp = 0.7, 1.2 }},
	{"layer 0.25 to 1 half-widths deep", func(r *rotor) { r.assumed.layer = 0.25 }, func(r *rotor) { r.assumed.layer = 1 }},
	{"outwash 0.7 to 2 half-widths", func(r *rotor) { r.assumed.outwash = 0.7 }, func(r *rotor) { r.assumed.outwash = 2 }},
	{"lost at 1.5 to 3 sigma", func(r *rotor) { r.assumed.lostAt = 1.5 }, func(r *rotor) { r.assumed.lostAt = 3 }},
}

// The answer's factor of uncertainty is what the wake's assumptions are worth together: each one moved
// to its ends, the median of the logarithms over the conditions of the spread, added in squares.
func TestUncertainty_followsFromTheWake(t *testing.T) {
	t.Parallel()
	plans, lengths := spreadOfConditions()
	plans = plans[:120]
	at := func(change func(*rotor), i int, x float64) float64 {
		f := *plans[i]
		change(&f.rotor)
		return max(1e-6, f.land(200, fine).deposit(x, lengths[i]))
	}
	for _, x := range []float64{10, 20} {
		square := 0.0
		for _, end := range wakeEnds {
			var ratios []float64
			for i := range plans {
				ratios = append(ratios, math.Abs(math.Log(at(end.high, i, x)/at(end.low, i, x)))/2)
			}
			sort.Float64s(ratios)
			middle := ratios[len(ratios)/2]
			square += middle * middle
			t.Logf("%v m: %s: a factor of %.2f either way (90 %% of cases under %.2f)", x, end.name, math.Exp(middle), math.Exp(ratios[len(ratios)*9/10]))
		}
		together := math.Exp(math.Sqrt(square))
		none := func(r *rotor) { *r = rotor{} }
		t.Logf("%v m: together %.2f; no wake at all in the first condition: x %.1f", x, together, at(none, 0, x)/at(func(*rotor) {}, 0, x))
		assert.Less(t, together, float64(uncertainty), "the stated factor covers it")
		assert.Greater(t, together, uncertainty/2.5, "and is not far beyond it")
	}
}
