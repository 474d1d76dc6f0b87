package wire

// Endpoint names a kind of request body; its schema in the contract is SchemaName.
type Endpoint string

// The endpoints that take one mission or a part of it.
const (
	Assessments             Endpoint = "assessments"
	TakeoffWeights          Endpoint = "takeoff-weights"
	RatePressures           Endpoint = "rate-pressures"
	DriftRisks              Endpoint = "drift-risks"
	SortiePlans             Endpoint = "sortie-plans"
	AuthorizationChecklists Endpoint = "authorization-checklists"
)

// SchemaName reports the name of the request schema under components/schemas of the contract.
func (e Endpoint) SchemaName() string {
	switch e {
	case TakeoffWeights:
		return "TakeoffWeightRequest"
	case RatePressures:
		return "RatePressureRequest"
	case DriftRisks:
		return "DriftRiskRequest"
	case SortiePlans:
		return "SortiePlanRequest"
	case AuthorizationChecklists:
		return "AuthorizationChecklistRequest"
	case SprayHours:
		return "SprayHoursRequest"
	case Comparisons:
		return "ComparisonRequest"
	default:
		return "AssessmentRequest"
	}
}
