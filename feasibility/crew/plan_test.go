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

func codes(r Result) []finding.Code {
	var out []finding.Code
	for _, f := range r.Findings {
		out = append(out, f.Code)
	}
	return out
}

func found(r Result, code finding.Code) finding.Finding {
	for _, f := range r.Findings {
		if f.Code == code {
			return f
		}
	}
	return finding.Finding{}
}

// usual is a job of 40 loads on one aircraft: 7 minutes of flight, 1.5 of loading, 15 to charge.
func usual() Input {
	return Input{
		Crew: crewOf(2, 90, 60, 15*units.Minute), Plan: sorties(40, 1, 160*units.Acre, 7*units.Minute),
		Aircraft: 1, BatteryEnergy: 1000 * units.WattHour, Daylight: new(14 * units.Hour),
	}
}

func TestPlan(t *testing.T) {
	t.Parallel()
	out := Plan(usual())
	assert.Equal(t, units.Count(4), out.Batteries) // 1 + ceil(20/8.5)
	assert.Equal(t, units.Count(2), out.Chargers)  // ceil(15/8.5)
	assert.InDelta(t, 40*510, out.Elapsed.SI(), 1e-6)
	assert.Zero(t, out.Waiting)
	assert.Equal(t, units.Count(1), out.Days) // 5.67 h of 8
	assert.Nil(t, out.Cost)
	assert.NotEmpty(t, out.Sources)
}

func TestOnePersonWorksInTurn(t *testing.T) {
	t.Parallel()
	two, one := usual(), usual()
	one.Crew.People = new(units.Count(1))
	assert.InDelta(t, 40*60, (Plan(one).Elapsed - Plan(two).Elapsed).SI(), 1e-6, "the swap after the refill")
	unknown := usual()
	unknown.Crew.People = nil
	assert.Equal(t, Plan(one).Elapsed, Plan(unknown).Elapsed, "unknown is taken as one")
}

func TestShortBatteries(t *testing.T) {
	t.Parallel()
	in := usual()
	in.Crew.Batteries = new(units.Count(2))
	out := Plan(in)
	assert.Equal(t, units.Count(4), out.Batteries)
	// Two sets, one out while the other is away for 20 minutes: a cycle of 20 instead of 8.5.
	assert.InEpsilon(t, 40*20*60, out.Elapsed.SI(), 0.03)
	f := found(out, CodeBatteriesShort)
	assert.Equal(t, finding.Caution, f.Severity)
	assert.InDelta(t, -2, f.Margin.SI(), 1e-12)
	assert.Contains(t, f.Message, "wait")
	assert.Equal(t, out.Days, units.Count(math.Ceil(out.Elapsed.SI()/out.HoursPerDay.SI())))
	assert.Contains(t, codes(out), CodeDaysMoreThanOne)
}

func TestShortChargers(t *testing.T) {
	t.Parallel()
	in := usual()
	in.Crew.Chargers = new(units.Count(1))
	out := Plan(in)
	assert.Equal(t, finding.Caution, found(out, CodeChargersShort).Severity)
	assert.Greater(t, out.Waiting, units.Minute)

	in.Crew.Chargers, in.Crew.Batteries = new(units.Count(0)), new(units.Count(5))
	out = Plan(in)
	assert.Equal(t, finding.Needed, found(out, CodeCannotRecharge).Severity)
	assert.Contains(t, found(out, CodeCannotRecharge).Message, "but you have 5 and no charger")
	assert.Zero(t, out.Elapsed)
	assert.Zero(t, out.WorkRate)
	assert.Zero(t, out.Days)

	in.Crew.Costs.LaborPerPersonHour = new(units.Dollars(25))
	assert.Contains(t, found(Plan(in), CodeCostPartial).Message, "labor", "no hours, so no cheap labor either")
}

func TestChargedBeforehand(t *testing.T) {
	t.Parallel()
	in := usual()
	in.Crew.Batteries, in.Crew.Chargers = new(units.Count(40)), new(units.Count(0))
	out := Plan(in)
	assert.Contains(t, codes(out), CodeChargeBeforehand)
	assert.Zero(t, out.Chargers)
	assert.Zero(t, out.GeneratorPower)
	assert.Zero(t, out.Waiting)

	short := usual()
	short.Plan = sorties(2, 1, 8*units.Acre, 7*units.Minute)
	out = Plan(short)
	assert.Equal(t, units.Count(2), out.Batteries, "no more than the job drains")
}

func TestShortGenerator(t *testing.T) {
	t.Parallel()
	in := usual()
	need := Plan(in).GeneratorPower
	in.Crew.Generator = new(need)
	assert.NotContains(t, codes(Plan(in)), CodeGeneratorShort)
	in.Crew.Generator = new(need / 2)
	out := Plan(in)
	assert.Equal(t, finding.Caution, found(out, CodeGeneratorShort).Severity)
	assert.Greater(t, out.Waiting, units.Duration(0), "charging takes twice as long")
}

func TestDays(t *testing.T) {
	t.Parallel()
	in := usual()
	in.Crew.WorkHours = new(3 * units.Hour)
	out := Plan(in)
	assert.Equal(t, units.Count(2), out.Days)
	assert.Contains(t, codes(out), CodeDaysMoreThanOne)

	// A midsummer day of 15 hours leaves 12.5, a day's work of 20 hours does not change that.
	in.Crew.WorkHours, in.Daylight = new(20*units.Hour), new(15*units.Hour)
	assert.InDelta(t, 12.5, Plan(in).HoursPerDay.In(units.Hour), 1e-12)

	in.Daylight = new(2 * units.Hour)
	out = Plan(in)
	assert.Zero(t, out.Days)
	assert.Equal(t, finding.Caution, found(out, CodeNoHoursInDay).Severity)

	in.Daylight, in.Crew.WorkHours = nil, nil
	out = Plan(in)
	assert.InDelta(t, 7.5, out.HoursPerDay.In(units.Hour), 1e-12)
	subjects := []string{}
	for _, a := range out.Assumptions {
		assert.NotEmpty(t, a.Assumed)
		assert.NotEmpty(t, a.Settle)
		assert.True(t, a.Source.Cited())
		subjects = append(subjects, a.Subject)
	}
	assert.Subset(t, subjects, []string{"/crew/work_hours", "/weather/at", "/crew/batteries", "/crew/chargers"})
}

func TestNoSorties(t *testing.T) {
	t.Parallel()
	in := usual()
	in.Plan.Feasible = false
	out := Plan(in)
	assert.Equal(t, []finding.Code{CodeCrewNotPlanned}, codes(out))
	assert.Zero(t, out.Elapsed)
}

func TestEverythingMissingIsAssumed(t *testing.T) {
	t.Parallel()
	in := usual()
	in.Crew = Crew{}
	out := Plan(in)
	assert.Positive(t, out.Elapsed)
	subjects := map[string]bool{}
	for _, a := range out.Assumptions {
		subjects[a.Subject] = true
	}
	for _, pointer := range []string{"/crew/people", "/crew/refill_time", "/crew/battery_swap_time", "/crew/charge_time", "/crew/batteries", "/crew/chargers", "/crew/work_hours"} {
		assert.True(t, subjects[pointer], pointer)
	}
}

func TestCostLeavesOutWhatIsNotPriced(t *testing.T) {
	t.Parallel()
	in := usual()
	in.Crew.Costs.LaborPerPersonHour = new(units.Dollars(25))
	in.Crew.Costs.MachinePrice = new(units.Dollars(30_000)) // without its life area
	in.Crew.Costs.GroundQuote = new(0.5 * units.DollarPerAcre)
	in.Crew.Costs.MannedAircraftQuote = new(50 * units.DollarPerAcre)
	out := Plan(in)
	require.NotNil(t, out.Cost)
	require.Len(t, out.Cost.Parts, 1)
	assert.Equal(t, "labor", out.Cost.Parts[0].Name)
	partial := found(out, CodeCostPartial)
	assert.Contains(t, partial.Message, "machine, batteries, energy, travel")
	assert.Contains(t, partial.Message, "machine_life_area")
	lower := found(out, CodeQuoteLower)
	assert.Equal(t, "/crew/costs/ground_quote", lower.Subject, "only the ground rig is cheaper")
	assert.Contains(t, lower.Message, "$0.50 per acre")

	in.Crew.Costs.MachineLifeArea = new(10_000 * units.Acre)
	out = Plan(in)
	assert.InDelta(t, 3, out.Cost.Parts[0].PerArea.In(units.DollarPerAcre), 1e-9, "no salvage value taken")
}

func TestMoreNeverTakesLonger(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s := shift{
			sorties: rapid.IntRange(1, 200).Draw(t, "sorties"), aircraft: rapid.IntRange(1, 5).Draw(t, "aircraft"),
			perBattery: rapid.IntRange(1, 3).Draw(t, "per battery"), flight: rapid.Float64Range(0, 900).Draw(t, "flight"),
			refill: rapid.Float64Range(0, 300).Draw(t, "refill"), cool: rapid.Float64Range(0, 600).Draw(t, "cool"),
			charge:    rapid.Float64Range(0, 3000).Draw(t, "charge"),
			batteries: rapid.IntRange(1, 20).Draw(t, "batteries"), chargers: rapid.IntRange(1, 6).Draw(t, "chargers"),
		}
		s.reload = s.refill + rapid.Float64Range(0, 200).Draw(t, "swap")
		end, ok := s.run()
		more := s
		more.batteries += rapid.IntRange(1, 3).Draw(t, "more batteries")
		sooner, ok2 := more.run()
		if !ok || !ok2 || sooner > end*(1+1e-9) {
			t.Fatalf("%d batteries: %v, %d: %v", s.batteries, end, more.batteries, sooner)
		}
		more = s
		more.chargers++
		if sooner, _ := more.run(); sooner > end*(1+1e-9) {
			t.Fatalf("%d chargers: %v, %d: %v", s.chargers, end, more.chargers, sooner)
		}
		free := s
		free.batteries = 0
		if least, _ := free.run(); least > end*(1+1e-9) {
			t.Fatalf("never short: %v, short: %v", least, end)
		}
	})
}

// TestNeededBatteriesSuffice: with the batteries and chargers that the plan asks for, nothing
// waits.
func TestNeededBatteriesSuffice(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		in := usual()
		in.Aircraft = units.Count(rapid.IntRange(1, 3).Draw(t, "aircraft"))
		in.Plan = sorties(units.Count(rapid.IntRange(1, 300).Draw(t, "sorties")), units.Count(rapid.IntRange(1, 3).Draw(t, "per battery")),
			160*units.Acre, units.Duration(rapid.Float64Range(60, 1200).Draw(t, "flight")))
		in.Crew.ChargeTime = new(units.Duration(rapid.Float64Range(60, 3000).Draw(t, "charge")))
		out := Plan(in)
		if in.Aircraft == 1 && out.Waiting > units.Second {
			t.Fatalf("%v batteries and %v chargers wait %v", out.Batteries, out.Chargers, out.Waiting)
		}
		// Aircraft that start together crowd the chargers for a round or two.
		if out.Waiting > 0.1*out.Elapsed {
			t.Fatalf("%v batteries and %v chargers wait %v of %v", out.Batteries, out.Chargers, out.Waiting, out.Elapsed)
		}
	})
}

// TestNothingBreaks draws absurd but admissible numbers.
func TestNothingBreaks(t *testing.T) {
	t.Parallel()
	drawn := func(t *rapid.T, label string) float64 {
		return math.Pow(10, rapid.Float64Range(-12, 12).Draw(t, label))
	}
	counts := func(t *rapid.T, label string) *units.Count {
		return new(units.Count(rapid.IntRange(-1, 2_000_000_000).Draw(t, label)))
	}
	rapid.Check(t, func(t *rapid.T) {
		plan := sorties(*counts(t, "sorties"), *counts(t, "per battery"), units.Area(drawn(t, "area")), units.Duration(drawn(t, "flight")))
		plan.EnergyEach = units.Energy(drawn(t, "each"))
		crew := crewOf(*counts(t, "people"), units.Duration(drawn(t, "refill")), units.Duration(drawn(t, "swap")), units.Duration(drawn(t, "charge")))
		crew.Batteries, crew.Chargers = counts(t, "batteries"), counts(t, "chargers")
		crew.Generator, crew.WorkHours = new(units.Power(drawn(t, "generator"))), new(units.Duration(drawn(t, "work")))
		crew.Costs = Costs{
			MachinePrice: new(units.Dollars(drawn(t, "price"))), MachineLifeArea: new(units.Area(drawn(t, "life"))),
			BatteryPrice: new(units.Dollars(drawn(t, "battery"))), BatteryCycles: counts(t, "cycles"),
			LaborPerPersonHour: new(units.Dollars(drawn(t, "wage"))), EnergyPerKilowattHour: new(units.Dollars(drawn(t, "energy"))),
		}
		out := Plan(Input{
			Crew: crew, Plan: plan, Aircraft: *counts(t, "aircraft"), BatteryEnergy: units.Energy(drawn(t, "nameplate")),
			Daylight: new(units.Duration(drawn(t, "daylight"))), Elevation: new(units.Length(drawn(t, "elevation"))),
			Temperature: new(units.Temperature(drawn(t, "temperature"))),
		})
		numbers := []float64{
			out.GeneratorPower.SI(), out.WorkRate.SI(), out.FieldEfficiency.SI(), out.Elapsed.SI(),
			out.Waiting.SI(), out.HoursPerDay.SI(), out.Batteries.SI(), out.Chargers.SI(), out.Days.SI(),
		}
		if out.Cost != nil {
			numbers = append(numbers, out.Cost.PerArea.SI())
		}
		for _, x := range numbers {
			if math.IsNaN(x) || math.IsInf(x, 0) || x < 0 {
				t.Fatalf("%v in %+v", x, out)
			}
		}
		for _, f := range out.Findings {
			if f.Message == "" || f.Subject == "" || !f.Source.Cited() {
				t.Fatalf("incomplete finding %+v", f)
			}
		}
	})
}

func TestSourcesAreDistinct(t *testing.T) {
	t.Parallel()
	seen := map[string]bool{}
	for _, s := range sources() {
		assert.True(t, s.Cited())
		assert.False(t, seen[s.ID], s.ID)
		seen[s.ID] = true
	}
}

func BenchmarkPlan(b *testing.B) {
	in := usual()
	in.Crew.Batteries = new(units.Count(3))
	b.ReportAllocs()
	for b.Loop() {
		if out := Plan(in); out.Elapsed <= 0 {
			b.Fatal("no hours")
		}
	}
}
