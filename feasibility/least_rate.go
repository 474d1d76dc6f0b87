package feasibility

import (
	"fmt"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// CodeRateUnderLabel says that the plan sprays less than the label asks for: a stop, in a plan of
// sorties asked for alone. In a whole answer the checklist says it.
const CodeRateUnderLabel finding.Code = "rate_under_label"

// sourceProductLabel is the label, as package drift cites it.
var sourceProductLabel = finding.Source{
	ID:       "product-label",
	Citation: "The product label as stated in the request; use inconsistent with the label is unlawful, 7 U.S.C. 136j(a)(2)(G)",
	Standing: finding.Read,
}

// leastRate holds the rate that the sorties spray to the least that the label asks for. A label that
// says nothing of it is an assumption where a pesticide is sprayed.
func (m Mission) leastRate() report {
	least, rate := m.Load.Label.MinRate, m.Load.ApplicationRate
	switch {
	case !m.Load.Pesticide:
		return report{}
	case least == nil:
		return report{assumptions: []finding.Assumption{{
			Subject: "/load/product_label/min_rate", Assumed: "the label allows as little as " + perAcre(rate) + " by air",
			Settle: "send the lowest spray volume on the label", Source: sourceProductLabel,
		}}}
	case !units.StrictlyBelow(rate, *least):
		return report{}
	}
	return report{findings: []finding.Finding{{
		Code: CodeRateUnderLabel, Severity: finding.Stop, Subject: "/load/application_rate",
		Message: fmt.Sprintf("The plan sprays %s, and the label asks for %s at least. Raise the rate and plan again: it takes more flights.",
			perAcre(rate), perAcre(*least)),
		Measured: rate, Limit: *least, Margin: rate - *least, Source: sourceProductLabel,
	}}}
}

// perAcre prints a rate of application.
func perAcre(r units.ApplicationRate) string {
	return fmt.Sprintf("%.3g gal/ac", r.In(units.GallonPerAcre))
}
