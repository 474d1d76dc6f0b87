package drift

import (
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/units"
)

// commonHeight is the release height over the canopy that a federal auxin herbicide label allows.
const commonHeight = 10 * units.Foot

// judgeRelease holds the release height and the droplet class against the label.
func judgeRelease(in Input, l *ledger) {
	height, most := in.Release.Height, in.Label.MaxHeight
	switch {
	case most != nil && !units.AtMost(height, *most):
		f := finding.Finding{Code: CodeReleaseHeightOverLabel, Severity: finding.Stop, Subject: atHeight, Source: sourceLabel,
			Message: "You plan to spray from " + inFeet(height) + " above the crop and the label allows at most " + inFeet(*most) + ". Fly lower."}
		f.Measured, f.Limit, f.Margin = upTo(height, *most)
		l.report(f)
	case most == nil && !units.AtMost(height, commonHeight):
		f := finding.Finding{Code: CodeReleaseHeightHigh, Severity: finding.Caution, Subject: atHeight, Source: sourceCalm,
			Message: "You plan to spray from " + inFeet(height) + " above the crop. Labels often allow at most 10 ft. Fly lower unless safety needs more, and send the label's limit."}
		f.Measured, f.Limit, f.Margin = upTo(height, commonHeight)
		l.report(f)
	}
	judgeClass(in, l)
}

// judgeClass holds the droplet size class against the label's. A class beside a boundary that the
// label draws there is a caution.
func judgeClass(in Input, l *ledger) {
	least, most := in.Label.DropletClassMin, in.Label.DropletClassMax
	have, other := in.Spray.Droplet.Class, in.Spray.Droplet.ClassOther
	switch {
	case least != nil && least.CoarserThan(have):
		l.report(finding.Finding{Code: CodeDropletTooFine, Severity: finding.Stop, Subject: atSpray, Source: sourceLabel,
			Message: "The drops are " + words(have) + " and the label asks for " + words(*least) + " or coarser. " + in.Spray.coarser()})
	case most != nil && have.CoarserThan(*most):
		l.report(finding.Finding{Code: CodeDropletTooCoarse, Severity: finding.Stop, Subject: atSpray, Source: sourceLabel,
			Message: "The drops are " + words(have) + " and the label asks for " + words(*most) + " or finer. " + in.Spray.finer()})
	case outside(other, least, most):
		l.report(finding.Finding{Code: CodeDropletNearLabelLimit, Severity: finding.Caution, Subject: atSpray, Source: sourceLabel,
			Message: "The drops are " + words(have) + ", but so near to " + words(other) + " that they may fall outside the label. " + in.Spray.askClass()})
	}
}

// outside reports whether a class, where named, breaks the label.
func outside(c spray.Class, least, most *spray.Class) bool {
	if c == "" {
		return false
	}
	return (least != nil && least.CoarserThan(c)) || (most != nil && c.CoarserThan(*most))
}
