package flight

import (
	"math"

	"tractcheck/feasibility/units"
)

// Own choices: the terms of a curve's series, and the widest range of masses that so few of them
// serve to a part in ten million.
const (
	curveTerms = 16
	curveRange = 6 // heaviest over lightest
)

// Curve is a model's flight power over a range of masses at one air speed, worked out once: a plan
// asks for it thousands of times. Within the range it agrees with the model to one part in
// 10,000,000. Outside of the range, or where the range is too wide for a series, it asks the model.
//
// Power is held as a Chebyshev series in the mass, and so is its integral, which gives the mean
// power of a tank that empties evenly. Press et al. 2007, Numerical Recipes, 3rd edition, sections
// 5.8 and 5.9 (from memory).
type Curve struct {
	model       Model
	air         units.Speed
	middle      float64 // kg
	half        float64 // kg; 0: no series
	terms       int     // of power that matter
	power       [curveTerms]float64
	antiderived [curveTerms + 1]float64
}

// Curve reports the flight power between two masses at an air speed.
func (m Model) Curve(least, most units.Mass, air units.Speed) Curve {
	c := Curve{model: m, air: air}
	if !(least > 0) || !(most > least*(1+1e-9)) || !(most <= curveRange*least) || !units.Finite(most) {
		return c
	}
	c.middle, c.half = (least+most).SI()/2, (most-least).SI()/2
	n := termsFor(c.middle / c.half)
	for k := range n {
		x := math.Cos(math.Pi * (float64(k) + 0.5) / float64(n))
		at := 2.0 / float64(n) * m.Forward(units.Mass(c.middle+c.half*x), air).SI()
		// T_j(x) by its recurrence, T_(j+1) = 2 x T_j - T_(j-1).
		this, next := 1.0, x
		for j := range n {
			c.power[j] += float64(at * this)
			this, next = next, float64(2*x*next)-this
		}
	}
	c.integrate()
	c.trim()
	return c
}

// termsFor reports how many terms serve. A power of the mass is smooth but at no mass at all, which lies
// z = middle/half below the middle of the range; its series then falls as (z + sqrt(z^2-1))^-j.
// Trefethen 2013, Approximation Theory and Approximation Practice, theorem 8.2 (from memory).
func termsFor(z float64) int {
	const accuracy = 1e-8
	falls := math.Log(z + math.Sqrt(z*z-1))
	return max(3, min(curveTerms, int(math.Ceil(-math.Log(accuracy)/falls))))
}

// trim leaves out the last terms, which together make less than a part in a hundred million.
func (c *Curve) trim() {
	c.terms = curveTerms
	for left := 1e-8 * math.Abs(c.power[0]); c.terms > 1; c.terms-- {
		if left -= math.Abs(c.power[c.terms-1]); left < 0 {
			return
		}
	}
}

// integrate works out the series of the integral: C_j = (c_(j-1) - c_(j+1))/(2j), over x from -1 to 1.
func (c *Curve) integrate() {
	for j := 1; j <= curveTerms; j++ {
		next := 0.0
		if j+1 < curveTerms {
			next = c.power[j+1]
		}
		c.antiderived[j] = (c.power[j-1] - next) / float64(2*j)
	}
}

// series sums c_0/2 + c_1 T_1(x) + ... by Clenshaw's recurrence.
func series(c []float64, x float64) float64 {
	var one, two float64
	for j := len(c) - 1; j > 0; j-- {
		one, two = float64(2*x*one)-two+c[j], one
	}
	return float64(x*one) - two + c[0]/2
}

// place reports where a mass stands on the series, -1 to 1, and whether it does.
func (c *Curve) place(mass float64) (float64, bool) {
	if c.half == 0 {
		return 0, false
	}
	x := (mass - c.middle) / c.half
	return x, math.Abs(x) <= 1+1e-9
}

// At reports the flight power at a mass: Model.Forward at the curve's air speed.
func (c *Curve) At(mass units.Mass) units.Power {
	if x, ok := c.place(mass.SI()); ok {
		return units.Power(series(c.power[:c.terms], x))
	}
	return c.model.Forward(mass, c.air)
}

// Spraying reports the energy to spray for a time while the mass moves evenly between two values:
// Model.Spraying at the curve's air speed.
func (c *Curve) Spraying(from, to units.Mass, during units.Duration) units.Energy {
	a, okA := c.place(from.SI())
	b, okB := c.place(to.SI())
	if !okA || !okB {
		return c.model.Spraying(from, to, c.air, during)
	}
	if during <= 0 {
		return 0
	}
	// Where the masses nearly meet the mean is the power between them, and the quotient is dust.
	mean := series(c.power[:c.terms], (a+b)/2)
	if math.Abs(a-b) > 1e-4 {
		mean = (series(c.antiderived[:c.terms+1], a) - series(c.antiderived[:c.terms+1], b)) / (a - b)
	}
	return units.Power(mean + c.model.spray).During(during)
}
