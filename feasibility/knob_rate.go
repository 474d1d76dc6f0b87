package feasibility

import "tractcheck/feasibility/units"

// rateDial is the liquid applied to an acre: down no further than the least that the label asks for by
// air, and not at all where the label's least is not stated; up as far as nozzles and pump hold it at
// this speed and swath (the pressure-feasible rate), or to the label's least, whatever they hold.
func rateDial() dial {
	return dial{
		knob: KnobApplicationRate, pointer: "/load/application_rate",
		moves:    rateRoom | planRoom | riskRoom | teamRoom | papersRoom,
		sensible: float64(0.1 * units.GallonPerAcre),
		scale:    func(s Scales) float64 { return unitOr(s.ApplicationRate, units.GallonPerAcre) },
		now:      func(r *rooms) (float64, bool) { return float64(r.m.Load.ApplicationRate), true },
		ends:     rateEnds,
		turn: func(m Mission, to float64) Mission {
			m.Load.ApplicationRate = units.ApplicationRate(to)
			return m
		},
		quantity: func(x float64) units.Quantity { return units.ApplicationRate(x) },
	}
}

func rateEnds(r *rooms, now float64) []float64 {
	ends := window(r, now, now/rateReach, now*rateReach)
	low, high := min(ends[0], now), max(ends[1], now)
	if ends[1] < now {
		low = ends[0] // the span lies below: any rate in it will do
	}
	least := r.m.Load.Label.MinRate
	if least == nil || !(*least > 0) {
		return []float64{high}
	}
	return []float64{max(low, min(now, float64(*least))), max(high, float64(*least+roundedUp))}
}

// roundedUp leaves room over the label's least for a figure that a crew can set.
const roundedUp = 0.2 * units.GallonPerAcre

// rateReach is how many times the rate a remedy may ask for, or how small a part of it, where nothing
// else bounds it. Own design: farther off, it is another job.
const rateReach = 4
