package feasibility

import (
	"fmt"
	"slices"
	"strings"

	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/finding"
)

// onHumidity are the findings that turn on how dry the air is, which shrinks drops: an hour whose humidity
// was taken, not sent, gets them as something to send, never as a stop.
var onHumidity = []finding.Code{
	drift.CodeDeltaTTooHigh, drift.CodeDeltaTHigh, drift.CodeDeltaTLow,
	drift.CodeDepositOverTolerance, drift.CodeDepositOverAssumedTolerance,
	drift.CodeWindTowardSensitiveNeighbor, drift.CodeDriftSevere,
}

// asksForHumidity is what drift finds in an hour, said as what it is where the humidity was taken: needed
// instead of a stop, with the missing figure named first.
func (h *hour) asksForHumidity(own *Weather, found []finding.Finding) []finding.Finding {
	if h.taken == nil {
		return found
	}
	found = slices.Clone(found)
	for i := range found {
		f := &found[i]
		if !slices.Contains(onHumidity, f.Code) {
			continue
		}
		if f.Severity == finding.Stop {
			f.Severity = finding.Needed
		}
		f.Message = missingHumidity(h, own) + strings.ToLower(f.Message[:1]) + f.Message[1:]
	}
	return found
}

// missingHumidity says that the humidity is missing and what was taken. That of the mission's own weather is
// another day's, or another hour's.
func missingHumidity(h *hour, own *Weather) string {
	said := "The relative humidity of this hour is missing: send it."
	if own != nil && own.RelativeHumidity > 0 {
		said += " That of the mission's own weather does not count for hours."
	}
	return said + fmt.Sprintf(" With %s, taken instead, ", percentWords(*h.taken))
}

// wantsHumidity counts the hours in which nothing but a humidity that was not sent stands in the way.
func wantsHumidity(hours []HourVerdict) int {
	count := 0
	for i := range hours {
		h := &hours[i]
		other := func(c finding.Code) bool { return !slices.Contains(onHumidity, c) }
		if h.Humidity != nil && !h.Go && !slices.ContainsFunc(h.BoundBy, other) {
			count++
		}
	}
	return count
}
