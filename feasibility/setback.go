package feasibility

import (
	"fmt"
	"math"

	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/tract"
	"tractcheck/feasibility/units"
)

// CodeDriftStrip (note): the strip that would keep the computed drift buffer, and what it costs.
const CodeDriftStrip finding.Code = "drift_strip"

// CodeDriftStripsUncounted (caution): strips that would keep the computed drift buffer, whose cost was
// not worked out.
const CodeDriftStripsUncounted finding.Code = "drift_strips_uncounted"

// sourceStrip is where the strip comes from.
var sourceStrip = finding.Source{
	ID:       "drift-strip",
	Citation: "Choice of this program: where the drift is more than a neighbor downwind bears, the strip that keeps the computed buffer lies along every side of the tract that looks toward its bearing",
	Standing: finding.OwnDesign,
}

// mostSetBack is the share of a tract beyond which a strip is no answer. Own choice.
const mostSetBack = 0.5

// setBacks lists the strips that would keep the computed buffer between the last swath and the
// neighbors downwind that may get more drift than they bear. The tract was flown before the drift was
// known and is not flown again: the strips are shown, and whoever wants the plan without them
// draws them as keep-outs.
func (m Mission) setBacks(a Answer) []tract.Clear {
	buffer := a.DriftRisk.Buffer.Distance
	if m.Weather == nil || !(m.Weather.WindSpeed > 0) || !(buffer > 0) {
		return nil
	}
	var strips []tract.Clear
	for i, n := range m.Field.Neighbors {
		if !n.LiesDownwind(m.Weather.WindFrom) || units.AtLeast(n.Distance, buffer) || !a.overBurdens(i) {
			continue
		}
		strips = append(strips, tract.Clear{Neighbor: units.Count(i), Kind: n.Words(), Bearing: n.Bearing, Distance: n.Distance, Buffer: buffer})
	}
	return strips
}

// overBurdens reports whether the drift found that a neighbor may get more than it bears.
func (a Answer) overBurdens(neighbor int) bool {
	pointer := fmt.Sprintf("/field/neighbors/%d", neighbor)
	for _, f := range a.DriftRisk.Findings {
		if f.Subject != pointer {
			continue
		}
		switch f.Code {
		case drift.CodeWindTowardSensitiveNeighbor, drift.CodeDepositOverTolerance, drift.CodeDepositOverAssumedTolerance, drift.CodeDepositMayExceedTolerance:
			return true
		}
	}
	return false
}

// setBack puts into the answer what keeping the computed buffer would cost.
func (a *Answer) setBack(m Mission) {
	a.SetBack = a.SortiePlan.SetBack(m.setBacks(*a))
	var said report
	for _, strip := range a.SetBack.Strips {
		c, share := strip.Clear, strip.Area.SI()/a.SortiePlan.Accounting.Tract.SI()
		then := "Stop the lines there, and spray the strip another day, when the wind blows the other way. This plan still sprays it: to plan without it, draw it as a keep-out."
		if share > mostSetBack {
			then = "That is most of it: bring the drift down first, with coarser drops, a lower flight or a better wind."
		}
		said.findings = append(said.findings, finding.Finding{
			Code: CodeDriftStrip, Severity: finding.Note, Subject: fmt.Sprintf("/field/neighbors/%d", c.Neighbor), Source: sourceStrip, Measured: strip.Area,
			Message: fmt.Sprintf("The drift worked out here asks for %.0f ft between the last swath and the %s, which is %.0f ft away. That is a strip %.0f ft wide along the sides that face it: %s acres, %.0f percent of the tract. %s",
				c.Buffer.In(units.Foot), c.Kind, c.Distance.In(units.Foot), c.Width().In(units.Foot), three(strip.Area.In(units.Acre)), math.Round(100*share), then),
		})
	}
	if left := a.SetBack.Left; left > 0 {
		said.findings = append(said.findings, finding.Finding{
			Code: CodeDriftStripsUncounted, Severity: finding.Caution, Subject: "/field/boundary", Source: sourceStrip, Measured: left,
			Message: fmt.Sprintf("The drift worked out here asks for strips at %s too. What each costs was not worked out, because this outline takes too much work. Draw the field with fewer corners to see it.",
				counted(int(left), "more neighbor", "more neighbors")),
		})
	}
	if len(said.findings) > 0 {
		a.gather(said)
	}
}
