package permits

import "slices"

// Rules is the whole table of the United States in reading order: family by family, as an
// applicant works through them. Every call builds it afresh, so no caller can change another's.
// Every row carries the table's date.
func Rules() []Rule {
	rules := slices.Concat(
		weightRules(), pilotRules(), flightDutyRules(), aircraftRules(), exemptionRules(),
		operatorRules(), operatorDutyRules(), certificationRules(),
		airspaceRules(), grantRules(), lightRules(), peopleRules(), weatherRules(), dispensingRules(),
		labelRules(), protectionRules(), workerRules(), recordRules(),
	)
	for i := range rules {
		rules[i].AsOf = AsOf()
	}
	return rules
}
