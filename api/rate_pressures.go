package api

import (
	"tractcheck/api/wire"
	"tractcheck/feasibility"
)

// ratePressures answers which pressure holds the rate, and what droplets it makes.
var ratePressures = resource{endpoint: wire.RatePressures, assess: feasibility.AssessRatePressure}
