package crew

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/tract"
	"tractcheck/feasibility/units"
)

// published reads a table of testdata/published: rows by column name.
func published(t *testing.T, name string) []map[string]string {
	t.Helper()
	file, err := os.Open(filepath.Join("..", "..", "testdata", "published", name))
	require.NoError(t, err)
	defer func() { _ = file.Close() }()
	reader := csv.NewReader(file)
	reader.Comment = '#'
	records, err := reader.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(records), 1, "rows of %s", name)
	var rows []map[string]string
	for _, record := range records[1:] {
		row := map[string]string{}
		for i, column := range records[0] {
			row[column] = record[i]
		}
		rows = append(rows, row)
	}
	return rows
}

// number reads a number of a row, and halfDigit half a unit of its last printed digit.
func number(t *testing.T, row map[string]string, column string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(row[column], 64)
	require.NoError(t, err, column)
	return x
}

func halfDigit(row map[string]string, column string) float64 {
	_, decimals, _ := strings.Cut(row[column], ".")
	return 0.5 * math.Pow10(-len(decimals))
}

// sorties makes a plan of equal sorties.
func sorties(n, perBattery units.Count, area units.Area, flight units.Duration) tract.Plan {
	return tract.Plan{
		Area: area, Accounting: tract.Accounting{Tract: area, Sprayed: area}, Treated: area,
		Sorties: n, SortiesPerBattery: perBattery, AreaEach: units.Area(area.SI() / n.SI()),
		SprayTime: flight * units.Duration(n) / 2, FlightTime: flight * units.Duration(n),
		EnergyEach: 600 * units.WattHour, Feasible: true, BoundBy: tract.BoundTank,
	}
}

// crewOf makes a crew whose times are all stated.
func crewOf(people units.Count, refill, swap, charge units.Duration) Crew {
	return Crew{People: &people, RefillTime: &refill, BatterySwapTime: &swap, ChargeTime: &charge}
}

// TestFieldCapacity sprays each published width and speed for an hour of theoretical work in one
// sortie whose time is stretched by the efficiency: the work rate must be the effective capacity.
func TestFieldCapacity(t *testing.T) {
	t.Parallel()
	for _, row := range published(t, "iowa-state-a3-24-field-capacity.csv") {
		t.Run(row["width_ft"]+"x"+row["speed_mph"], func(t *testing.T) {
			t.Parallel()
			width := units.Length(number(t, row, "width_ft")) * units.Foot
			speed := units.Speed(number(t, row, "speed_mph")) * units.MilePerHour
			efficiency := units.Proportion(number(t, row, "efficiency_percent")) * units.Percent
			plan := sorties(1, 1, units.Length(speed.SI()*3600).By(width), units.Hour)
			plan.SprayTime, plan.FlightTime = units.Hour, units.Duration(3600/efficiency.SI())
			out := Plan(Input{Crew: crewOf(2, 0, 0, 600), Plan: plan, Aircraft: 1})
			assert.InDelta(t, number(t, row, "acres_per_hour"), out.WorkRate.In(units.AcrePerHour), halfDigit(row, "acres_per_hour"))
			assert.InDelta(t, efficiency.SI(), out.FieldEfficiency.SI(), 1e-12)
		})
	}
}

func TestBatteryRotation(t *testing.T) {
	t.Parallel()
	for _, row := range published(t, "battery-rotation.csv") {
		t.Run(row["cycle_min"], func(t *testing.T) {
			t.Parallel()
			r := rotation{
				aircraft: 1, cycle: 60 * number(t, row, "cycle_min"),
				cool: 60 * number(t, row, "cooling_min"), charge: 60 * number(t, row, "charging_min"),
			}
			assert.Equal(t, row["batteries"], r.batteries().String())
			assert.Equal(t, row["chargers"], r.chargers().String())

			// The job flown through agrees: with that many no wait, with one fewer the cycle
			// stretches as the formula says, over many loads.
			s := shift{
				sorties: 1000, aircraft: 1, perBattery: 1, flight: r.cycle - 60, refill: 60, reload: 60,
				cool: r.cool, charge: r.charge, batteries: int(r.batteries()), chargers: int(r.chargers()),
			}
			end, ok := s.run()
			require.True(t, ok)
			assert.InDelta(t, 1000*r.cycle, end, 1e-6)

			s.batteries--
			end, _ = s.run()
			// The first round is free, so the mean comes within one round of the formula.
			assert.InEpsilon(t, r.stretched(units.Count(s.batteries), r.chargers()), end/1000, 0.005)

			s.batteries, s.chargers = int(r.batteries()), 1
			end, _ = s.run()
			assert.InEpsilon(t, r.stretched(r.batteries(), 1), end/1000, 0.005)
		})
	}
}

func TestLoadingPlaceBound(t *testing.T) {
	t.Parallel()
	for _, row := range published(t, "loading-place-bound.csv") {
		t.Run(row["aircraft"], func(t *testing.T) {
			t.Parallel()
			n := units.Count(number(t, row, "aircraft"))
			crew := crewOf(2, 2*units.Minute, 2*units.Minute, 10*units.Minute)
			plan := sorties(3000, 1, 3000*3*units.Acre, 6*units.Minute)
			out := Plan(Input{Crew: crew, Plan: plan, Aircraft: n})
			// Starting together costs one round in 600 or more.
			assert.InEpsilon(t, number(t, row, "acres_per_hour"), out.WorkRate.In(units.AcrePerHour), 0.004)
			full := false
			for _, f := range out.Findings {
				full = full || f.Code == CodeLoadingPlaceFull
			}
			assert.Equal(t, n == 5, full, "the fourth machine is the last that helps")
		})
	}
}

// TestThreeMachines: a press report of 2024 on the first US authorization gives about 150 acres/h
// for three machines of 50 acres/h, which is perfect scaling: loading takes no time.
func TestThreeMachines(t *testing.T) {
	t.Parallel()
	plan := sorties(3000, 1, 3000*5*units.Acre, 6*units.Minute) // 50 acres/h each
	out := Plan(Input{Crew: crewOf(2, 0, 0, 600), Plan: plan, Aircraft: 3})
	assert.InDelta(t, 150, out.WorkRate.In(units.AcrePerHour), 0.5)
}

// TestWorkCycle: the worked cycle of 40 acres with 12 loads of whole passes, its parts as computed
// from the published model: spraying 3333.6 s, turns 230 s, ferry 360 s, service and climb 1080 s.
func TestWorkCycle(t *testing.T) {
	t.Parallel()
	plan := sorties(12, 1, 40*units.Acre, 1)
	plan.FlightTime, plan.SprayTime, plan.Treated = 3333.6+230+360, 3333.6, units.Area(3333.6*49)
	out := Plan(Input{Crew: crewOf(2, 90, 60, 600), Plan: plan, Aircraft: 1})
	assert.InDelta(t, 5003.6, out.Elapsed.SI(), 0.05)
	assert.InDelta(t, 28.8, out.WorkRate.In(units.AcrePerHour), 0.05)
	assert.InDelta(t, 0.660, out.FieldEfficiency.SI(), 0.0005)
}

// TestGenerator: 1500 Wh, 85 percent recharged in 12 minutes, efficiency 0.92: 6929 W from the
// wall, 8.66 kW rated at 80 percent, 9.5 kW at 3000 ft and 95 F; computed with the derating printed
// in portable-generator manuals.
func TestGenerator(t *testing.T) {
	t.Parallel()
	plan := sorties(100, 1, 400*units.Acre, 13*units.Minute)
	plan.EnergyEach = 0.85 * 1500 * units.WattHour
	in := Input{Crew: crewOf(2, 120, 60, 12*units.Minute), Plan: plan, Aircraft: 1, BatteryEnergy: 1500 * units.WattHour}
	out := Plan(in)
	require.Equal(t, units.Count(1), out.Chargers)
	assert.InDelta(t, 6929, out.GeneratorPower.SI()*0.8, 0.5)
	assert.InDelta(t, 8.66, out.GeneratorPower.In(units.Kilowatt), 0.005)

	in.Elevation, in.Temperature = new(3000*units.Foot), new(units.FromFahrenheit(95))
	assert.InDelta(t, 0.9114, derating(in.Elevation, in.Temperature).SI(), 1e-12)
	assert.InDelta(t, 9.5, Plan(in).GeneratorPower.In(units.Kilowatt), 0.05)

	assert.Equal(t, leastDerating, derating(new(1e9*units.Foot), new(units.FromFahrenheit(1e9))))
}

// TestCostParts: the parts of a worked cost that apply, computed with invented prices: two people
// at $25 and 25 acres/h make $2.00 per acre; a battery of $2,000 for 1,000 cycles of 4 acres $0.50;
// 0.35 kWh at $0.60 $0.21; and the machine by straight line.
func TestCostParts(t *testing.T) {
	t.Parallel()
	plan := sorties(100, 1, 400*units.Acre, 1)
	plan.FlightTime = 400.0 / 25 * units.Hour
	plan.EnergyEach = 0.85 * 1500 * units.WattHour
	in := Input{Crew: crewOf(2, 0, 0, 600), Plan: plan, Aircraft: 1, BatteryEnergy: 1500 * units.WattHour}
	in.Crew.Costs = Costs{
		MachinePrice: new(units.Dollars(45_000)), SalvageValue: new(units.Dollars(9_000)), MachineLifeArea: new(10_000 * units.Acre),
		BatteryPrice: new(units.Dollars(2_000)), BatteryCycles: new(units.Count(1_000)),
		LaborPerPersonHour: new(units.Dollars(25)), EnergyPerKilowattHour: new(units.Dollars(0.60)),
		TravelPerJob: new(units.Dollars(100)),
	}
	cost := Plan(in).Cost
	require.NotNil(t, cost)
	sum := 0.0
	for i, want := range []struct {
		name    string
		dollars float64
	}{{"machine", 3.60}, {"batteries", 0.50}, {"labor", 2.00}, {"energy", 0.21}, {"travel", 0.25}} {
		require.Less(t, i, len(cost.Parts))
		assert.Equal(t, want.name, cost.Parts[i].Name)
		got := cost.Parts[i].PerArea.In(units.DollarPerAcre)
		assert.InDelta(t, want.dollars, got, 0.005, want.name)
		sum += got
	}
	assert.InDelta(t, sum, cost.PerArea.In(units.DollarPerAcre), 1e-12)
}

// TestSetsOfSeveralBatteries: where two batteries fly at once a load wears both, and a set is not
// called a battery.
func TestSetsOfSeveralBatteries(t *testing.T) {
	t.Parallel()
	in := usual()
	in.Crew.Batteries = new(units.Count(2))
	in.Crew.Costs = Costs{BatteryPrice: new(units.Dollars(2_000)), BatteryCycles: new(units.Count(1_000))}
	single := Plan(in)
	in.BatteriesInSet = 2
	double := Plan(in)
	require.NotNil(t, double.Cost)
	// 40 loads at $2.00 over 160 acres.
	assert.InDelta(t, 0.50, single.Cost.PerArea.In(units.DollarPerAcre), 1e-9)
	assert.InDelta(t, 1.00, double.Cost.PerArea.In(units.DollarPerAcre), 1e-9)
	assert.Equal(t, single.Batteries, double.Batteries, "sets")
	assert.Contains(t, found(single, CodeBatteriesShort).Message, "With 2 batteries ")
	assert.Contains(t, found(double, CodeBatteriesShort).Message, "With 2 sets of 2 batteries ")

	said := false
	for _, a := range double.Assumptions {
		said = said || a.Subject == "/crew/costs"
	}
	assert.True(t, said, "what the cost leaves out")
}
