package api

import (
	"tractcheck/api/wire"
	"tractcheck/feasibility"
)

// authorizationChecklists answers what must be held or obtained before the job is legal.
var authorizationChecklists = resource{endpoint: wire.AuthorizationChecklists, assess: feasibility.AssessAuthorizations}
