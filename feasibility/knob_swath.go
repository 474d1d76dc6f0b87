package feasibility

import "tractcheck/feasibility/units"

const (
	// narrowestSwath is the part of the swath that a remedy may bring it down to. Own design: at
	// half, the lines and the hours have doubled.
	narrowestSwath = 0.5
	// leastSwath is the least swath the contract admits.
	leastSwath = 1 * units.Foot
)

// swathDial is the distance between two lines. A remedy only narrows it: how wide the pattern reaches
// is the machine's.
func swathDial() dial {
	return dial{
		knob: KnobSwath, pointer: "/flight/swath",
		moves:    rateRoom | planRoom | riskRoom | teamRoom | papersRoom,
		sensible: float64(0.1 * units.Foot),
		scale:    func(s Scales) float64 { return unitOr(s.Swath, units.Foot) },
		now:      func(r *rooms) (float64, bool) { return float64(r.m.Flight.Swath), true },
		ends: func(r *rooms, now float64) []float64 {
			narrow := max(narrowestSwath*now, float64(leastSwath))
			return window(r, now, min(now, narrow))
		},
		turn: func(m Mission, to float64) Mission {
			flight := *m.Flight
			flight.Swath = units.Length(to)
			m.Flight = &flight
			return m
		},
		quantity: func(x float64) units.Quantity { return units.Length(x) },
	}
}
