package tract

import "tractcheck/feasibility/finding"

// The codes of this room's findings.
const (
	CodeJobIncomplete        finding.Code = "job_incomplete"              // needed: a number is missing or not positive
	CodeFieldMissing         finding.Code = "field_missing"               // needed: neither boundary, sides nor area
	CodeFieldEmpty           finding.Code = "field_empty"                 // needed: the boundary encloses nothing
	CodeOutlineTooRagged     finding.Code = "outline_too_ragged"          // stop: the outline takes too much work to plan
	CodeBoundaryTooLarge     finding.Code = "boundary_too_large"          // stop: no field is that wide
	CodeBoundaryLarge        finding.Code = "boundary_large"              // caution: the flat map loses digits
	CodeKeepOutsUnplaced     finding.Code = "keep_outs_unplaced"          // caution: keep-outs without a boundary
	CodeKeepOutsCoverField   finding.Code = "nothing_to_spray"            // stop: keep-outs and holes leave no line
	CodeAreaAssumedSquare    finding.Code = "area_assumed_square"         // note
	CodeCrosswindWithoutWind finding.Code = "crosswind_without_wind"      // caution
	CodeStartDownwind        finding.Code = "start_downwind"              // note
	CodePlanCoarse           finding.Code = "plan_coarse"                 // caution: too many lines to lay one by one
	CodeSlivers              finding.Code = "slivers"                     // note: runs shorter than a swath
	CodeGroundUnsprayed      finding.Code = "ground_unsprayed"            // note: corners that no swath reaches
	CodeStripUnsprayed       finding.Code = "neighbor_strip_unsprayed"    // caution: a neighbor's buffer is taken off the tract
	CodeSprayPastEdge        finding.Code = "spray_past_edge"             // caution
	CodeHeadlandLeftOut      finding.Code = "headland_left_out"           // caution: asked for, and no room for it
	CodeGapsCrossed          finding.Code = "gaps_crossed"                // caution: lines broken by keep-outs or the shape
	CodeSwathWiderThanField  finding.Code = "swath_wider_than_field"      // caution
	CodeBatteryNotChecked    finding.Code = "battery_not_checked"         // needed: no power model
	CodeBatteryTooSmall      finding.Code = "battery_too_small_for_ferry" // stop, or needed where the power is an estimate
	CodeSortieBoundByBattery finding.Code = "sortie_bound_by_battery"     // note or caution
	CodeFerryLong            finding.Code = "ferry_long"                  // caution
	CodeTooManySorties       finding.Code = "too_many_sorties"            // stop
	CodeListShortened        finding.Code = "sortie_list_shortened"       // note
)
