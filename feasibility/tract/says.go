package tract

import (
	"fmt"
	"strings"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// Own choices: shares from which a thing is worth saying.
const (
	shareOfGround units.Proportion = 0.005 // unsprayed, or sprayed past the edge
	shareOfFerry  units.Proportion = 0.25  // ferry time in flight time
	shareOfTank   units.Proportion = 0.5   // of the fill that one battery sprays
)

// incomplete says which number is missing.
func (r *report) incomplete(pointer string) {
	r.Find(finding.Finding{
		Code: CodeJobIncomplete, Severity: finding.Needed, Subject: pointer,
		Message: "No sorties could be planned, because " + pointer + " is missing or is not more than zero. Send it.",
		Source:  sourceOwn,
	})
}

// nothingToSpray says that keep-outs and holes leave no line.
func (r *report) nothingToSpray(p *Plan) {
	r.Find(finding.Finding{
		Code: CodeKeepOutsCoverField, Severity: finding.Stop, Subject: "/field/keep_outs",
		Message:  "After the keep-outs, the holes and the strips left for neighbors there is no room for a swath. Check the keep-outs and the neighbors, or fly a narrower swath.",
		Measured: p.Accounting.Sprayed, Source: sourceOwn,
	})
}

// shape says what the layout of the lines leaves or oversteps.
func (r *report) shape(p *Plan, l *layout) {
	r.coarse(p, l)
	if units.StrictlyBelow(l.width, l.swath) {
		r.Find(finding.Finding{
			Code: CodeSwathWiderThanField, Severity: finding.Caution, Subject: "/flight/swath",
			Message: fmt.Sprintf("The swath, %s, is wider than the tract, %s, so spray lands outside of it. Fly a narrower swath or another machine.",
				feet(units.Length(l.swath)), feet(units.Length(l.width))),
			Measured: units.Length(l.swath), Limit: units.Length(l.width), Margin: units.Length(l.width - l.swath), Source: sourceOwn,
		})
	}
	short := 0
	for _, piece := range l.runs {
		if piece.to-piece.from < l.swath {
			short++
		}
	}
	if short > 0 {
		r.Find(finding.Finding{
			Code: CodeSlivers, Severity: finding.Note, Subject: "/field/boundary",
			Message: fmt.Sprintf("Runs shorter than the swath is wide: %d. They are corners and slivers that take longer than they are worth. You may leave them for a backpack sprayer.", short),
			Source:  sourceOwn,
		})
	}
	r.edges(p, len(l.laps) > 0)
}

// coarse says that the lines were too many to lay out, by their number or by the pieces they fall
// into.
func (r *report) coarse(p *Plan, l *layout) {
	if !l.coarse {
		return
	}
	what, count, most := "passes", p.Passes, units.Count(mostLines)
	if count <= most {
		what, count, most = "pieces of line", p.Segments, mostRuns
	}
	r.Find(finding.Finding{
		Code: CodePlanCoarse, Severity: finding.Caution, Subject: "/flight/swath",
		Message:  fmt.Sprintf("This tract takes %s %s. The plan lays out %s at most, so this one works with averages. Send the tract in parts or with a simpler outline, or check the swath.", count, what, most),
		Measured: count, Limit: most, Margin: most - count, Source: sourceOwn,
	})
}

// edges says what ground is missed or hit at slanted edges.
func (r *report) edges(p *Plan, headland bool) {
	instead := "Plan a pass round the edge (headland_passes), which ends the lines there, or leave that ground unsprayed."
	if headland {
		instead = "Leave that ground, or spray it by hand."
	}
	tract := p.Accounting.Tract.SI()
	missed := p.Accounting.Unsprayed - p.Accounting.Strips
	if share := units.Proportion(missed.SI() / tract); share > shareOfGround {
		r.Find(finding.Finding{
			Code: CodeGroundUnsprayed, Severity: finding.Note, Subject: "/field/boundary",
			Message: fmt.Sprintf("No swath reaches %s (%s) along slanted edges and beside keep-outs. %s",
				acres(missed), percent(share), instead),
			Measured: missed, Source: sourceOwn,
		})
	}
	if share := units.Proportion(p.SprayedPastEdge.SI() / tract); share > shareOfGround {
		r.Find(finding.Finding{
			Code: CodeSprayPastEdge, Severity: finding.Caution, Subject: "/field/boundary",
			Message: fmt.Sprintf("Where lines meet a slanted edge, the corners of the swath reach past it: %s (%s of the tract) outside. Plan a pass round the edge (headland_passes), shut off half a swath earlier next to anything that must stay dry, or draw a keep-out there.",
				acres(p.SprayedPastEdge), percent(share)),
			Measured: p.SprayedPastEdge, Source: sourceOwn,
		})
	}
}

// tooRagged says that the outline takes too much work.
func (r *report) tooRagged() {
	r.Find(finding.Finding{
		Code: CodeOutlineTooRagged, Severity: finding.Stop, Subject: "/field/boundary",
		Message: "This outline, with its keep-outs and the strips for neighbors, takes too much work to plan. Draw it with fewer corners (one for every few meters of edge is plenty), or send the tract in parts.",
		Source:  sourceOwn,
	})
}

// noHeadland says that the passes round the edge that were asked for are not flown.
func (r *report) noHeadland() {
	r.Find(finding.Finding{
		Code: CodeHeadlandLeftOut, Severity: finding.Caution, Subject: "/flight/headland_passes",
		Message: "You asked for passes round the edge, but there is no room for them beside the keep-outs and strips, the edge is too ragged to follow, or the lines are too many to lay out one by one. The plan flies straight lines only. Check the swath and the boundary, or send 0.",
		Source:  sourceOwn,
	})
}

// gaps says that lines are broken.
func (r *report) gaps(p *path) {
	if p.gaps == 0 {
		return
	}
	r.Find(finding.Finding{
		Code: CodeGapsCrossed, Severity: finding.Caution, Subject: "/field",
		Message:  fmt.Sprintf("Lines broken by a keep-out or by the shape of the tract: %d. The plan stops the spray there and allows the time to go round in a half circle. Check what stands in each gap, and do not fly over keep-outs, trees, buildings, wires or people.", p.gaps),
		Measured: units.Count(p.gaps), Source: sourceOwn,
	})
}

// assumedClimb is what is taken for every aircraft beside its ferry speed.
var assumedClimb = fmt.Sprintf(" mph; climb and descend at %s mph; %s seconds to lift off and set down",
	figure(climbSpeed.In(units.MilePerHour)), figure(groundTime.SI()))

// assumeFlight states what every plan takes for granted.
func (r *report) assumeFlight(job *Job) {
	speed := max(ferrySpeed, job.Speed)
	r.Assume("/flight/speed", "ferry at "+figure(speed.In(units.MilePerHour))+assumedClimb,
		"time one ferry and send a ferry distance that takes as long", sourceOwn)
	r.Assume("/load/fill", "all of the fill can be sprayed, and only what one flight sprays is loaded", "send the fill without what stays in the tank and hoses", sourceOwn)
	r.Cite(sourceCycle)
	if !(job.WindSpeed > 0) {
		r.Assume("/weather/wind_speed", "no wind in the flight times and energy", "send the wind speed and direction", sourceOwn)
	}
}

// unpowered says that nothing is known of the battery.
func (r *report) unpowered() {
	r.Find(finding.Finding{
		Code: CodeBatteryNotChecked, Severity: finding.Needed, Subject: "/aircraft/battery",
		Message: "The power needed to fly could not be worked out, so the sorties are cut by the tank alone and may be more than a battery can do. Send the battery's energy and the rotors, or a measured hover time.",
		Source:  sourceOwn,
	})
}

// stuck says that the battery cannot serve a part of the tract. It stops the job where a measured
// hover says so, or where even rotors and motors without loss could not; an estimate by the usual
// efficiency (from memory) only asks for the measurement.
func (r *report) stuck(k *craft, p *path, c *cutting, job *Job) {
	f := k.fly(p, p.spot(c.stuckAt), c.stuckAt)
	where := "the first line"
	if c.stuckAt > 0 {
		n, _ := p.resume(c.stuckAt)
		where = "line " + n.String()
	}
	out := units.Length(f.ferry / 2)
	found := finding.Finding{
		Code: CodeBatteryTooSmall, Severity: finding.Stop, Subject: "/field/ferry_distance",
		Message: fmt.Sprintf("One battery cannot climb, fly %s out to %s, spray and come back with its reserve. Launch nearer, fly a larger battery, or leave weight at home.", feet(out), where),
		Limit:   job.Power.Usable, Source: sourceCycle,
	}
	if lossless := f.energy * job.Power.Efficiency.SI(); !job.Power.Calibrated && lossless <= job.Power.Usable.SI() {
		found.Severity = finding.Needed
		found.Message = "By our estimate of the power, o" + strings.TrimPrefix(found.Message, "O") +
			" Or send a hover time you measured: it may show that the battery does more."
	}
	if energy := units.Energy(f.energy); units.Finite(energy) {
		found.Measured, found.Margin = energy, job.Power.Usable-energy
	}
	r.Find(found)
}

// tooManySorties says that the tank does not fit the job.
func (r *report) tooManySorties(count float64, job *Job) {
	r.Find(finding.Finding{
		Code: CodeTooManySorties, Severity: finding.Stop, Subject: "/load/fill",
		Message:  fmt.Sprintf("With %s in the tank this tract takes %s sorties, which is no plan. Check the fill, the rate and the size of the tract.", gallons(job.Fill), figure(count)),
		Measured: capped(count), Limit: units.Count(mostSorties), Margin: units.Count(mostSorties) - capped(count), Source: sourceOwn,
	})
}

// sorties says what binds the sorties and what they lose to ferrying.
func (r *report) sorties(p *Plan, c *cutting, job *Job) {
	if p.BoundBy == BoundBattery {
		r.boundByBattery(p, job)
	}
	share := units.Proportion(c.ferrying * c.scale / p.FlightTime.SI())
	if share > shareOfFerry {
		r.Find(finding.Finding{
			Code: CodeFerryLong, Severity: finding.Caution, Subject: "/field/ferry_distance",
			Message: fmt.Sprintf("%s of the flight time goes into flying %s to and from the lines. Launch nearer: at the middle of a side, not at a corner, and move along with the work.",
				percent(share), feet(p.FerryEach)),
			Measured: share, Limit: shareOfFerry, Margin: shareOfFerry - share, Source: sourceCycle,
		})
	}
	if p.Sorties > mostListed {
		r.Find(finding.Finding{
			Code: CodeListShortened, Severity: finding.Note, Subject: "/field",
			Message:  fmt.Sprintf("The job takes about %s sorties. The first %d are listed; the rest is worked out from their mean.", p.Sorties, mostListed),
			Measured: p.Sorties, Source: sourceOwn,
		})
	}
}

// boundByBattery says how much of the tank one battery sprays.
func (r *report) boundByBattery(p *Plan, job *Job) {
	used := job.Rate.Over(p.AreaEach)
	share := units.Proportion(used.SI() / job.Fill.SI())
	severity := finding.Note
	if share < shareOfTank {
		severity = finding.Caution
	}
	r.Find(finding.Finding{
		Code: CodeSortieBoundByBattery, Severity: severity, Subject: "/aircraft/battery",
		Message: fmt.Sprintf("The battery ends the sortie before the tank does: one battery sprays at most %s, %s at this rate. Load no more than that; what stays in the tank only costs energy.",
			gallons(used), acres(p.AreaEach)),
		Measured: used, Limit: job.Fill, Margin: used - job.Fill, Source: sourceCycle,
	})
}
