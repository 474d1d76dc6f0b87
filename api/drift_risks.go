package api

import (
	"tractcheck/api/wire"
	"tractcheck/feasibility"
)

// driftRisks answers how much drifts how far, and onto whom.
var driftRisks = resource{endpoint: wire.DriftRisks, assess: feasibility.AssessDriftRisk}
