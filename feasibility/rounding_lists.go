package feasibility

import (
	"reflect"

	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/tract"
	"tractcheck/feasibility/units"
)

// longLists rounds the long lists of an answer. Their figures are named, because the walk by types takes
// longer to find a figure than to round it; a test holds every list to that walk, so that none is
// forgotten.
var longLists = map[reflect.Type]rounding{
	reflect.TypeFor[[]finding.Finding](): each(roundFinding),
	reflect.TypeFor[[]permits.Item](): each(func(i *permits.Item) {
		if c := i.Compared; c != nil {
			shortenAny(&c.Measured)
			shortenAny(&c.Limit)
			shortenAny(&c.Margin)
		}
	}),
	reflect.TypeFor[[]tract.Sortie](): each(func(s *tract.Sortie) {
		shorten(&s.Fill)
		shorten(&s.Area)
		shorten(&s.SprayTime)
		shorten(&s.FlightTime)
		shorten(&s.Energy)
		shorten(&s.ResumeAlong)
	}),
	reflect.TypeFor[[]spray.Point](): each(func(p *spray.Point) {
		shorten(&p.Speed)
		shorten(&p.FlowEach)
		shortenBehind(&p.Pressure)
		shorten(&p.Fines)
	}),
	reflect.TypeFor[[]drift.Deposit](): each(func(d *drift.Deposit) {
		shorten(&d.Distance)
		shorten(&d.PercentOfRate.Low)
		shorten(&d.PercentOfRate.Best)
		shorten(&d.PercentOfRate.High)
	}),
	reflect.TypeFor[[]drift.ReferencePoint](): each(func(p *drift.ReferencePoint) {
		shorten(&p.Distance)
		shorten(&p.PercentOfRate)
	}),
}

// roundFinding rounds the figures of a finding.
func roundFinding(f *finding.Finding) {
	shortenAny(&f.Measured)
	shortenAny(&f.Limit)
	shortenAny(&f.Margin)
}

// each rounds the items of a list.
func each[T any](round func(*T)) rounding {
	return func(v reflect.Value) {
		if list, ok := v.Addr().Interface().(*[]T); ok {
			for i := range *list {
				round(&(*list)[i])
			}
		}
	}
}

func shorten[Q ~float64](q *Q) { *q = units.Significant(*q, significantDigits) }

// shortenBehind points at a rounded copy where the figure is not round.
func shortenBehind[Q ~float64](q **Q) {
	if *q != nil && units.Significant(**q, significantDigits) != **q {
		*q = new(units.Significant(**q, significantDigits))
	}
}

func shortenAny(q *units.Quantity) {
	if *q != nil {
		*q = units.Rounded(*q, significantDigits)
	}
}
