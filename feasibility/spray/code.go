package spray

import "tractcheck/feasibility/finding"

// The findings of the room. A code once published keeps its meaning.
const (
	// CodeFactsMissing (needed): a fact without which nothing can be computed is missing or zero.
	CodeFactsMissing finding.Code = "spray_facts_missing"
	// CodePressureBelowRange: holding the rate needs less pressure than the nozzle works at.
	CodePressureBelowRange finding.Code = "pressure_below_range"
	// CodePressureAboveRange: holding the rate needs more pressure than the nozzle works at.
	CodePressureAboveRange finding.Code = "pressure_above_range"
	// CodeRangeReversed (needed): the stated least pressure lies above the stated most.
	CodeRangeReversed finding.Code = "nozzle_range_reversed"
	// CodePumpFlowExceeded: the rate needs more than 90 % of the pump's stated flow.
	CodePumpFlowExceeded finding.Code = "pump_flow_exceeded"
	// CodePumpPressureExceeded (stop): the rate needs more pressure than the pump can make.
	CodePumpPressureExceeded finding.Code = "pump_pressure_exceeded"
	// CodePumpCurveUnknown (caution): within both pump limits, but maybe not within its curve.
	CodePumpCurveUnknown finding.Code = "pump_curve_unknown"
	// CodePumpNotStated (caution): nobody said what the pump can do.
	CodePumpNotStated finding.Code = "pump_not_stated"
	// CodeRotationOutOfRange (stop): the disc speed lies outside the stated range.
	CodeRotationOutOfRange finding.Code = "rotation_out_of_range"
	// CodeRateNotHeld: the rate really applied is more than 5 % off the rate wanted.
	CodeRateNotHeld finding.Code = "rate_not_held"
	// CodeNoSpeedHoldsRate: the limits contradict each other, so no speed holds the rate.
	CodeNoSpeedHoldsRate finding.Code = "no_speed_holds_rate"
	// CodeFinesHigh (caution): more drift-prone drops than a spray at the fine/medium boundary.
	CodeFinesHigh finding.Code = "fines_high"
	// CodeClassNearBoundary (note): the size lies within 10 % of a class boundary.
	CodeClassNearBoundary finding.Code = "class_near_boundary"
	// CodeSizeStretched (caution): droplet size taken beyond the data or the model's span.
	CodeSizeStretched finding.Code = "droplet_size_stretched"
	// CodeSizesDisordered (caution): measured sizes or classes that cannot be right.
	CodeSizesDisordered finding.Code = "droplet_sizes_disordered"
	// CodeRotaryDrift (caution): rotary atomizers drift more at equal size.
	CodeRotaryDrift finding.Code = "rotary_drift"
	// CodeLowVolumeCoverage (note): a rate at which drones covered thinly in trials.
	CodeLowVolumeCoverage finding.Code = "low_volume_coverage"
	// CodeCatchTest (note): verify the flow by a catch test before spraying.
	CodeCatchTest finding.Code = "catch_test"
)
