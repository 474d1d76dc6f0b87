package flight

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/finding"
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

func declared(t *testing.T, r row) Machine {
	t.Helper()
	return Machine{
		Rotors: &Rotors{
			Count:    units.Count(r.number(t, "rotors")),
			Diameter: units.Length(r.number(t, "diameter_m")) * units.Meter,
			Coaxial:  r["coaxial"] == "true",
		},
		BatteryEnergy: units.Energy(r.number(t, "battery_wh")) * units.WattHour,
		EmptyMass:     units.Mass(r.number(t, "light_kg")) * units.Kilogram,
		FullMass:      units.Mass(r.number(t, "loaded_kg")) * units.Kilogram,
	}
}

// The uncalibrated model against declared machines, within 20 percent, with the middle of the 85
// to 100 percent of the battery that declared hovers use.
func TestDeclaredMachines(t *testing.T) {
	t.Parallel()
	for _, r := range published(t, "spray-multirotors-declared.csv") {
		t.Run(r["machine"], func(t *testing.T) {
			machine := declared(t, r)
			assert.InDelta(t, r.number(t, "disc_m2"), machine.Rotors.DiscArea().SI(), 0.004, "diameters are rounded to a millimeter")
			d := discsOf(machine)
			assert.InDelta(t, r.number(t, "ideal_one_disc_w"), d.idealPower(machine.FullMass.SI())/d.factor, 3)

			machine.UsableShare = new(92.5 * units.Percent)
			m := New(machine, 1.225*units.KilogramPerCubicMeter)
			assert.False(t, m.Calibrated)
			assert.InEpsilon(t, r.number(t, "light_min"), m.Endurance(machine.EmptyMass).In(units.Minute), 0.20)
			assert.InEpsilon(t, r.number(t, "loaded_min"), m.Endurance(machine.FullMass).In(units.Minute), 0.20)
			if r["hover_w"] != "" {
				hover := m.Hover(units.Mass(r.number(t, "hover_kg")) * units.Kilogram)
				assert.InEpsilon(t, r.number(t, "hover_w"), hover.In(units.Watt), 0.20)
			}

			// 5 to 15 min on a battery with a full tank: Ozkan, Ohio State University Extension, 2023.
			machine.UsableShare = nil
			full := New(machine, 1.225*units.KilogramPerCubicMeter).Endurance(machine.FullMass).In(units.Minute)
			assert.True(t, 5 <= full && full <= 15, "%.1f min", full)
		})
	}
}

// Calibrated by the declared times the model gives the efficiency and the exponent of the table.
func TestDeclaredMachinesCalibrated(t *testing.T) {
	t.Parallel()
	for _, r := range published(t, "spray-multirotors-declared.csv") {
		t.Run(r["machine"], func(t *testing.T) {
			machine := declared(t, r)
			machine.EmptyEndurance = new(units.Duration(r.number(t, "light_min")) * units.Minute)
			machine.FullEndurance = new(units.Duration(r.number(t, "loaded_min")) * units.Minute)
			m := New(machine, 1.225*units.KilogramPerCubicMeter)
			assert.True(t, m.Calibrated)
			assert.InDelta(t, r.number(t, "eta_all"), m.Efficiency.SI(), 0.001, "half a digit and the rounded diameter")
			assert.InDelta(t, r.number(t, "exponent"), m.law.exponent, 0.005)

			machine.MeasuredShare = new(85 * units.Percent)
			assert.InDelta(t, r.number(t, "eta_85"), New(machine, 1.225*units.KilogramPerCubicMeter).Efficiency.SI(), 0.001)
		})
	}
}

// exceptions are the declared pairs that one hover cannot tell within 8 percent, with how far off it
// is. Both have six rotors of 0.838 m: by their own declared hover power the loaded time took 85 and 94
// percent of the battery, and the light time 74 and 73, so the two clocks were stopped by different
// rules. TestNoLawTellsAllPairs shows that no law of one point meets them and the others.
var exceptions = map[string]float64{"16 L with 6 rotors": 0.14, "20 L with 6 rotors": 0.29}

// pair is the declared hover times of a machine.
func pair(t *testing.T, r row) (light, loaded units.Duration) {
	t.Helper()
	return units.Duration(r.number(t, "light_min")) * units.Minute, units.Duration(r.number(t, "loaded_min")) * units.Minute
}

func TestOneHoverTellsTheOther(t *testing.T) {
	t.Parallel()
	for _, r := range published(t, "spray-multirotors-declared.csv") {
		t.Run(r["machine"], func(t *testing.T) {
			within := 0.08
			if off, known := exceptions[r["machine"]]; known {
				within = off
			}
			light, loaded := pair(t, r)
			for name, tc := range map[string]struct {
				empty, full *units.Duration
				want        units.Duration
				at          units.Mass
			}{
				"loaded tells light": {nil, &loaded, light, units.Mass(r.number(t, "light_kg"))},
				"light tells loaded": {&light, nil, loaded, units.Mass(r.number(t, "loaded_kg"))},
			} {
				machine := declared(t, r)
				machine.EmptyEndurance, machine.FullEndurance = tc.empty, tc.full
				machine.UsableShare = new(units.Whole) // the declared time ran the battery down
				m := New(machine, 1.225*units.KilogramPerCubicMeter)
				require.True(t, m.Calibrated)
				got := m.Endurance(tc.at)
				assert.InEpsilon(t, tc.want.SI(), got.SI(), within, name)
				requireExtrapolationSaid(t, m, got, tc.want)
			}
		})
	}
}

// requireExtrapolationSaid holds the answer to saying that the exponent was assumed, and between which
// times the other hover lies; the declared one must.
func requireExtrapolationSaid(t *testing.T, m Model, got, declared units.Duration) {
	t.Helper()
	said := false
	for _, a := range m.Assumptions {
		said = said || strings.Contains(a.Assumed, "1.5 power of weight")
	}
	require.True(t, said, "one point leaves the exponent assumed")
	for _, f := range m.Findings {
		if f.Code != CodeEnduranceExtrapolated {
			continue
		}
		require.Equal(t, finding.Caution, f.Severity)
		require.InEpsilon(t, got.SI(), f.Measured.(units.Duration).SI(), 1e-9)
		var best, low, high float64
		var who string
		_, err := fmt.Sscanf(f.Message, "One hover time was sent. From it we work out %f minutes of hover with", &best)
		require.NoError(t, err)
		_, rest, _ := strings.Cut(f.Message, "would lie between ")
		_, err = fmt.Sscanf(rest, "%f and %f %s", &low, &high, &who)
		require.NoError(t, err)
		minutes := declared.In(units.Minute)
		require.True(t, low*0.994 <= minutes && minutes <= high*1.006, "%v between %v and %v, three digits", minutes, low, high)
		return
	}
	require.Fail(t, "nothing said of the other weight")
}

// Two hovers calibrate the exponent as well, and the model gives both back.
func TestTwoHoversAreBothReproduced(t *testing.T) {
	t.Parallel()
	for _, r := range published(t, "spray-multirotors-declared.csv") {
		machine := declared(t, r)
		light, loaded := pair(t, r)
		machine.EmptyEndurance, machine.FullEndurance, machine.UsableShare = &light, &loaded, new(units.Whole)
		m := New(machine, 1.225*units.KilogramPerCubicMeter)
		assert.InEpsilon(t, light.SI(), m.Endurance(machine.EmptyMass).SI(), 1e-9, r["machine"])
		assert.InEpsilon(t, loaded.SI(), m.Endurance(machine.FullMass).SI(), 1e-9, r["machine"])
		for _, f := range m.Findings {
			assert.NotEqual(t, CodeEnduranceExtrapolated, f.Code)
		}
	}
}

// Of the declared pairs no law tells more than three within 8 percent from one point. Tried are: every
// exponent from 0.9 to 2.1; and momentum theory with a fixed load of up to half of the loaded power
// (electronics, pump) and a battery that gives less the harder it is drawn on (Peukert 1897,
// exponent 1 to 1.3). Theory alone, with neither, already tells three.
func TestNoLawTellsAllPairs(t *testing.T) {
	t.Parallel()
	rows := published(t, "spray-multirotors-declared.csv")
	told := func(power func(ratio float64) float64) int {
		n := 0
		for _, r := range rows {
			declared := r.number(t, "light_min") / r.number(t, "loaded_min")
			by := power(r.number(t, "light_kg") / r.number(t, "loaded_kg")) // light over loaded
			if off := declared * by; off <= 1.08 && off >= 1/1.08 {
				n++
			}
		}
		return n
	}
	theory := func(ratio float64) float64 { return math.Pow(ratio, hoverExponent) }
	assert.Equal(t, len(rows)-len(exceptions), told(theory))
	most := 0
	for n := 0.9; n <= 2.1; n += 0.01 {
		most = max(most, told(func(ratio float64) float64 { return math.Pow(ratio, n) }))
	}
	for fixed := 0.0; fixed <= 0.5; fixed += 0.01 {
		for peukert := 1.0; peukert <= 1.3; peukert += 0.01 {
			most = max(most, told(func(ratio float64) float64 { return math.Pow(fixed+(1-fixed)*theory(ratio), peukert) }))
		}
	}
	assert.Equal(t, told(theory), most)
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
