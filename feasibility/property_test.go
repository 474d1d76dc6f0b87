package feasibility_test

import (
	"math"
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tractcheck/feasibility"
	"tractcheck/feasibility/units"
)

// wild draws a positive figure over eighteen decades.
func wild(t *rapid.T, name string) float64 {
	return math.Pow(10, rapid.Float64Range(-9, 9).Draw(t, name))
}

// Whatever positive figures come in, the answer holds numbers and comes back.
func TestAssessBearsAbsurdFigures(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := leveeStrip()
		switch rapid.IntRange(0, 7).Draw(t, "what") {
		case 0:
			m.Aircraft.EmptyWeight = units.Mass(wild(t, "empty"))
			m.Aircraft.MaxTakeoffWeight = units.Mass(wild(t, "maximum"))
		case 1:
			m.Flight.Speed = units.Speed(wild(t, "speed"))
			m.Flight.Swath = units.Length(wild(t, "swath"))
		case 2:
			m.Flight.Height = units.Length(wild(t, "height"))
			m.Weather.WindSpeed = units.Speed(wild(t, "wind"))
		case 3:
			m.Load.ApplicationRate = units.ApplicationRate(wild(t, "rate") * 1e-6)
			m.Load.Fill = new(units.Volume(wild(t, "fill")))
		case 4:
			m.Aircraft.Battery.Energy = units.Energy(wild(t, "energy"))
			m.Aircraft.Rotors.Diameter = units.Length(wild(t, "diameter"))
		case 5:
			m.Field.Ground.Area = new(units.Area(wild(t, "area")))
			m.Field.Elevation = new(units.Length(wild(t, "elevation")))
		case 6:
			m.SpraySystem.System.Hydraulic.RatedFlow = units.Flow(wild(t, "flow"))
			m.SpraySystem.System.Hydraulic.RatedPressure = units.Pressure(wild(t, "pressure"))
		case 7:
			m.Weather.Temperature = units.Temperature(wild(t, "temperature"))
			m.Weather.RelativeHumidity = units.Proportion(wild(t, "humidity"))
		}
		a, err := feasibility.Assess(m)
		if err != nil {
			t.Fatal(err)
		}
		walkFloats(reflect.ValueOf(a), "answer", func(path string, x float64) {
			if math.IsNaN(x) || math.IsInf(x, 0) {
				t.Fatalf("%s is %v", path, x)
			}
		})
	})
}

func TestHeavierNeverMakesTheJobShorter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		light := rapid.Float64Range(15, 24).Draw(t, "light")
		more := rapid.Float64Range(0.1, 5).Draw(t, "more")
		sorties := func(pounds float64) units.Count {
			m := leveeStrip()
			m.Aircraft.EmptyWeight = units.Mass(pounds) * units.Pound
			a, err := feasibility.AssessSortiePlan(m)
			require.NoError(t, err)
			if !a.SortiePlan.Feasible {
				return math.MaxInt32
			}
			return a.SortiePlan.Sorties
		}
		if a, b := sorties(light), sorties(light+more); b < a {
			t.Fatalf("%g lb takes %d sorties, %g lb takes %d", light, a, light+more, b)
		}
	})
}
