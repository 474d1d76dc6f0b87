package feasibility

import (
	"slices"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/takeoff"
)

// node is a mission in the search: the one asked about, or one changed from it.
type node struct {
	at      *rooms
	answer  Answer
	changes []Change // from the mission asked about
	knobs   []Knob   // turned so far, some twice
	made    []move   // from the mission asked about, in order
}

// liftable lists the codes of the findings that a change of the mission could lift, stops first.
func liftable(a Answer) []finding.Code {
	codes := stopCodes(a)
	for _, code := range codesOf(a, liftableNeed) {
		if !slices.Contains(codes, code) {
			codes = append(codes, code)
		}
	}
	return codes
}

// liftableFinding reports whether a finding is a stop, or a need that no paper settles.
func liftableFinding(f finding.Finding) bool {
	return f.Severity == finding.Stop || liftableNeed(f)
}

func liftableNeed(f finding.Finding) bool {
	return f.Severity == finding.Needed && (f.Code == takeoff.CodeOverSmallLimit || !isAuthorization(f.Code))
}

// stopCodes lists the codes of the stops.
func stopCodes(a Answer) []finding.Code {
	return codesOf(a, func(f finding.Finding) bool { return f.Severity == finding.Stop })
}

// barring lists the codes of the findings that no remedy may raise.
func barring(a Answer) []finding.Code {
	return codesOf(a, func(f finding.Finding) bool {
		return f.Severity == finding.Stop || f.Code == takeoff.CodeOverSmallLimit && f.Severity == finding.Needed
	})
}

// codesOf lists the codes of some findings, sorted, once each.
func codesOf(a Answer, wanted func(finding.Finding) bool) []finding.Code {
	var codes []finding.Code
	for _, f := range a.Findings {
		if wanted(f) {
			codes = append(codes, f.Code)
		}
	}
	slices.Sort(codes)
	return slices.Compact(codes)
}

// without lists the codes of a list that another lacks.
func without(codes, other []finding.Code) []finding.Code {
	return slices.DeleteFunc(slices.Clone(codes), func(c finding.Code) bool { return slices.Contains(other, c) })
}
