package units

import (
	"math"
	"strconv"
)

// Money is an amount of US dollars in whole thousandths: money is never a float.
type Money int64

// Dollar is one US dollar.
const Dollar Money = 1000

// Dollars makes an amount from a number of dollars, rounded to the nearest thousandth.
// Amounts beyond 1e12 dollars are held at that bound.
func Dollars(amount float64) Money {
	return Money(math.Round(max(-1e12, min(1e12, amount)) * 1000))
}

// In reports the amount in the given unit of money.
func (q Money) In(unit Money) float64 { return float64(q) / float64(unit) }

// SI reports the amount in dollars.
func (q Money) SI() float64 { return q.In(Dollar) }

// Dimension names the dimension of money.
func (q Money) Dimension() Dimension { return DimensionMoney }

// String prints the amount in dollars.
func (q Money) String() string { return strconv.FormatFloat(q.SI(), 'f', 2, 64) + " USD" }

// Over reports the cost per area when the amount is spent on an area; area must be positive.
func (q Money) Over(a Area) AreaCost { return AreaCost(q.SI() / float64(a)) }

// AreaCost is an amount of US dollars per area, in dollars per square meter.
type AreaCost float64

// Units of AreaCost.
const (
	DollarPerSquareMeter AreaCost = 1
	DollarPerAcre                 = DollarPerSquareMeter / AreaCost(Acre)
	DollarPerHectare              = DollarPerSquareMeter / AreaCost(Hectare)
)

// In reports the value in the given unit.
func (q AreaCost) In(unit AreaCost) float64 { return float64(q) / float64(unit) }

// Over reports the amount for an area, to the nearest thousandth of a dollar.
func (q AreaCost) Over(a Area) Money { return Dollars(float64(q) * float64(a)) }

// SI reports the bare value in dollars per square meter.
func (q AreaCost) SI() float64 { return float64(q) }

// Dimension names the dimension of cost per area.
func (q AreaCost) Dimension() Dimension { return DimensionAreaCost }

// String prints the value in dollars per acre.
func (q AreaCost) String() string { return text(q.In(DollarPerAcre), "USD/ac") }
