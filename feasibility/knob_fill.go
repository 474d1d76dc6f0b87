package feasibility

import "tractcheck/feasibility/units"

const (
	// leastUsefulFill is the part of the tank below which a smaller fill is no remedy: the job would
	// take ten times the flights of a full tank or more. Own design.
	leastUsefulFill = 0.1
	// leastFill is the least fill the contract admits.
	leastFill = 0.01 * units.Gallon
)

// fillDial is how much goes into the tank: down to a tenth of it, up to the largest fill within every
// limit.
func fillDial() dial {
	return dial{
		knob: KnobFill, pointer: "/load/fill",
		moves:    weightRoom | planRoom | riskRoom | teamRoom | papersRoom,
		sensible: float64(0.01 * units.Gallon),
		scale:    func(s Scales) float64 { return unitOr(s.Fill, units.Gallon) },
		now: func(r *rooms) (float64, bool) {
			return float64(r.weight().Fill), r.m.Load.Fill != nil
		},
		ends: func(r *rooms, _ float64) []float64 {
			least := max(leastUsefulFill*r.m.Aircraft.TankCapacity, leastFill)
			return []float64{float64(least), float64(max(least, r.weight().LargestFill.Volume))}
		},
		turn: func(m Mission, to float64) Mission {
			fill := units.Volume(to)
			m.Load.Fill = &fill
			return m
		},
		quantity: func(x float64) units.Quantity { return units.Volume(x) },
	}
}
