package feasibility

import "tractcheck/feasibility/units"

// lowestHeight is how low a remedy may bring the release: 2 m above the crop, the height that
// guidance for spraying multirotors names as usual; lower only where the label asks for it.
// Source: Japanese ministry's guidance for unmanned aerial application (from memory); the
// operator may choose lower.
const lowestHeight = 2 * units.Meter

// roundedDown leaves room under the label's highest release for a figure that a crew can set.
const roundedDown = 0.2 * units.Foot

// heightDial is the release height above the crop. A remedy only lowers it.
func heightDial() dial {
	return dial{
		knob: KnobHeight, pointer: "/flight/height",
		moves:    planRoom | riskRoom | teamRoom | papersRoom,
		sensible: float64(0.1 * units.Foot),
		scale:    func(s Scales) float64 { return unitOr(s.Height, units.Foot) },
		now:      func(r *rooms) (float64, bool) { return float64(r.m.Flight.Height), true },
		ends: func(r *rooms, now float64) []float64 {
			end := lowestHeight
			if most := r.m.Load.Label.MaxReleaseHeight; most != nil && *most > 0 {
				end = min(end, max(*most-roundedDown, *most/2))
			}
			return []float64{min(now, float64(end))}
		},
		turn: func(m Mission, to float64) Mission {
			flight := *m.Flight
			flight.Height = units.Length(to)
			m.Flight = &flight
			return m
		},
		quantity: func(x float64) units.Quantity { return units.Length(x) },
	}
}
