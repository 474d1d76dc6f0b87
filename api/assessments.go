package api

import (
	"tractcheck/api/wire"
	"tractcheck/feasibility"
)

// assessments answers the whole question: can this job be done, and if not, what must change? Beside
// JSON it answers as a map and as an answer sheet for people. A request that fails gets a problem
// document in any form: whoever posts JSON reads JSON, and the form page shows faults in its own way.
var assessments = resource{endpoint: wire.Assessments, assess: feasibility.Assess, forms: []string{mediaMap, mediaPage}}
