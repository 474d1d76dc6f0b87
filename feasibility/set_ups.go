package feasibility

import "tractcheck/feasibility/tract"

// SetUps assesses the set-ups of one job, one after another. They are flown over the same field, so what was
// worked out of it for one is not worked out again for the next. The zero SetUps is ready; it serves one
// goroutine at a time.
type SetUps struct{ land *tract.Land }

// Assess answers a mission as the function Assess does, whatever was assessed before. A mission on another
// field than the last one begins with nothing known.
func (s *SetUps) Assess(m Mission) (Answer, error) {
	if err := m.needsAll(); err != nil {
		return Answer{}, err
	}
	if s.land != nil && s.land.Of(m.Field.Ground) {
		s.land.Begin()
	} else {
		s.land = tract.NewLand(m.Field.Ground)
	}
	return assessOn(s.land, m), nil
}
