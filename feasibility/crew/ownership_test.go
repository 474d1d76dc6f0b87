package crew

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// The published examples of owning a machine, to the cent.
func TestCapitalRecovery(t *testing.T) {
	t.Parallel()
	for _, row := range published(t, "capital-recovery.csv") {
		salvage := units.Dollars(number(t, row, "list") * number(t, row, "salvage_percent") / 100)
		paid := units.Dollars(number(t, row, "paid"))
		assert.InDelta(t, number(t, row, "salvage"), salvage.SI(), halfDigit(row, "salvage"))
		assert.InDelta(t, number(t, row, "depreciation"), (paid - salvage).SI(), halfDigit(row, "depreciation"))
		got := capitalRecovery(paid, salvage, units.Proportion(number(t, row, "interest_percent"))*units.Percent, units.Count(number(t, row, "years")))
		assert.InDelta(t, number(t, row, "capital_recovery"), got.SI(), halfDigit(row, "capital_recovery"))
	}
}

func TestCapitalRecoveryFactors(t *testing.T) {
	t.Parallel()
	for _, row := range published(t, "capital-recovery-factors.csv") {
		rate := units.Proportion(number(t, row, "interest_percent")) * units.Percent
		got := capitalRecovery(units.Dollars(100_000), 0, rate, units.Count(number(t, row, "years")))
		assert.InDelta(t, number(t, row, "factor"), got.SI()/100_000, halfDigit(row, "factor"))
	}
}

// The yearly cost pays the loan off: the balance, with interest added and the cost taken off each
// year, ends at the salvage value.
func TestCapitalRecoveryPaysTheLoanOff(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		price := float64(rapid.IntRange(1, 500_000).Draw(t, "price"))
		salvage := price * rapid.Float64Range(0, 1).Draw(t, "salvage")
		rate := rapid.Float64Range(0, 0.5).Draw(t, "rate")
		years := rapid.IntRange(1, 50).Draw(t, "years")
		cost := capitalRecovery(units.Dollars(price), units.Dollars(salvage), units.Proportion(rate), units.Count(years)).SI()
		balance := price
		for range years {
			balance += balance*rate - cost
		}
		// Money is kept to a thousandth, which interest makes grow.
		slack := 0.002 * float64(years) * math.Pow(1+rate, float64(years))
		if math.Abs(balance-salvage) > slack {
			t.Fatalf("%.3f left of %.0f after %d years at %.3f, want %.3f", balance, price, years, rate, salvage)
		}
	})
}

// An outfit of $45,000 that is worth $9,000 after 5 years at 8 percent costs $9,736 a year, $4.87 an
// acre at 2,000 acres a year.
func TestMachineWithInterest(t *testing.T) {
	t.Parallel()
	in := Input{Plan: sorties(10, 1, 40*units.Acre, 8*units.Minute), Aircraft: 1, BatteryEnergy: 1500 * units.WattHour}
	in.Crew.Costs = Costs{
		MachinePrice: new(units.Dollars(45_000)), SalvageValue: new(units.Dollars(9_000)), MachineLifeArea: new(10_000 * units.Acre),
		MachineYears: new(units.Count(5)), InterestRate: new(8 * units.Percent),
	}
	out := Plan(in)
	require.Equal(t, "machine", out.Cost.Parts[0].Name)
	assert.InDelta(t, 9736, out.Cost.Parts[0].PerArea.In(units.DollarPerAcre)*2000, 0.5)
	in.Crew.Costs.InterestRate = nil
	plain := Plan(in)
	assert.InDelta(t, 3.60, plain.Cost.Parts[0].PerArea.In(units.DollarPerAcre), 1e-9)
	assert.Contains(t, subjects(plain), "/crew/costs/interest_rate", "what is left out is said")
	assert.NotContains(t, subjects(out), "/crew/costs/interest_rate")
}

func subjects(r Result) []string {
	var list []string
	for _, a := range r.Assumptions {
		list = append(list, a.Subject)
	}
	return list
}

// A battery of 1.5 kWh, 85 percent of it recharged at 0.92, for 4 acres: 0.35 kWh an acre, and a
// gallon for every 5 kWh of the sets that are charged in the field.
func TestGeneratorFuel(t *testing.T) {
	t.Parallel()
	plan := sorties(10, 1, 40*units.Acre, 8*units.Minute)
	plan.EnergyEach = 0.85 * 1500 * units.WattHour
	in := Input{Plan: plan, Aircraft: 1, BatteryEnergy: 1500 * units.WattHour}
	in.Crew.Batteries, in.Crew.Chargers = new(units.Count(4)), new(units.Count(2))
	in.Crew.Costs.FuelPerGallon = new(units.Dollars(3))
	out := Plan(in)
	perLoad := 1.5 * 0.85 / 0.92
	assert.InDelta(t, 0.35, perLoad/4, 0.005, "kWh an acre")
	assert.InDelta(t, 6*perLoad/5, out.GeneratorFuel.In(units.Gallon), 1e-9, "six of ten loads; four come charged")
	require.Len(t, out.Cost.Parts, 1)
	assert.Equal(t, "energy", out.Cost.Parts[0].Name)
	assert.InDelta(t, perLoad/4/5*3, out.Cost.Parts[0].PerArea.In(units.DollarPerAcre), 1e-9)
	in.Crew.Batteries = new(units.Count(10))
	assert.Zero(t, Plan(in).GeneratorFuel, "all were charged at home")
}

// The hours rest on as many aircraft in the air as there are; who flies and watches them is said.
func TestPilotsAgainstAircraft(t *testing.T) {
	t.Parallel()
	count := func(n int) *units.Count { return new(units.Count(n)) }
	for name, tc := range map[string]struct {
		aircraft                  units.Count
		pilots, observers, people *units.Count
		want                      []finding.Code
	}{
		"one of each":                    {1, count(1), nil, count(1), nil},
		"one aircraft, nobody stated":    {1, nil, nil, nil, nil},
		"three aircraft, nobody stated":  {3, nil, nil, nil, []finding.Code{CodePilotsFewer}},
		"three aircraft, one pilot":      {3, count(1), nil, count(2), []finding.Code{CodePilotsFewer}},
		"three aircraft, three pilots":   {3, count(3), nil, count(4), nil},
		"three aircraft, one observer":   {3, count(3), count(1), count(4), []finding.Code{CodePilotsFewer}},
		"fewer people than tasks":        {1, count(1), count(1), count(1), []finding.Code{CodeHandsFewer}},
		"as many people as tasks":        {1, count(1), count(1), count(2), nil},
		"more aircraft than there is to": {3, count(1), nil, count(2), nil},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			n := units.Count(30)
			if name == "more aircraft than there is to" {
				n = 1
			}
			in := Input{Plan: sorties(n, 1, 40*units.Acre, 8*units.Minute), Aircraft: tc.aircraft, RemotePilots: tc.pilots, Observers: tc.observers}
			in.Crew.People = tc.people
			var got []finding.Code
			for _, f := range Plan(in).Findings {
				if f.Code == CodePilotsFewer || f.Code == CodeHandsFewer {
					got = append(got, f.Code)
					assert.Equal(t, finding.Caution, f.Severity)
				}
			}
			assert.Equal(t, tc.want, got)
		})
	}
}
