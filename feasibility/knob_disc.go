package feasibility

import "tractcheck/feasibility/units"

// discRotation is the pointer of the discs' speed.
const discRotation = "/spray_system/rotary/rotation"

// discDial is the speed of spinning discs, inside their stated range: slower makes larger drops.
// Where no least speed is stated, half of the speed is as far as it goes (own design).
func discDial() dial {
	return dial{
		knob: KnobDiscRotation, pointer: discRotation,
		moves:    rateRoom | riskRoom | papersRoom,
		sensible: float64(10 * units.RevolutionPerMinute),
		scale:    func(Scales) float64 { return float64(units.RevolutionPerMinute) },
		now: func(r *rooms) (float64, bool) {
			if disc := r.m.SpraySystem.System.Rotary; disc != nil {
				return float64(disc.Rotation), true
			}
			return 0, false
		},
		ends: discEnds,
		turn: func(m Mission, to float64) Mission {
			disc, system := *m.SpraySystem.System.Rotary, *m.SpraySystem
			disc.Rotation = units.RotationRate(to)
			system.System.Rotary = &disc
			m.SpraySystem = &system
			return m
		},
		quantity: func(x float64) units.Quantity { return units.RotationRate(x) },
	}
}

func discEnds(r *rooms, now float64) []float64 {
	disc := r.m.SpraySystem.System.Rotary
	low, high := now/2, now
	if disc.MinRotation != nil && *disc.MinRotation > 0 {
		low = float64(*disc.MinRotation)
	}
	if disc.MaxRotation != nil && *disc.MaxRotation > 0 {
		high = float64(*disc.MaxRotation)
	}
	return []float64{max(low, float64(50*units.RevolutionPerMinute)), high}
}
