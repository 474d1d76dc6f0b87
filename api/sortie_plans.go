package api

import (
	"tractcheck/api/wire"
	"tractcheck/feasibility"
)

// sortiePlans answers how many sorties, batteries and hours the field takes.
var sortiePlans = resource{endpoint: wire.SortiePlans, assess: feasibility.AssessSortiePlan, forms: []string{mediaMap}}
