package crew

import (
	"math"

	"tractcheck/feasibility/units"
)

// capitalRecovery reports what owning a machine costs a year, depreciation and interest together:
// CR = (P - S) i (1+i)^N/((1+i)^N - 1) + S i, for a price P, a value S at the end, an interest rate i
// and N years. Without interest it is the depreciation alone. Price and value are not negative, years
// at least 1. Edwards, A3-29.
func capitalRecovery(price, salvage units.Money, rate units.Proportion, years units.Count) units.Money {
	n, i := math.Max(1, years.SI()), max(0, rate.SI())
	left := max(0, price-salvage).SI()
	if i == 0 {
		return units.Dollars(left / n)
	}
	// i (1+i)^N/((1+i)^N - 1) written as i/(1 - (1+i)^-N), which cannot overflow.
	factor := i / -math.Expm1(-n*math.Log1p(i))
	return units.Dollars(left*factor + salvage.SI()*i)
}

// machine spreads what owning the machine costs over the area it sprays in its life. With its years
// and an interest rate that is the capital recovery cost of all years; without them the price less
// the salvage value, and interest is said to be left out. With several aircraft the area is shared as
// the price is, so their number drops out. Insurance and repair are not in it.
func machine(c Costs, r *report) part {
	p := part{name: "machine"}
	p.need(c.MachinePrice != nil, "machine_price")
	p.need(c.MachineLifeArea != nil && *c.MachineLifeArea > 0, "machine_life_area")
	if len(p.missing) > 0 {
		return p
	}
	salvage := units.Money(0)
	if c.SalvageValue != nil {
		salvage = *c.SalvageValue
	} else {
		r.Assume("/crew/costs/salvage_value", "the machine is worth nothing at the end of its life", "send what it will sell for", sourceOwn)
	}
	if c.InterestRate == nil || c.MachineYears == nil || *c.MachineYears < 1 {
		r.Assume("/crew/costs/interest_rate", "no interest on the money that the machine ties up", "send interest_rate and machine_years, the years it will serve", sourceCost)
		p.perArea = max(0, *c.MachinePrice-salvage).Over(*c.MachineLifeArea)
		return p
	}
	yearly := capitalRecovery(*c.MachinePrice, salvage, *c.InterestRate, *c.MachineYears)
	p.perArea = units.AreaCost(yearly.SI() * c.MachineYears.SI() / c.MachineLifeArea.SI())
	return p
}
