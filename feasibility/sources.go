package feasibility

import (
	"slices"

	"tractcheck/feasibility/air"
	"tractcheck/feasibility/crew"
	"tractcheck/feasibility/daylight"
	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/flight"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/takeoff"
	"tractcheck/feasibility/tract"
)

// standardAtmosphere stands behind the air assumed where no weather was stated.
var standardAtmosphere = finding.Source{
	ID:       "ussa-1976",
	Citation: "NOAA, NASA, USAF 1976, U.S. Standard Atmosphere 1976, defining constants",
	Standing: finding.Read,
}

// SourceUse is one source and the rooms whose results stand on it.
type SourceUse struct {
	finding.Source
	Rooms []string
}

// Sources is every source that an answer can name, each id once and in the order in which a mission
// flows through the rooms. Where two rooms cite different passages under one id, the first stands, as
// it does in answers.
func Sources() []SourceUse {
	var all []SourceUse
	for _, room := range []struct {
		name    string
		sources []finding.Source
	}{
		{"air", air.Sources()}, {"daylight", daylight.Sources()}, {"takeoff", takeoff.Sources()},
		{"spray", spray.Sources()}, {"flight", flight.Sources()}, {"tract", tract.Sources()},
		{"drift", drift.Sources()}, {"crew", crew.Sources()}, {"permits", permits.Sources()},
		{"fitness", fitnessSources()}, {"set_back", []finding.Source{sourceStrip}},
		{"hours", hoursSources()}, {"comparison", comparisonSources()},
	} {
		for _, s := range room.sources {
			at := slices.IndexFunc(all, func(u SourceUse) bool { return u.ID == s.ID })
			if at < 0 {
				all = append(all, SourceUse{Source: s, Rooms: []string{room.name}})
				continue
			}
			all[at].Rooms = append(all[at].Rooms, room.name)
		}
	}
	return all
}
