package feasibility

import (
	"cmp"
	"slices"

	"tractcheck/feasibility/finding"
)

// price says whether a remedy costs anything.
type price int

const (
	free      price = iota // nothing gets worse and nothing must be minded
	paid                   // time, flights, money, other papers, a new open point, or something to mind
	moreDrift              // the drift grade gets worse
)

// worthSaying is by how many times the hours or the cost must change to be stated, and to count as worse.
// Own choice.
const worthSaying = 1.02

// priceOf is the price of an outcome of a mission.
func priceOf(before Answer, o outcome) price {
	then, now := o.answer.outlook(), before.outlook()
	dearer := func(was, is float64) bool { return was > 0 && is > was*worthSaying }
	switch {
	case gradeRank(then.grade) > gradeRank(now.grade):
		return moreDrift
	case dearer(now.hours(), then.hours()), dearer(now.money.SI(), then.money.SI()),
		now.sorties > 0 && then.sorties > now.sorties,
		len(crossingCosts(before, o.answer)) > 0, len(opened(before, o.answer)) > 0, len(o.provisos()) > 0:
		return paid
	default:
		return free
	}
}

// byCost puts the remedy that costs least first: by the answer and the stops and points left open, then
// what costs nothing before what does, and that before what leaves more drift; then by time, flights,
// money and drift, then by how much must be changed.
func byCost(x, y Remedy) int {
	return cmp.Or(
		rank(x.AnswerThen)-rank(y.AnswerThen), x.left-y.left, x.open-y.open, int(x.price)-int(y.price),
		cmp.Compare(x.then.hours(), y.then.hours()), cmp.Compare(x.then.sorties, y.then.sorties),
		cmp.Compare(x.then.money, y.then.money), gradeRank(x.then.grade)-gradeRank(y.then.grade),
		len(x.Changes)-len(y.Changes),
	)
}

// opened says the points that are open after a change and were not before, each by its first sentence.
func opened(before, after Answer) []string {
	known := liftable(before)
	var said []string
	for i := range after.Findings {
		f := &after.Findings[i]
		if f.Severity == finding.Needed && !isAuthorization(f.Code) && !slices.Contains(known, f.Code) {
			said = append(said, "a new point is then open: "+firstSentence(f.Message))
		}
	}
	return said
}
