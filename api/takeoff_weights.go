package api

import (
	"tractcheck/api/wire"
	"tractcheck/feasibility"
)

// takeoffWeights answers what the aircraft weighs on takeoff, and how much it may carry.
var takeoffWeights = resource{endpoint: wire.TakeoffWeights, assess: feasibility.AssessTakeoffWeight}
