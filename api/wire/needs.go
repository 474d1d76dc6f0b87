package wire

import "slices"

// need is a member that some endpoints need and others do not, and whether a request has it. The
// members every endpoint needs of a part are in the part's validation tags.
type need struct {
	path string
	by   []Endpoint
	// reached reports whether the object that should hold the member is there, sent whether the
	// member is.
	reached, sent func(*Request) bool
}

// needs are the members that depend on the endpoint; the required lists of the contract's schemas
// say the same.
var needs = []need{
	{"/aircraft", []Endpoint{Assessments, TakeoffWeights, SortiePlans, AuthorizationChecklists}, top, func(r *Request) bool { return r.Aircraft != nil }},
	{"/spray_system", []Endpoint{Assessments, RatePressures, DriftRisks}, top, func(r *Request) bool { return r.SpraySystem != nil }},
	{"/load", []Endpoint{Assessments, TakeoffWeights, RatePressures, DriftRisks, SortiePlans, AuthorizationChecklists}, top, hasLoad},
	{"/flight", []Endpoint{Assessments, RatePressures, DriftRisks, SortiePlans}, top, hasFlight},
	{"/field", []Endpoint{Assessments, SortiePlans}, top, hasField},
	{"/weather", []Endpoint{Assessments, DriftRisks}, top, hasWeather},
	{"/operation", []Endpoint{Assessments, AuthorizationChecklists}, top, func(r *Request) bool { return r.Operation != nil }},

	{"/aircraft/battery/energy", []Endpoint{Assessments, SortiePlans}, hasBattery, func(r *Request) bool { return r.Aircraft.Battery.Energy != nil }},
	{"/load/application_rate", []Endpoint{Assessments, RatePressures, DriftRisks, SortiePlans, AuthorizationChecklists}, hasLoad, func(r *Request) bool { return r.Load.ApplicationRate != nil }},
	{"/load/pesticide", []Endpoint{Assessments, DriftRisks, AuthorizationChecklists}, hasLoad, func(r *Request) bool { return r.Load.Pesticide != nil }},
	{"/flight/height", []Endpoint{Assessments, DriftRisks, SortiePlans, AuthorizationChecklists}, hasFlight, func(r *Request) bool { return r.Flight.Height != nil }},
	{"/weather/wind_speed", []Endpoint{Assessments, DriftRisks, SortiePlans, AuthorizationChecklists}, hasWeather, func(r *Request) bool { return r.Weather.WindSpeed != nil }},
	{"/weather/wind_from", []Endpoint{Assessments, DriftRisks, SortiePlans, AuthorizationChecklists}, hasWeather, func(r *Request) bool { return r.Weather.WindFrom != nil }},
}

func top(*Request) bool          { return true }
func hasLoad(r *Request) bool    { return r.Load != nil }
func hasFlight(r *Request) bool  { return r.Flight != nil }
func hasField(r *Request) bool   { return r.Field != nil }
func hasWeather(r *Request) bool { return r.Weather != nil }
func hasBattery(r *Request) bool { return r.Aircraft != nil && r.Aircraft.Battery != nil }

// needs notes the members this endpoint needs and did not get.
func (m *mapper) needs(endpoint Endpoint, r *Request) {
	for _, n := range needs {
		if slices.Contains(n.by, endpoint) && n.reached(r) && !n.sent(r) {
			m.missing(at(n.path), "This request needs "+at(n.path).name()+". Send it.")
		}
	}
	if endpoint == Assessments || endpoint == SortiePlans {
		m.ground(r.Field)
	}
}
