package drift

import "tractcheck/feasibility/finding"

// The finding codes of the room. A code once published keeps its meaning.
const (
	// CodeWindOverLabel (stop): more wind than the label allows.
	CodeWindOverLabel finding.Code = "wind_over_label"
	// CodeGustOverLabel (stop): gusts over the label's wind limit.
	CodeGustOverLabel finding.Code = "gust_over_label"
	// CodeWindUnderLabel (stop): less wind than the label asks for.
	CodeWindUnderLabel finding.Code = "wind_under_label"
	// CodeWindOverCommonPractice (stop): over 15 mph, and no label limit was stated.
	CodeWindOverCommonPractice finding.Code = "wind_over_common_practice"
	// CodeGustOverCommonPractice (stop): gusts over 15 mph, and no label limit was stated.
	CodeGustOverCommonPractice finding.Code = "gust_over_common_practice"
	// CodeGustNotStated (caution): no gust was stated, and usual gusts would break the wind limit.
	CodeGustNotStated finding.Code = "gust_not_stated"
	// CodeWindStrong (caution): 10 to 15 mph, and no label limit was stated.
	CodeWindStrong finding.Code = "wind_strong"
	// CodeWindCalm (stop; caution where an inversion is ruled out): under 3 mph.
	CodeWindCalm finding.Code = "wind_calm"
	// CodeDeltaTTooHigh (stop): the air dries drops beyond the published spraying range.
	CodeDeltaTTooHigh finding.Code = "delta_t_too_high"
	// CodeDeltaTHigh (caution): over the preferred range.
	CodeDeltaTHigh finding.Code = "delta_t_high"
	// CodeDeltaTLow (caution): under the preferred range.
	CodeDeltaTLow finding.Code = "delta_t_low"
	// CodeDropletTooFine (stop): a class finer than the label allows.
	CodeDropletTooFine finding.Code = "droplet_too_fine"
	// CodeDropletTooCoarse (stop): a class coarser than the label allows.
	CodeDropletTooCoarse finding.Code = "droplet_too_coarse"
	// CodeDropletNearLabelLimit (caution): so near a class boundary that the label may be broken.
	CodeDropletNearLabelLimit finding.Code = "droplet_near_label_limit"
	// CodeDropletUnknown (needed): no droplet size, so nothing was computed.
	CodeDropletUnknown finding.Code = "droplet_size_unknown"
	// CodeGradeRaisedByFines (note): the grade stands one step up for fine drops.
	CodeGradeRaisedByFines finding.Code = "grade_raised_by_fines"
	// CodeDriftSevere (needed): the deposit alone makes the grade severe.
	CodeDriftSevere finding.Code = "drift_severe"
	// CodeReleaseHeightOverLabel (stop): higher than the label allows.
	CodeReleaseHeightOverLabel finding.Code = "release_height_over_label"
	// CodeReleaseHeightHigh (caution): over 10 ft, and no label limit was stated.
	CodeReleaseHeightHigh finding.Code = "release_height_high"
	// CodeWakeNotStated (caution): weight or rotors missing, so no help from the wake was counted.
	CodeWakeNotStated finding.Code = "wake_not_stated"
	// CodeWakeSweptBack (caution): too fast for the wake to press the spray down.
	CodeWakeSweptBack finding.Code = "wake_swept_back"
	// CodeCrosswindPattern (note): lines across the wind shift the swath; how far, and what to do.
	CodeCrosswindPattern finding.Code = "crosswind_pattern"
	// CodeHeadwindPattern (note): lines along the wind keep the swath centered; what to mind.
	CodeHeadwindPattern finding.Code = "headwind_pattern"
	// CodeSprayCarriedOff (caution): less than half of the spray lands near where it is let go.
	CodeSprayCarriedOff finding.Code = "spray_carried_off"
	// CodePatternCourseNotStated (note): how the lines run decides how even the pattern is.
	CodePatternCourseNotStated finding.Code = "pattern_course_not_stated"
	// CodeOutsideModel (caution): a value was held to what the room computes.
	CodeOutsideModel finding.Code = "drift_outside_model"
	// CodeNeighborsNotStated (needed; caution where no pesticide is sprayed): nothing is known of what
	// lies around the field.
	CodeNeighborsNotStated finding.Code = "neighbors_not_stated"
	// CodeWindTowardSensitiveNeighbor (stop; needed where the tolerance was not stated and the
	// deposit is small): the wind blows to a neighbor that tolerates nothing, or to a sensitive one.
	CodeWindTowardSensitiveNeighbor finding.Code = "wind_toward_sensitive_neighbor"
	// CodeDepositOverTolerance (stop): more would land on a neighbor than it tolerates.
	CodeDepositOverTolerance finding.Code = "deposit_over_tolerance"
	// CodeDepositOverAssumedTolerance (needed): more than was assumed tolerated; the caller must say.
	CodeDepositOverAssumedTolerance finding.Code = "deposit_over_assumed_tolerance"
	// CodeDepositMayExceedTolerance (caution): over the tolerance by the high estimate only.
	CodeDepositMayExceedTolerance finding.Code = "deposit_may_exceed_tolerance"
	// CodeNoNeighborDownwind (note): the grade was read at the default distance.
	CodeNoNeighborDownwind finding.Code = "no_neighbor_downwind"
	// CodeNeighborNearDownwind (caution): a shift of the wind would carry spray there.
	CodeNeighborNearDownwind finding.Code = "neighbor_near_downwind"
	// CodeInsideLabelBuffer (stop): a downwind neighbor nearer than the label's buffer.
	CodeInsideLabelBuffer finding.Code = "inside_label_buffer"
	// CodeDriftBuffer (note; caution where even 1 km does not do): the distance to keep.
	CodeDriftBuffer finding.Code = "drift_buffer"
	// CodeNobodyDownwind (note): people stay out from downwind.
	CodeNobodyDownwind finding.Code = "nobody_downwind"
)
