package takeoff

import (
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// Sources is every source of this room, in the order in which its results list them.
func Sources() []finding.Source { return sources() }

// LiquidRange is the densities that spray liquids have: what one that was not stated may be.
func LiquidRange() (lightest, heaviest units.Density) { return lightestLiquid, heaviestLiquid }
