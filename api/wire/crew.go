package wire

import (
	"tractcheck/feasibility/crew"
	"tractcheck/feasibility/units"
)

// Crew is the people and the ground equipment.
type Crew struct {
	People          *Whole    `json:"people,omitzero" validate:"omitempty,min=1,max=200"`
	Batteries       *Whole    `json:"batteries,omitzero" validate:"omitempty,min=1,max=1000"`
	Chargers        *Whole    `json:"chargers,omitzero" validate:"omitempty,min=0,max=1000"`
	ChargeTime      *Quantity `json:"charge_time,omitzero"`
	BatterySwapTime *Quantity `json:"battery_swap_time,omitzero"`
	RefillTime      *Quantity `json:"refill_time,omitzero"`
	Generator       *Quantity `json:"generator,omitzero"`
	WorkHours       *Quantity `json:"work_hours,omitzero"`
	Costs           *Costs    `json:"costs,omitzero"`
}

// Costs are the caller's prices.
type Costs struct {
	MachinePrice          *Quantity `json:"machine_price,omitzero"`
	SalvageValue          *Quantity `json:"salvage_value,omitzero"`
	MachineLifeArea       *Quantity `json:"machine_life_area,omitzero"`
	MachineYears          *Whole    `json:"machine_years,omitzero" validate:"omitempty,min=1,max=50"`
	InterestRate          *Quantity `json:"interest_rate,omitzero"`
	BatteryPrice          *Quantity `json:"battery_price,omitzero"`
	BatteryCycles         *Whole    `json:"battery_cycles,omitzero" validate:"omitempty,min=1,max=100000"`
	LaborPerPersonHour    *Quantity `json:"labor_per_person_hour,omitzero"`
	EnergyPerKilowattHour *Quantity `json:"energy_per_kilowatt_hour,omitzero"`
	FuelPerGallon         *Quantity `json:"fuel_per_gallon,omitzero"`
	TravelPerJob          *Quantity `json:"travel_per_job,omitzero"`
	GroundQuote           *Quantity `json:"ground_quote,omitzero"`
	MannedAircraftQuote   *Quantity `json:"manned_aircraft_quote,omitzero"`
}

func (m *mapper) crew(c *Crew) crew.Crew {
	if c == nil {
		return crew.Crew{}
	}
	return crew.Crew{
		People:          countOf(c.People),
		Batteries:       countOf(c.Batteries),
		Chargers:        countOf(c.Chargers),
		ChargeTime:      optional[units.Duration](m, at("/crew/charge_time"), c.ChargeTime),
		BatterySwapTime: optional[units.Duration](m, at("/crew/battery_swap_time"), c.BatterySwapTime),
		RefillTime:      optional[units.Duration](m, at("/crew/refill_time"), c.RefillTime),
		Generator:       optional[units.Power](m, at("/crew/generator"), c.Generator),
		WorkHours:       optional[units.Duration](m, at("/crew/work_hours"), c.WorkHours),
		Costs:           m.costs(c.Costs),
	}
}

func (m *mapper) costs(c *Costs) crew.Costs {
	if c == nil {
		return crew.Costs{}
	}
	out := crew.Costs{
		MachinePrice:          m.money(at("/crew/costs/machine_price"), c.MachinePrice),
		SalvageValue:          m.money(at("/crew/costs/salvage_value"), c.SalvageValue),
		MachineLifeArea:       optional[units.Area](m, at("/crew/costs/machine_life_area"), c.MachineLifeArea),
		MachineYears:          countOf(c.MachineYears),
		InterestRate:          optional[units.Proportion](m, at("/crew/costs/interest_rate"), c.InterestRate),
		FuelPerGallon:         m.money(at("/crew/costs/fuel_per_gallon"), c.FuelPerGallon),
		BatteryPrice:          m.money(at("/crew/costs/battery_price"), c.BatteryPrice),
		BatteryCycles:         countOf(c.BatteryCycles),
		LaborPerPersonHour:    m.money(at("/crew/costs/labor_per_person_hour"), c.LaborPerPersonHour),
		EnergyPerKilowattHour: m.money(at("/crew/costs/energy_per_kilowatt_hour"), c.EnergyPerKilowattHour),
		TravelPerJob:          m.money(at("/crew/costs/travel_per_job"), c.TravelPerJob),
		GroundQuote:           optional[units.AreaCost](m, at("/crew/costs/ground_quote"), c.GroundQuote),
		MannedAircraftQuote:   optional[units.AreaCost](m, at("/crew/costs/manned_aircraft_quote"), c.MannedAircraftQuote),
	}
	if out.MachinePrice != nil && out.SalvageValue != nil && *out.SalvageValue > *out.MachinePrice {
		m.conflict(at("/crew/costs/salvage_value"), *c.SalvageValue, "at most "+sayQuantity(*c.MachinePrice),
			"A machine is not worth more at the end than it cost. Check salvage_value and machine_price.")
	}
	return out
}
