package flight

import (
	"bytes"
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/units"
)

// row is one line of a published table, by column name.
type row map[string]string

func (r row) number(t *testing.T, column string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(r[column], 64)
	require.NoError(t, err, "column %s", column)
	return x
}

// published reads a table of testdata/published; lines that start with # are its reference.
func published(t *testing.T, name string) []row {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "published", name))
	require.NoError(t, err)
	reader := csv.NewReader(bytes.NewReader(data))
	reader.Comment = '#'
	lines, err := reader.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(lines), 1, "a table has a header and rows")
	var rows []row
	for _, line := range lines[1:] {
		r := row{}
		for i, column := range lines[0] {
			r[column] = line[i]
		}
		rows = append(rows, r)
	}
	return rows
}

// tableRotors are the six rotors of the computed cases: disc area 3.311 m2.
var tableRotors = Rotors{Count: 6, Diameter: 0.8382 * units.Meter}

func TestLevelInflowTable(t *testing.T) {
	t.Parallel()
	for _, r := range published(t, "glauert-level-inflow.csv") {
		t.Run("x "+r["x"], func(t *testing.T) {
			x := r.number(t, "x")
			assert.InDelta(t, r.number(t, "ratio"), levelInflow(x), 0.000005)
			// The solver with the disc held level gives the same.
			assert.InDelta(t, levelInflow(x), inducedVelocity(1, x, 0), 1e-12)
		})
	}
}

func TestForwardFlightTable(t *testing.T) {
	t.Parallel()
	weight := (24 * units.Kilogram).Weight().SI()
	area := tableRotors.DiscArea().SI()
	assert.InDelta(t, 3.311, area, 0.0005)
	for _, r := range published(t, "glauert-forward-flight.csv") {
		t.Run(r["speed_mps"]+" m/s", func(t *testing.T) {
			f := forwardFlow(weight, 1.225, area, 0.30, r.number(t, "speed_mps"))
			assert.InDelta(t, r.number(t, "thrust_n"), f.thrust, 0.005)
			assert.InDelta(t, r.number(t, "tilt_deg"), units.Angle(math.Atan2(f.drag, weight)).In(units.Degree), 0.005)
			assert.InDelta(t, r.number(t, "induced_mps"), f.induced, 0.00005)
			assert.InDelta(t, r.number(t, "induced_w"), f.thrust*f.induced, 0.05)
			assert.InDelta(t, r.number(t, "parasite_w"), f.parasite, 0.05+1e-9, "183.75 is printed as 183.8")
			assert.InDelta(t, r.number(t, "sum_w"), f.thrust*f.induced+f.parasite, 0.05)
			assert.InDelta(t, parasitePower(1.225, 0.30, r.number(t, "speed_mps")), f.parasite, 1e-9)
		})
	}
}

// The three terms of forward flight, put together with a published parameter set.
func TestPublishedPowerCurve(t *testing.T) {
	t.Parallel()
	const weight, density, area, tip, solidity, k, d0 = 20, 1.225, 0.503, 120, 0.05, 0.1, 0.6
	v0 := hoverInflow(weight, density, area)
	induced := (1 + k) * idealHover(weight, density, area)
	const profile = 0.012 / 8 * density * solidity * area * tip * tip * tip // delta rho s A U^3/8
	assert.InDelta(t, 4.03, v0, 0.005, "printed in the table")
	assert.InEpsilon(t, 88.5, induced, 0.003, "printed in the table, good to 0.3 percent")
	assert.InDelta(t, 88.628, induced, 0.0005)
	power := func(v float64) float64 {
		return profile*bladeGrowth(3, v/tip) + induced*levelInflow(v/v0) + parasitePower(density, d0*solidity*area, v)
	}
	for _, r := range published(t, "rotor-power-sensors-2023.csv") {
		t.Run(r["speed_mps"]+" m/s", func(t *testing.T) {
			assert.InDelta(t, r.number(t, "power_w"), power(r.number(t, "speed_mps")), r.number(t, "tolerance_w"))
		})
	}
	// Least power near 10.21 m/s, least energy per meter near 18.29 m/s at 8.828 J/m.
	assert.Less(t, power(10.21), min(power(10.11), power(10.31)))
	assert.Less(t, power(18.29)/18.29, min(power(18.19)/18.19, power(18.39)/18.39))
	assert.InDelta(t, 8.828, power(18.29)/18.29, 0.001)
}

// Ideal hover power in horsepower at sea level is T sqrt(T/A)/37.92 with lb and ft.
// Helicopter performance text, Ideal power, web reprint of 2016, prints 38 (heli-air.net/2016/02/05/ideal-power).
func TestIdealPowerInHorsepower(t *testing.T) {
	t.Parallel()
	const thrust, area = 55.0, 35.64 // lbf, ft2
	watts := idealHover((55 * units.Pound).Weight().SI(), 1.225, area*units.Foot.SI()*units.Foot.SI())
	constant := thrust * math.Sqrt(thrust/area) / units.Power(watts).In(units.Horsepower)
	assert.InDelta(t, 37.92, constant, 0.005, "computed")
	assert.InDelta(t, 38, constant, 0.5, "printed")
}

func TestThinAirTable(t *testing.T) {
	t.Parallel()
	machine := Machine{Rotors: &tableRotors, BatteryEnergy: 1 * units.KilowattHour, EmptyMass: 15 * units.Kilogram, FullMass: 25 * units.Kilogram}
	sea := New(machine, seaLevelDensity).Hover(machine.FullMass)
	for _, r := range published(t, "hover-power-thin-air.csv") {
		t.Run(r["density_altitude_ft"]+" ft", func(t *testing.T) {
			thin := New(machine, units.Density(r.number(t, "sigma"))*seaLevelDensity).Hover(machine.FullMass)
			assert.InDelta(t, r.number(t, "factor"), float64(thin/sea), 0.0001)
		})
	}
}

// oneHover is a machine calibrated to an overall efficiency by one hover at its full mass.
func oneHover(eta float64) Machine {
	m := Machine{Rotors: &tableRotors, BatteryEnergy: 1 * units.KilowattHour, EmptyMass: 14 * units.Kilogram, FullMass: 24 * units.Kilogram, SprayPower: new(units.Power(0))}
	ideal := discsOf(m).idealPower(m.FullMass.SI())
	m.FullEndurance = new(units.Duration(m.BatteryEnergy.SI() * eta / ideal))
	return m
}

func TestSprayingEnergyTable(t *testing.T) {
	t.Parallel()
	m := New(oneHover(0.55), seaLevelDensity)
	assert.InDelta(t, 0.55, m.Efficiency.SI(), 1e-12)
	assert.InDelta(t, 19.6050, m.Hover(1*units.Kilogram).SI(), 0.00005, "K, W/kg^1.5")
	for _, r := range published(t, "spraying-energy.csv") {
		from := units.Mass(r.number(t, "from_kg")) * units.Kilogram
		to := units.Mass(r.number(t, "to_kg")) * units.Kilogram
		during := units.Duration(r.number(t, "during_s")) * units.Second
		assert.InDelta(t, r.number(t, "power_from_w"), m.Hover(from).SI(), 0.05)
		assert.InDelta(t, r.number(t, "power_to_w"), m.Hover(to).SI(), 0.05)
		assert.InDelta(t, r.number(t, "energy_wh"), m.Spraying(from, to, 0, during).In(units.WattHour), 0.005)
		assert.InDelta(t, r.number(t, "at_mean_mass_wh"), m.Hover((from+to)/2).During(during).In(units.WattHour), 0.005)
		assert.InDelta(t, r.number(t, "at_full_mass_wh"), m.Hover(from).During(during).In(units.WattHour), 0.005)
	}
}

// Climbing takes 0.46 kJ per kg for 25 m and 0.93 for 50 m at an efficiency of 0.53 (computed).
func TestClimbValues(t *testing.T) {
	t.Parallel()
	m := New(oneHover(0.53), seaLevelDensity)
	assert.InDelta(t, 460, m.Climb(1*units.Kilogram, 25*units.Meter).SI(), 5)
	assert.InDelta(t, 930, m.Climb(1*units.Kilogram, 50*units.Meter).SI(), 5)
	assert.Zero(t, m.Climb(1*units.Kilogram, -5*units.Meter), "a descent gives nothing back")
}

func TestPublishedEndurance(t *testing.T) {
	t.Parallel()
	for _, r := range published(t, "multirotor-endurance.csv") {
		machine := Machine{
			BatteryEnergy: units.Energy(r.number(t, "battery_wh")) * units.WattHour,
			FullMass:      14 * units.Kilogram, // invented: the mass was not printed and does not matter here
			FullEndurance: new(units.Duration(r.number(t, "endurance_min")) * units.Minute),
		}
		assert.InDelta(t, r.number(t, "power_all_w"), New(machine, seaLevelDensity).Hover(machine.FullMass).SI(), 5)
		machine.MeasuredShare = new(80 * units.Percent)
		assert.InDelta(t, r.number(t, "power_80_w"), New(machine, seaLevelDensity).Hover(machine.FullMass).SI(), 5)
	}
}
