package permits

// sharedCondition is a condition that several rows ask: every bound of the label is asked by its own
// row and by the row that says that the label binds the flight.
type sharedCondition int

const (
	offAerial sharedCondition = iota
	offUnmanned
	offRate
	offWind
	offDroplet
	offHeight
	offBuffer
	shortSight
	nearCloud
	certificated
	restrictedUse
	sharedConditions // how many there are
)

// once judges a shared condition the first time it is asked for.
func (v *view) once(c sharedCondition, judge func(*view) Judgment) Judgment {
	if !v.judged[c] {
		v.shared[c], v.judged[c] = judge(v), true
	}
	return v.shared[c]
}
