package api

import (
	"tractcheck/api/wire"
	"tractcheck/feasibility"
)

// assessments answers the whole question: can this job be done, and if not, what must change?
var assessments = resource{endpoint: wire.Assessments, assess: feasibility.Assess, forms: []string{mediaMap}}
