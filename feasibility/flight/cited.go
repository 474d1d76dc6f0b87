package flight

import "tractcheck/feasibility/finding"

// Sources is every source of this room, in the order in which its results list them.
func Sources() []finding.Source { return sources() }
