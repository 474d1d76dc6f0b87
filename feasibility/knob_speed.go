package feasibility

import "tractcheck/feasibility/units"

// How slow and how fast a remedy may have the aircraft spray. Own design: slower, turns take most of
// the day; faster than spray drones are usually flown (common practice), which the costs say.
const (
	slowestSpeed = 3 * units.MilePerHour
	fastestSpeed = 30 * units.MilePerHour
)

// speedDial is the ground speed while spraying, inside the span in which the nozzles hold the rate.
func speedDial() dial {
	return dial{
		knob: KnobSpeed, pointer: "/flight/speed",
		moves:    rateRoom | planRoom | riskRoom | teamRoom | papersRoom,
		sensible: float64(0.1 * units.MilePerHour),
		scale:    func(s Scales) float64 { return unitOr(s.Speed, units.MilePerHour) },
		now:      func(r *rooms) (float64, bool) { return float64(r.m.Flight.Speed), true },
		ends: func(r *rooms, now float64) []float64 {
			slow, fast := float64(slowestSpeed), float64(fastestSpeed)
			return window(r, now, min(slow, now), max(fast, now))
		},
		turn: func(m Mission, to float64) Mission {
			flight := *m.Flight
			flight.Speed = units.Speed(to)
			m.Flight = &flight
			return m
		},
		quantity: func(x float64) units.Quantity { return units.Speed(x) },
	}
}
