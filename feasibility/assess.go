package feasibility

import "tractcheck/feasibility/tract"

// Assess answers a mission: every part worked out, the findings gravest first, the remedies that
// were found and verified, and the verdict drawn from them. It needs every part of the mission
// (crew apart); the error is for a part left out, which only a programmer can cause.
func Assess(m Mission) (Answer, error) {
	if err := m.needsAll(); err != nil {
		return Answer{}, err
	}
	return assessOn(tract.NewLand(m.Field.Ground), m), nil
}

// needsAll reports a part that is left out, the crew apart.
func (m Mission) needsAll() error {
	return m.needs(aircraftPart, spraySystemPart, flightPart, weatherPart, operationPart)
}

// assessOn is Assess, of a whole mission, with what is known of its field.
func assessOn(land *tract.Land, m Mission) Answer {
	r := enterOn(land, m)
	answer := r.whole()
	remedy(r, answer)
	answer.setBack(m)
	answer.Verdict = verdict(*answer)
	answer.Headline = headline(*answer)
	answer.round()
	return *answer
}
