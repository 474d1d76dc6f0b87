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

// judged keeps the shared conditions that were judged.
type judged struct {
	is   [sharedConditions]bool
	what [sharedConditions]Judgment
}

// once judges a shared condition the first time it is asked for, or every time where none is kept.
func (v *view) once(c sharedCondition, judge func(*view) Judgment) Judgment {
	if v.shared == nil {
		return judge(v)
	}
	if !v.shared.is[c] {
		v.shared.what[c], v.shared.is[c] = judge(v), true
	}
	return v.shared.what[c]
}
