package flight

import (
	"math"

	"tractcheck/feasibility/units"
)

// Spraying reports the energy to fly at an air speed for a time while the mass falls evenly from
// one value to another, pump and atomizers included. In hover it is the closed form; in forward
// flight a quadrature good to one part in a million.
func (m Model) Spraying(from, to units.Mass, air units.Speed, during units.Duration) units.Energy {
	if during <= 0 || m.law.power <= 0 {
		return 0
	}
	power := m.meanPower(max(0, from.SI()), max(0, to.SI()), air) + m.spray
	return units.Power(power).During(during)
}

// meanPower reports the mean flight power, in W, while the mass moves evenly between two values in
// kg. It is the same whichever way the mass moves.
func (m Model) meanPower(from, to float64, air units.Speed) float64 {
	apart := math.Abs(from-to) > 1e-3*max(from, to)
	if air == 0 && apart {
		return m.law.meanBetween(from, to)
	}
	// Gauss-Legendre quadrature, five points (Abramowitz and Stegun 1964, table 25.4).
	center, half := (from+to)/2, (to-from)/2
	var mean float64
	for _, node := range quadrature {
		mean += float64(node.weight / 2 * m.Forward(units.Mass(center+half*node.at), air).SI())
	}
	return mean
}

// meanBetween is the mean of K m^n between two masses:
// K (m0^(n+1) - m1^(n+1)) / ((n+1) (m0 - m1)), that is E = K (m0^(n+1) - m1^(n+1))/(q (n+1)) over
// the time (m0 - m1)/q. The masses must differ.
func (l hoverLaw) meanBetween(from, to float64) float64 {
	n := l.exponent + 1
	a, b := from/l.mass, to/l.mass
	return l.power * (math.Pow(a, n) - math.Pow(b, n)) / (n * (a - b))
}

// quadrature is the five-point Gauss-Legendre rule on -1 to 1.
// Abramowitz and Stegun 1964, Handbook of Mathematical Functions, table 25.4, n = 5.
var quadrature = [...]struct{ at, weight float64 }{
	{-0.906179845938664, 0.236926885056189},
	{-0.538469310105683, 0.478628670499366},
	{0, 0.568888888888889},
	{0.538469310105683, 0.478628670499366},
	{0.906179845938664, 0.236926885056189},
}

// SprayTime reports how long an energy budget lasts while spraying at an air speed: liquid of a
// density leaves at an even flow from the starting mass down to the dry mass. It ends when the
// budget is spent or the tank is empty, whichever is first; with no flow only the budget ends it.
func (m Model) SprayTime(from, dry units.Mass, rate units.Flow, density units.Density, air units.Speed, budget units.Energy) units.Duration {
	if budget <= 0 || from <= 0 || m.law.power <= 0 {
		return 0
	}
	loss := max(0, float64(rate)*float64(density)) // kg/s
	if loss == 0 {
		return units.Duration(budget.SI() / (m.Forward(from, air).SI() + m.spray))
	}
	empty := units.Duration(max(0, float64(from-dry)) / loss)
	if units.AtMost(m.Spraying(from, min(from, dry), air, empty), budget) {
		return empty
	}
	return m.spentAt(from, loss, air, budget, empty)
}

// spentAt finds when the budget is spent, known to be before the tank is empty. Energy grows ever
// slower as the mass falls, so Newton's steps from zero approach the answer from below and cannot
// pass it.
func (m Model) spentAt(from units.Mass, loss float64, air units.Speed, budget units.Energy, empty units.Duration) units.Duration {
	var t units.Duration
	for range 50 {
		mass := from - units.Mass(loss*float64(t))
		left := budget - m.Spraying(from, mass, air, t)
		step := units.Duration(left.SI() / (m.Forward(mass, air).SI() + m.spray))
		if !units.Finite(step) || step <= units.Duration(1e-12*float64(t)) {
			break
		}
		t = min(empty, t+step)
	}
	return t
}
