package wire

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tractcheck/feasibility/units"
)

// Exact conversion factors of Thompson and Taylor 2008, Guide for the Use of the SI, NIST Special
// Publication 811, appendix B.8, and of the international foot (85 FR 62698, 5 October 2020).
func TestUnitsConvertByThePublishedFactors(t *testing.T) {
	t.Parallel()
	for _, tc := range []struct {
		name units.Dimension
		code string
		sent float64
		si   float64
	}{
		{units.DimensionMass, "lb", 1, 0.45359237},
		{units.DimensionMass, "g", 1, 0.001},
		{units.DimensionVolume, "gal", 1, 3.785411784e-3},
		{units.DimensionVolume, "fl_oz", 128, 3.785411784e-3},
		{units.DimensionVolume, "mL", 1, 1e-6},
		{units.DimensionLength, "ft", 1, 0.3048},
		{units.DimensionLength, "in", 1, 0.0254},
		{units.DimensionLength, "mi", 1, 1609.344},
		{units.DimensionLength, "um", 150, 150e-6},
		{units.DimensionArea, "ac", 1, 4046.8564224},
		{units.DimensionArea, "ha", 1, 10000},
		{units.DimensionSpeed, "mph", 1, 0.44704},
		{units.DimensionSpeed, "km/h", 3.6, 1},
		{units.DimensionSpeed, "kn", 1, 1852.0 / 3600},
		{units.DimensionPressure, "psi", 1, 6894.757293168},
		{units.DimensionPressure, "bar", 1, 1e5},
		{units.DimensionFlow, "gal/min", 1, 6.30901964e-5},
		{units.DimensionApplicationRate, "L/ha", 1, 1e-7},
		{units.DimensionApplicationRate, "gal/ac", 1, 3.785411784e-3 / 4046.8564224},
		{units.DimensionDensity, "kg/L", 1, 1000},
		{units.DimensionDensity, "lb/gal", 1, 119.8264273},
		{units.DimensionTemperature, "degF", 32, 273.15},
		{units.DimensionTemperature, "degF", 212, 373.15},
		{units.DimensionTemperature, "degC", -40, 233.15},
		{units.DimensionTemperatureDifference, "delta_degF", 18, 10},
		{units.DimensionEnergy, "kWh", 1, 3.6e6},
		{units.DimensionPower, "hp", 1, 745.69987},
		{units.DimensionTime, "h", 1, 3600},
		{units.DimensionAngle, "deg", 180, math.Pi},
		{units.DimensionRotation, "rpm", 60, 2 * math.Pi},
		{units.DimensionProportion, "%", 62, 0.62},
		{units.DimensionMoney, "USD", 12.5, 12.5},
		{units.DimensionAreaRate, "ha/h", 1, 10000.0 / 3600},
		{units.DimensionAreaCost, "USD/ha", 1, 1e-4},
	} {
		d, ok := dimensionOf(tc.name)
		require.True(t, ok)
		u, ok := d.find(tc.code)
		require.True(t, ok, tc.code)
		assert.InEpsilon(t, tc.si, u.toSI(tc.sent), 1e-8, "%g %s", tc.sent, tc.code)
		assert.InDelta(t, tc.sent, u.from(tc.si), 1e-7*math.Abs(tc.sent), "%g %s back", tc.sent, tc.code)
	}
}

func TestUnitsComeBack(t *testing.T) {
	t.Parallel()
	for _, d := range dimensions {
		for _, u := range d.units {
			for _, value := range []float64{-40, 0, 1e-6, 1, 10.5, 2.4, 8.345, 1e9} {
				assert.InDelta(t, value, u.from(u.toSI(value)), 1e-9+1e-12*math.Abs(value), "%g %s", value, u.code)
			}
		}
	}
}

func TestExpressRounds(t *testing.T) {
	t.Parallel()
	for _, tc := range []struct {
		name string
		got  Quantity
		want float64
	}{
		{"to six digits", express(51.1900000001*units.Pound, "lb"), 51.19},
		{"half away from zero", express(1.2345675*units.Pound, "lb"), 1.23457},
		{"downward", expressDown(2.4571999*units.Gallon, "gal"), 2.45719},
		{"downward, but not for a conversion's last bit", expressDown(2.4*units.Gallon, "gal"), 2.4},
		{"small", express(150*units.Micrometer, "um"), 150},
		{"negative", express(-3.81*units.Pound, "lb"), -3.81},
		{"temperature", express(units.FromFahrenheit(78), "degF"), 78},
		{"a unit of another dimension", express(1*units.Pound, "gal"), 1},
		{"count", express(units.Count(3), "count"), 3},
		{"money", express(units.Dollars(19.99), "USD"), 19.99},
	} {
		assert.InDelta(t, tc.want, *tc.got.Value, 1e-12, tc.name)
	}
	text, err := json.Marshal(express(units.Mass(math.Copysign(0, -1)), "lb"))
	require.NoError(t, err)
	assert.JSONEq(t, `{"value":0,"unit":"lb"}`, string(text))
	assert.NotContains(t, string(text), "-0")
}

// What leaves the house can come back in: rounding moves a value by less than a unit of its sixth
// digit, and downward rounding never moves it up, but for the trace of an earlier rounding.
func TestExpressedQuantitiesComeBack(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.SampledFrom(dimensions).Draw(t, "dimension")
		u := rapid.SampledFrom(d.units).Draw(t, "unit")
		value := rapid.Float64Range(1e-3, 1e6).Draw(t, "value")
		q := anything{si: u.toSI(value), dimension: d.name}
		near, down := express(q, u.code), expressDown(q, u.code)
		if math.Abs(*near.Value-value) > value*0.5000001e-5 {
			t.Fatalf("%v became %v %s", value, *near.Value, near.Unit)
		}
		if *down.Value > value*(1+1.1e-8) || *down.Value < value*(1-1.000001e-5) {
			if d.name != units.DimensionTemperature { // its zero lies elsewhere
				t.Fatalf("%v became %v %s", value, *down.Value, down.Unit)
			}
		}
	})
}

// anything is a quantity of any dimension.
type anything struct {
	si        float64
	dimension units.Dimension
}

func (q anything) SI() float64                { return q.si }
func (q anything) Dimension() units.Dimension { return q.dimension }
func (q anything) String() string             { return string(q.dimension) }

func TestExpressOfAnUnknownDimension(t *testing.T) {
	t.Parallel()
	q := express(anything{si: 3, dimension: "luck"}, "lb")
	assert.Equal(t, "luck", q.Unit)
	assert.InDelta(t, 3, *q.Value, 0)
}

func TestWholeNumbers(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]int{"4": 4, "4.0": 4, "4e0": 4, "0": 0, "-0": 0, "40e-1": 4} {
		var n struct {
			Count *Whole `json:"count"`
		}
		require.NoError(t, json.Unmarshal([]byte(`{"count":`+text+`}`), &n), text)
		require.NotNil(t, n.Count)
		assert.Equal(t, want, int(*n.Count), text)
	}
	for _, text := range []string{"4.5", `"4"`, "true", "1e300", "-1e10", "{}"} {
		var n Whole
		assert.Error(t, json.Unmarshal([]byte(text), &n), text)
	}
	var n struct {
		Count *Whole `json:"count"`
	}
	require.NoError(t, json.Unmarshal([]byte(`{"count":null}`), &n))
	assert.Nil(t, n.Count)
	var bare Whole = 3
	require.NoError(t, bare.UnmarshalJSON([]byte("null")))
	assert.Equal(t, Whole(3), bare)
}

// expressDown is express with the value rounded toward zero.
func expressDown(q units.Quantity, code string) Quantity {
	d, _ := dimensionOf(q.Dimension())
	value, unit := d.expressed(q.SI(), code, towardZero)
	return Quantity{Value: &value, Unit: unit}
}
