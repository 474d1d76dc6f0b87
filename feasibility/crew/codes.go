package crew

import "tractcheck/feasibility/finding"

// The codes of this room's findings.
const (
	CodeCrewNotPlanned   finding.Code = "crew_not_planned"   // note: there are no sorties
	CodeBatteriesShort   finding.Code = "batteries_short"    // caution
	CodeChargersShort    finding.Code = "chargers_short"     // caution
	CodeCannotRecharge   finding.Code = "cannot_recharge"    // needed: fewer batteries than loads, and no charger
	CodeChargeBeforehand finding.Code = "charge_beforehand"  // note
	CodeGeneratorShort   finding.Code = "generator_short"    // caution
	CodeLoadingPlaceFull finding.Code = "loading_place_full" // caution: another aircraft does not help
	CodeDaysMoreThanOne  finding.Code = "days_more_than_one" // note
	CodeNoHoursInDay     finding.Code = "no_hours_in_day"    // caution: too little daylight to spray in
	CodePilotsFewer      finding.Code = "pilots_fewer"       // caution: fewer pilots or observers than aircraft in the air
	CodeHandsFewer       finding.Code = "hands_fewer"        // caution: nobody is left to load
	CodeCostPartial      finding.Code = "cost_partial"       // note
	CodeQuoteLower       finding.Code = "quote_lower"        // note
)
