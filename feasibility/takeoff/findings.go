package takeoff

import (
	"fmt"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// The kinds of finding this room reports.
const (
	// CodeOverSmallLimit: at or over 55 lb on takeoff, so the large-aircraft rules apply.
	CodeOverSmallLimit finding.Code = "over_small_limit"
	// CodeOverMakerMaximum: heavier than the maker allows.
	CodeOverMakerMaximum finding.Code = "over_maker_maximum"
	// CodeOverDensityAltitudeLimit: heavier than thin air is estimated to leave of that maximum. Needed
	// where that estimate bounds the largest fill, else a caution.
	CodeOverDensityAltitudeLimit finding.Code = "over_density_altitude_limit"
	// CodeOverTankCapacity: more liquid than the tank holds.
	CodeOverTankCapacity finding.Code = "over_tank_capacity"
	// CodeNoFillPossible: not even a small fill stays within the limits.
	CodeNoFillPossible finding.Code = "no_fill_possible"
	// CodeUnstatedPartsNearLimit: parts not stated could carry the aircraft over 55 lb.
	CodeUnstatedPartsNearLimit finding.Code = "unstated_parts_near_limit"
	// CodeNearSmallLimit: so close under 55 lb that the error of a scale decides.
	CodeNearSmallLimit finding.Code = "near_small_limit"
	// CodeHeavyLiquid: the liquid is so dense that a tank filled by volume weighs much more.
	CodeHeavyLiquid finding.Code = "heavy_liquid"
	// CodeDensityUnusual: the density is outside what spray liquids weigh; a unit may be wrong.
	CodeDensityUnusual finding.Code = "density_unusual"
)

// scaleError is the margin to the small-aircraft line under which the answer rests on the scale.
// Own choice: half a pound is the step of common platform scales (common practice).
const scaleError = 0.5 * units.Pound

// unstatedParts is the margin to the small-aircraft line under which unstated equipment is worth
// a warning. Own choice: a radio, lights and a remote-ID module together reach about that.
const unstatedParts = 1 * units.Pound

// Parts of the request that the findings speak of.
const (
	subjectFill    = "/load/fill"
	subjectDensity = "/load/density"
	subjectEmpty   = "/aircraft/empty_weight"
	subjectOther   = "/aircraft/other_onboard_weight"
)

// findings lists what is wrong or worth knowing, in the order of the limits. Several may hold at
// once and each is reported, so that the caller mends all of them in one go.
func findings(in Input, r Result, l load) []finding.Finding {
	small, _ := find(r.Limits, SmallUnmannedAircraft)
	list := smallLineFindings(in, small, l)
	maker, _ := find(r.Limits, MakerMaximum)
	if !maker.Within {
		list = append(list, overMaker(maker, l))
	}
	if thin, known := find(r.Limits, DensityAltitude); known && !thin.Within && units.StrictlyBelow(thin.Limit, maker.Limit) {
		list = append(list, overDerated(thin, in, l))
	}
	if tank, _ := find(r.Limits, TankCapacity); !tank.Within {
		list = append(list, overTank(in.Aircraft.TankCapacity, l))
	}
	if r.LargestFill.Volume <= 0 {
		list = append(list, noFill(r.LargestFill, r.Limits, l, in))
	}
	return append(list, liquidFindings(in.Aircraft.TankCapacity, l)...)
}

// smallLineFindings speak of the 55 lb line: the aircraft is over it, or may be once everything
// attached is weighed.
func smallLineFindings(in Input, small Limit, l load) []finding.Finding {
	switch {
	case !small.Within:
		return []finding.Finding{overSmall(small, l, in)}
	case in.Aircraft.OtherOnboard == nil && units.StrictlyBelow(small.Margin, unstatedParts):
		return []finding.Finding{unstatedNearLine(small)}
	case units.StrictlyBelow(small.Margin, scaleError):
		return []finding.Finding{nearLine(small)}
	default:
		return nil
	}
}

// liquidFindings speak of the liquid's density.
func liquidFindings(capacity units.Volume, l load) []finding.Finding {
	var list []finding.Finding
	if !units.AtMost(l.density, heavyLiquid) {
		list = append(list, heavyTank(capacity, l))
	}
	if !units.AtLeast(l.density, lightestLiquid) || !units.AtMost(l.density, heaviestLiquid) {
		list = append(list, oddDensity(l.density))
	}
	return list
}

// overSmall is never a stop: the line divides two sets of rules, and either a smaller fill or the
// authority for large aircraft answers it. The fill it names is the largest under the line alone;
// another limit may ask for less.
func overSmall(small Limit, l load, in Input) finding.Finding {
	f := against(CodeOverSmallLimit, finding.Needed, small, l)
	if in.LineElsewhere {
		f.Severity = finding.Note
		f.Message = fmt.Sprintf("Takeoff weight is %s (%.4g kg). The line of 55 lb is that of the United States; it says nothing on your country's own, for which see the checklist.",
			pounds(l.total()), l.total().In(units.Kilogram))
		return f
	}
	f.Message = fmt.Sprintf("Takeoff weight is %s. A small unmanned aircraft must weigh less than 55 lb on takeoff with everything on board; exactly 55 lb is already over. ", pounds(l.total()))
	if in.LargeAllowed {
		f.Severity = finding.Note
		f.Message += "You state that you hold the authority for 55 lb and over: check that it covers this aircraft at this weight."
		return f
	}
	if small.FillLimit > 0 {
		f.Message += fmt.Sprintf("Load no more than %s to stay under, or get %s first.", gallonsDown(small.FillLimit), in.authority())
	} else {
		f.Subject = subjectEmpty
		f.Message += fmt.Sprintf("No fill stays under it: the aircraft weighs %s with an empty tank. Use a lighter aircraft or battery, or get %s first.", pounds(l.dry), in.authority())
	}
	f.Message += " The two sides of the line need different papers."
	return f
}

// nearLine speaks where so little is left under the line that the scale itself may be off by more.
func nearLine(small Limit) finding.Finding {
	return finding.Finding{
		Code:     CodeNearSmallLimit,
		Severity: finding.Caution,
		Subject:  subjectFill,
		Message: fmt.Sprintf("%s under the 55 lb line, less than a scale may be off. Load a little less, and weigh the aircraft ready to fly before each first takeoff.",
			leftOver(small.Margin)),
		Measured: small.Margin,
		Limit:    scaleError,
		Margin:   small.Margin - scaleError,
		Source:   sourceOf(SmallUnmannedAircraft),
	}
}

// authority names what allows a takeoff at 55 lb and over: 49 USC 44807 with 14 CFR parts 11 and 137;
// for public aircraft 49 USC 40102(a)(41) and 40125 (from memory).
func (in Input) authority() string {
	if in.PublicAgency {
		return "the FAA's certificate of waiver or authorization for public aircraft at 55 lb and over"
	}
	return "the exemption and certificates for 55 lb and over"
}

// unstatedNearLine speaks where the answer "small" rests on equipment weighing nothing. 14 CFR
// 107.3 counts everything on board or otherwise attached.
func unstatedNearLine(small Limit) finding.Finding {
	return finding.Finding{
		Code:     CodeUnstatedPartsNearLimit,
		Severity: finding.Caution,
		Subject:  subjectOther,
		Message: fmt.Sprintf("%s under the 55 lb line, and the weight of other equipment was not stated. A radio, lights or a remote-ID module could put the aircraft over. "+
			"Weigh the aircraft ready to fly and send other_onboard_weight, or load less.", leftOver(small.Margin)),
		Measured: small.Margin,
		Limit:    unstatedParts,
		Margin:   small.Margin - unstatedParts,
		Source:   smallAircraftRule,
	}
}

// overMaker is a stop: past the maker's maximum nothing is known of structure, thrust or control.
func overMaker(maker Limit, l load) finding.Finding {
	f := against(CodeOverMakerMaximum, finding.Stop, maker, l)
	f.Message = fmt.Sprintf("Takeoff weight is %s, over the maker's maximum of %s. Do not fly it. ", pounds(l.total()), pounds(maker.Limit))
	f.Message += lighten(maker, l)
	return f
}

// overDerated is never a stop, because the derated maximum is an estimate (from memory) and the maker
// may publish a better figure, higher or lower. Where the estimate bounds the largest fill, a load past
// it waits for the maker's figure; in denser air it is a caution.
func overDerated(thin Limit, in Input, l load) finding.Finding {
	f := against(CodeOverDensityAltitudeLimit, finding.Caution, thin, l)
	f.Message = fmt.Sprintf("Takeoff weight is %s, and by our estimate air as thin as at %s leaves %s of the maker's maximum. ",
		pounds(l.total()), feet(in.Air.DensityAltitude), pounds(thin.Limit))
	switch {
	case !thinAirBinds(in):
		f.Message += "Check the maker's own limit for this height and heat. " + lighten(thin, l)
	case thin.FillLimit > 0:
		f.Severity = finding.Needed
		f.Message += fmt.Sprintf("Ask the maker for its limit at this height and heat, or load no more than %s.", gallonsDown(thin.FillLimit))
	default:
		f.Severity = finding.Needed
		f.Message += "Ask the maker for its limit at this height and heat. " + lighten(thin, l)
	}
	return f
}

// lighten says what to load instead, or that an empty tank is already too heavy.
func lighten(limit Limit, l load) string {
	if limit.FillLimit > 0 {
		return fmt.Sprintf("Load no more than %s.", gallonsDown(limit.FillLimit))
	}
	return fmt.Sprintf("No fill fits: the aircraft weighs %s with an empty tank. Check the weights you sent, or use a lighter battery or a stronger aircraft.", pounds(l.dry))
}

// overTank holds volumes, not masses: a tank overflows by volume whatever the liquid weighs.
func overTank(capacity units.Volume, l load) finding.Finding {
	return finding.Finding{
		Code:     CodeOverTankCapacity,
		Severity: finding.Stop,
		Subject:  subjectFill,
		Message:  fmt.Sprintf("The fill of %s is more than the tank holds, %s. Load no more than that.", gallons(l.fill), gallonsDown(capacity)),
		Measured: l.fill,
		Limit:    capacity,
		Margin:   capacity - l.fill,
		Source:   tankRule,
	}
}

// noFill speaks where the largest fill is zero. It stops the job where the maker's maximum or the
// tank decides; where only the 55 lb line or the thin-air estimate does, it asks for what would
// lift it, since an estimate decides no stop alone.
func noFill(most Largest, all []Limit, l load, in Input) finding.Finding {
	binding, _ := find(all, most.BoundBy)
	f := against(CodeNoFillPossible, finding.Needed, binding, l)
	for _, limit := range all {
		if (limit.Code == MakerMaximum || limit.Code == TankCapacity) && limit.FillLimit <= 0 {
			f.Severity = finding.Stop
		}
	}
	f.Subject = subjectEmpty
	f.Measured, f.Margin = l.dry, binding.Limit-l.dry
	f.Message = fmt.Sprintf("No liquid can be carried: with an empty tank the aircraft weighs %s, and %s leaves nothing. ", pounds(l.dry), plainName(most.BoundBy))
	switch most.BoundBy {
	case DensityAltitude:
		f.Message += "That limit is our estimate for thin air: get the maker's limit for this height and heat, or fly in cooler air."
	case TankCapacity:
		f.Measured, f.Limit, f.Margin = nil, nil, nil
		f.Subject = "/aircraft/tank_capacity"
		f.Message += "Send the capacity of the tank."
	case SmallUnmannedAircraft:
		f.Message += "Use a lighter battery or aircraft, or get " + in.authority() + " first."
	default:
		f.Message += "Check the weights you sent, or use a lighter battery or a stronger aircraft."
	}
	return f
}

// heavyTank is the trap of filling by volume: the same mark on the tank, a heavier aircraft.
// Densities of liquid fertilizers: University of Nebraska-Lincoln CropWatch 2016, table 1.
func heavyTank(capacity units.Volume, l load) finding.Finding {
	over := float64(l.density)/float64(Water) - 1
	return finding.Finding{
		Code:     CodeHeavyLiquid,
		Severity: finding.Note,
		Subject:  subjectDensity,
		Message: fmt.Sprintf("This liquid weighs %.2f lb/gal, %.0f percent more than water. A tank filled to the same mark is that much heavier: the full tank holds %s of it. "+
			"Fill by weight, or by the largest fill given here.", l.density.In(units.PoundPerGallon), 100*over, pounds(l.density.Mass(capacity))),
		Measured: l.density,
		Limit:    heavyLiquid,
		Margin:   heavyLiquid - l.density,
		Source:   liquidDensities,
	}
}

// oddDensity questions a density that no spray liquid has; most often the unit is wrong. A density
// that reads too small makes the aircraft look too light, so this must not pass in silence.
func oddDensity(density units.Density) finding.Finding {
	limit := heaviestLiquid
	margin := limit - density
	if !units.AtLeast(density, lightestLiquid) {
		limit, margin = lightestLiquid, density-lightestLiquid
	}
	return finding.Finding{
		Code:     CodeDensityUnusual,
		Severity: finding.Caution,
		Subject:  subjectDensity,
		Message: fmt.Sprintf("A density of %.3g lb/gal is outside what spray liquids weigh (about 6.6 to 12 lb/gal), so the takeoff weight may be wrong. "+
			"Check the number and its unit: water is 8.345 lb/gal or 1 kg/L.", density.In(units.PoundPerGallon)),
		Measured: density,
		Limit:    limit,
		Margin:   margin,
		Source:   liquidDensities,
	}
}

// against starts a finding about the total held against a limit.
func against(code finding.Code, severity finding.Severity, limit Limit, l load) finding.Finding {
	return finding.Finding{
		Code:     code,
		Severity: severity,
		Subject:  subjectFill,
		Measured: l.total(),
		Limit:    limit.Limit,
		Margin:   limit.Margin,
		Source:   sourceOf(limit.Code),
	}
}
