package feasibility

import "tractcheck/feasibility/finding"

// standardAtmosphere stands behind the air assumed where no weather was stated.
var standardAtmosphere = finding.Source{
	ID:       "ussa-1976",
	Citation: "NOAA, NASA, USAF 1976, U.S. Standard Atmosphere 1976, defining constants",
	Standing: finding.Read,
}
