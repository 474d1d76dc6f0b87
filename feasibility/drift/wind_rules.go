package drift

import (
	"tractcheck/feasibility/air"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// Wind limits of common practice, for labels that state none.
const (
	// calmBelow: under it the applicator must first rule out an inversion (federal auxin label).
	calmBelow = 3 * units.MilePerHour
	// strongFrom: an EPA-accepted insecticide label of 2003 allows spraying only under it.
	strongFrom = 10 * units.MilePerHour
	// mostWindAllowed: cotton insecticide labels prohibit more (extension summary).
	mostWindAllowed = 15 * units.MilePerHour
	// gustOverMean is how far gusts may run over a mean wind by day over open land (from memory:
	// usual gust factors are 1.3 to 1.6). It asks for the gust and forbids nothing.
	gustOverMean = 1.5
)

// judgeWind holds the wind and the gust against the label, and where it is silent against common
// practice. Practice binds pesticides; for other liquids its breach is a caution.
func judgeWind(in Input, l *ledger) {
	most := in.Label.MaxWind
	switch {
	case most != nil && !units.AtMost(in.WindSpeed, *most):
		wind, allowed := mphApart(in.WindSpeed, *most)
		f := finding.Finding{Code: CodeWindOverLabel, Severity: finding.Stop, Subject: atWind, Source: sourceLabel,
			Message: "The wind is " + wind + " mph and the label allows at most " + allowed + " mph. Do not spray. Wait for an hour with less wind."}
		f.Measured, f.Limit, f.Margin = upTo(in.WindSpeed, *most)
		l.report(f)
	case most == nil && !units.AtMost(in.WindSpeed, mostWindAllowed):
		wind, usual := mphApart(in.WindSpeed, mostWindAllowed)
		f := finding.Finding{Code: CodeWindOverCommonPractice, Severity: practice(in), Subject: atWind, Source: sourceCottonLabels,
			Message: "The wind is " + wind + " mph. Labels commonly prohibit spraying over " + usual + " mph, and none was stated for this product. Wait for less wind, or send the label's own limit."}
		f.Measured, f.Limit, f.Margin = upTo(in.WindSpeed, mostWindAllowed)
		l.report(f)
	case most == nil && units.AtLeast(in.WindSpeed, strongFrom):
		f := finding.Finding{Code: CodeWindStrong, Severity: finding.Caution, Subject: atWind, Source: sourceLabel2003,
			Message: "The wind is " + inMPH(in.WindSpeed) + ". Many labels stop at 10 mph. Read the label and send its limit before you spray."}
		f.Measured, f.Limit, f.Margin = upTo(in.WindSpeed, strongFrom)
		l.report(f)
	}
	judgeGust(in, l)
	judgeCalm(in, l)
}

// judgeGust holds the gust against the same limits as the wind.
func judgeGust(in Input, l *ledger) {
	if in.Gust == nil {
		askForGust(in, l)
		return
	}
	gust, most := *in.Gust, in.Label.MaxWind
	switch {
	case most != nil && !units.AtMost(gust, *most):
		reach, allowed := mphApart(gust, *most)
		f := finding.Finding{Code: CodeGustOverLabel, Severity: finding.Stop, Subject: atGust, Source: sourceLabel,
			Message: "Gusts reach " + reach + " mph and the label allows at most " + allowed + " mph. A gust counts while you spray. Wait until gusts stay under the limit."}
		f.Measured, f.Limit, f.Margin = upTo(gust, *most)
		l.report(f)
	case most == nil && !units.AtMost(gust, mostWindAllowed):
		reach, usual := mphApart(gust, mostWindAllowed)
		f := finding.Finding{Code: CodeGustOverCommonPractice, Severity: practice(in), Subject: atGust, Source: sourceCottonLabels,
			Message: "Gusts reach " + reach + " mph. Labels commonly prohibit spraying over " + usual + " mph. Wait until gusts stay under that, or send the label's own limit."}
		f.Measured, f.Limit, f.Margin = upTo(gust, mostWindAllowed)
		l.report(f)
	}
}

// askForGust cautions where the gust is not stated and usual gusts of a wind under the limit would
// break it: a factor from memory turns no answer. Over the limit the wind itself is found already.
func askForGust(in Input, l *ledger) {
	most := mostWindAllowed
	if in.Label.MaxWind != nil {
		most = *in.Label.MaxWind
	} else if !in.Pesticide {
		return
	}
	usual := gustOverMean * in.WindSpeed
	if units.AtMost(usual, most) || !units.AtMost(in.WindSpeed, most) {
		return
	}
	gusts, limit := mphApart(usual, most)
	f := finding.Finding{Code: CodeGustNotStated, Severity: finding.Caution, Subject: atGust, Source: sourceDesign,
		Message: "The gusts were not stated. With a wind of " + inMPH(in.WindSpeed) + " gusts of " + gusts + " mph are usual, over the limit of " + limit + " mph. Measure the highest gust of ten minutes at the field and send it."}
	f.Measured, f.Limit, f.Margin = upTo(usual, most)
	l.report(f)
}

// judgeCalm holds the wind against the label's least wind, and against 3 mph. Under 3 mph the
// federal auxin label text leaves it to the applicator to determine that no inversion exists: so
// calm air is a stop unless an inversion is ruled out, and a caution where it is.
func judgeCalm(in Input, l *ledger) {
	if least := in.Label.MinWind; least != nil && !units.AtLeast(in.WindSpeed, *least) {
		wind, asked := mphApart(in.WindSpeed, *least)
		f := finding.Finding{Code: CodeWindUnderLabel, Severity: finding.Stop, Subject: atWind, Source: sourceLabel,
			Message: "The wind is " + wind + " mph and the label asks for at least " + asked + " mph. Calm air can carry fine drops a long way. Wait for a steady breeze."}
		f.Measured, f.Limit, f.Margin = downTo(in.WindSpeed, *least)
		l.report(f)
	}
	if units.AtLeast(in.WindSpeed, calmBelow) {
		return
	}
	wind, steady := mphApart(in.WindSpeed, calmBelow)
	f := finding.Finding{Code: CodeWindCalm, Severity: finding.Caution, Subject: atWind, Source: sourceCalm,
		Message: "The wind is only " + wind + " mph, so its direction cannot be trusted. No inversion was found. Check with smoke that it rises and mixes, and treat every side as downwind."}
	if in.Air.Inversion != air.InversionAbsent {
		f.Severity = practice(in)
		f.Message = "The wind is only " + wind + " mph and a temperature inversion is not ruled out. Fine drops could hang and move anywhere. Wait for " + steady + " mph or more, or measure the air at two heights and send it."
	}
	f.Measured, f.Limit, f.Margin = downTo(in.WindSpeed, calmBelow)
	l.report(f)
}

// practice is the severity of a breach of common practice: a stop for pesticides, whose labels the
// practice comes from, and a caution for other liquids.
func practice(in Input) finding.Severity {
	if in.Pesticide {
		return finding.Stop
	}
	return finding.Caution
}

// isCalm reports whether the wind is too light to have a direction to rely on.
func isCalm(in Input) bool { return !units.AtLeast(in.WindSpeed, calmBelow) }
