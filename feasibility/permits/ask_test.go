package permits

import "tractcheck/feasibility/units"

// across asks for the other side of the line in a case of its own.
func across(here Checklist, f Facts, weight units.Mass) []Difference {
	return Open(f).Across(here, weight)
}

// recordOf asks for the record in a case of its own.
func recordOf(f Facts, a Application) ApplicationRecord { return Open(f).Record(a) }
