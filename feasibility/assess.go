package feasibility

// Assess answers a mission: every part worked out, the findings gravest first, the remedies that
// were found and verified, and the verdict drawn from them. It needs every part of the mission
// (crew apart); the error is for a part left out, which only a programmer can cause.
func Assess(m Mission) (Answer, error) {
	if err := m.needs(aircraftPart, spraySystemPart, flightPart, weatherPart, operationPart); err != nil {
		return Answer{}, err
	}
	r := enter(m)
	answer := r.whole()
	remedy(r, answer)
	answer.setBack(m)
	answer.Verdict = verdict(*answer)
	answer.Headline = headline(*answer)
	answer.round()
	return *answer, nil
}
