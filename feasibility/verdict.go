package feasibility

import (
	"slices"

	"tractcheck/feasibility/finding"
)

// verdict draws the answer from the findings and the verified remedies, and from nothing else:
// a stop that no remedy lifts is a no; a stop that one lifts, or anything needed first, is a
// yes_if; everything else is a yes.
func verdict(a Answer) Verdict {
	if len(stops(a)) > 0 {
		if slices.ContainsFunc(a.Remedies, func(r Remedy) bool { return r.AnswerThen != No }) {
			return YesIf
		}
		return No
	}
	if slices.ContainsFunc(a.Findings, func(f finding.Finding) bool { return f.Severity == finding.Needed }) {
		return YesIf
	}
	return Yes
}

// stops lists the findings that stop the job.
func stops(a Answer) []finding.Finding {
	return withSeverity(a, finding.Stop)
}

// withSeverity lists the findings of one severity, in the answer's order.
func withSeverity(a Answer, s finding.Severity) []finding.Finding {
	var found []finding.Finding
	for _, f := range a.Findings {
		if f.Severity == s {
			found = append(found, f)
		}
	}
	return found
}
