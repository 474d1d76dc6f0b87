package wire

import (
	"encoding/json"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/spray"
	"tractcheck/feasibility/units"
)

func TestMissionOfTheLeveeStrip(t *testing.T) {
	t.Parallel()
	m, faults := readEdited(t, Assessments)
	require.Empty(t, faults)
	a := m.Aircraft
	require.NotNil(t, a)
	assert.InDelta(t, 24.0, a.EmptyWeight.In(units.Pound), 1e-12)
	assert.InDelta(t, 10.5, a.Battery.Weight.In(units.Pound), 1e-12)
	assert.InDelta(t, 0.8, a.Battery.Usable.SI(), 1e-12)
	assert.Equal(t, units.Count(1), *a.Battery.OnBoard)
	assert.Equal(t, units.Count(4), a.Rotors.Count)
	assert.True(t, *a.Sensing.Obstacle)
	assert.InDelta(t, 2, m.Load.Fill.In(units.Gallon), 1e-12)
	assert.InDelta(t, 8.345, m.Load.Density.In(units.PoundPerGallon), 1e-12)
	assert.InDelta(t, 2, m.Load.ApplicationRate.In(units.GallonPerAcre), 1e-12)
	assert.True(t, m.Load.Pesticide)
	assert.Equal(t, spray.Coarse, *m.Load.Label.DropletClassMax)
	assert.Equal(t, spray.FlatFan, m.SpraySystem.System.Hydraulic.Type)
	assert.Nil(t, m.SpraySystem.System.Rotary)
	assert.True(t, *m.SpraySystem.UnderRotors)
	assert.InDelta(t, 40, m.SpraySystem.System.Hydraulic.RatedPressure.In(units.PoundPerSquareInch), 1e-12)
	assert.InDelta(t, 10, m.Flight.Speed.In(units.MilePerHour), 1e-12)
	assert.InDelta(t, 2640, m.Field.Ground.Length.In(units.Foot), 1e-9)
	require.Len(t, m.Field.Neighbors, 2)
	assert.Equal(t, "water", m.Field.Neighbors[1].Kind)
	assert.InDelta(t, 78, m.Weather.Temperature.Fahrenheit(), 1e-9)
	assert.Equal(t, "2026-06-03T14:30:00Z", m.Weather.At.UTC().Format(time.RFC3339))
	assert.Equal(t, permits.EconomicPoison, *m.Operation.Dispenses)
	assert.Equal(t, units.Count(4), *m.Crew.Batteries)
	assert.Nil(t, m.Crew.Costs.MachinePrice)
	assert.Nil(t, m.Flight.Course, "a fact not sent stays unknown")
	assert.Nil(t, m.Operation.WPSSite, "a fact not sent stays unknown")
}

func TestMissionOfEverythingElse(t *testing.T) {
	t.Parallel()
	spectra := []any{
		map[string]any{"rotation": of(6000, "rpm"), "dv01": of(80, "um"), "dv05": of(160, "um"), "dv09": of(300, "um")},
		map[string]any{"rotation": of(9000, "rpm"), "dv05": of(120, "um")},
	}
	m, faults := readEdited(t, Assessments,
		edit{"/units", "si"},
		edit{"/aircraft/hover_endurance", map[string]any{"empty": of(20, "min"), "full": of(9, "min")}},
		edit{"/aircraft/drag_area", of(0.3, "m2")},
		edit{"/spray_system/atomizer", "rotary"},
		edit{"/spray_system/placement", "boom"},
		edit{"/spray_system/nozzle", nil},
		edit{"/spray_system/rotary", map[string]any{
			"disc_diameter": of(80, "cm"), "rotation": of(8000, "rpm"),
			"min_rotation": of(3000, "rpm"), "max_rotation": of(14000, "rpm"), "spectra": spectra,
		}},
		edit{"/load/density", nil},
		edit{"/load/specific_gravity", 1.28},
		edit{"/weather/lapse", map[string]any{
			"lower_temperature": of(20, "degC"), "upper_temperature": of(21, "degC"),
			"lower_height": of(2, "m"), "upper_height": of(10, "m"),
		}},
		edit{"/operation/expiries", []any{map[string]any{"id": "remote-pilot-certificate", "date": "2027-03-31"}}},
		edit{"/operation/state", "TX"},
		edit{"/operation/approved_weight", of(90, "lb")},
		edit{"/crew/costs", map[string]any{
			"machine_price": of(20000, "USD"), "salvage_value": of(2000, "USD"), "battery_cycles": 800,
			"machine_life_area": of(20000, "ac"), "ground_quote": of(14, "USD/ac"), "labor_per_person_hour": of(22.5, "USD"),
		}},
	)
	require.Empty(t, faults)
	rotary := m.SpraySystem.System.Rotary
	require.NotNil(t, rotary)
	require.Len(t, rotary.Spectra, 2)
	assert.InDelta(t, 160, rotary.Spectra[0].Dv05.In(units.Micrometer), 1e-9)
	assert.Nil(t, rotary.Spectra[1].Dv01)
	assert.False(t, *m.SpraySystem.UnderRotors)
	assert.InDelta(t, 1.28, m.Load.Density.In(units.KilogramPerLiter), 1e-12)
	assert.InDelta(t, 21, m.Weather.Lapse.UpperTemperature.Celsius(), 1e-9)
	assert.Equal(t, time.Date(2027, 3, 31, 0, 0, 0, 0, time.UTC), m.Operation.Expiries[0].Date)
	assert.Equal(t, 20000*units.Dollar, *m.Crew.Costs.MachinePrice)
	assert.Equal(t, units.Money(22500), *m.Crew.Costs.LaborPerPersonHour)
	assert.InDelta(t, 14, m.Crew.Costs.GroundQuote.In(units.DollarPerAcre), 1e-9)
	assert.InDelta(t, 9, m.Aircraft.FullEndurance.In(units.Minute), 1e-9)
}

func TestTimesThatAreAccepted(t *testing.T) {
	t.Parallel()
	for _, text := range []string{
		"2026-06-03T09:30:00Z", "2026-06-03T09:30:00.123456789Z", "2026-06-03T09:30:00-05:00",
		"2026-06-03T09:30:00-00:00", "2028-02-29T00:00:00+14:00",
	} {
		_, faults := readEdited(t, Assessments, edit{"/weather/at", text})
		assert.Empty(t, faults, text)
	}
}

// An empty list says that there is none; a list not sent says nothing.
func TestEmptyListsAreNotMissingLists(t *testing.T) {
	t.Parallel()
	m, faults := readEdited(t, Assessments, edit{"/field/neighbors", []any{}}, edit{"/operation/holds", []any{}})
	require.Empty(t, faults)
	assert.NotNil(t, m.Field.Neighbors)
	assert.NotNil(t, m.Operation.Holds)
	m, faults = readEdited(t, Assessments, edit{"/field/neighbors", nil}, edit{"/operation/holds", nil})
	require.Empty(t, faults)
	assert.Nil(t, m.Field.Neighbors)
	assert.Nil(t, m.Operation.Holds)
}

func TestTheWholeMissionServesEveryEndpoint(t *testing.T) {
	t.Parallel()
	for _, endpoint := range allEndpoints {
		_, faults := readEdited(t, endpoint)
		assert.Empty(t, faults, endpoint)
		assert.NoError(t, compiled(t, endpoint.SchemaName()).Validate(any(sampleBody(t))), endpoint)
	}
}

// Reading changes nothing and gives the same result each time.
func TestMissionLeavesTheRequestAlone(t *testing.T) {
	t.Parallel()
	request := decoded(t, sampleBody(t))
	before, err := json.Marshal(request)
	require.NoError(t, err)
	first, _ := request.Mission(Assessments)
	second, _ := request.Mission(Assessments)
	after, err := json.Marshal(request)
	require.NoError(t, err)
	assert.JSONEq(t, string(before), string(after))
	assert.Equal(t, first, second)
}
